import type { Dimension, Drawing, Layer, Shape } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { line, polyline, segmentPath, type Path } from "../../geometry/path.ts";
import { curvatureAt, piecesOf, pieceLength, pointAt, tangentAt } from "../../geometry/segment.ts";
import { add, leftOf, scale, vec, type Vec } from "../../geometry/vec.ts";
import { smoothRuns } from "../../lutherie/unrolled-side.ts";
import { centreAlong } from "../centre-line.ts";
import { mitreLayer } from "../mitre-mark.ts";
import type { InPlace, Sources } from "../contract.ts";
import type { BodyHalf, BodyLevel, BodyMeasures, Ledge } from "./measure.ts";
import { mitresOf } from "./mitres.ts";
import { instrumentOf, type BodyParams } from "./numbers.ts";

const BEYOND = 12;
const ROW = 14;

export function drawBody(p: BodyParams, m: BodyMeasures, from: Sources): Drawing {
  if (!m.outline) return { layers: [], dimensions: [] };
  const { side } = instrumentOf(from);
  return {
    layers: [
      outlineLayer(m),
      insideLayer(m),
      ledgeLayer("binding", m.topLedges),
      ...mitreLayer(mitresOf(m.corners, m.topLedges), "plain"),
      centreLayer(m.outline),
      levelLayer(m, side),
      ...(p.fairness ? [fairnessLayer(m.outline)] : []),
    ],
    dimensions: dimensions(p, m, m.outline, side),
  };
}

export const outlineLayer = (m: BodyMeasures): Layer => ({
  name: "outline",
  shapes: m.outline
    ? [
        {
          id: "outline",
          role: "cut",
          line: "visible",
          path: m.outline,
          name: "body",
          says: [
            { label: "round the edge", value: m.perimeter, quantity: "length" },
            { label: "treble side, tail to neck", value: m.trebleSide, quantity: "length" },
            { label: "bass side, tail to neck", value: m.bassSide, quantity: "length" },
          ],
          tint: "wood",
        },
      ]
    : [],
});

export const insideLayer = (m: BodyMeasures): Layer => ({
  name: "inside",
  shapes: m.inside
    ? [
        {
          id: "inside",
          role: "guide",
          line: "hidden",
          path: m.inside,
          name: "inside of the sides",
          says: [{ label: "sides", value: m.sideThickness, quantity: "length" }],
        },
      ]
    : [],
});

export const ledgeLayer = (name: string, ledges: readonly Ledge[]): Layer => ({
  name,
  shapes: ledges.flatMap(({ id, name: layer, inset, height, path }): Shape[] =>
    path
      ? [
          {
            id,
            role: "guide",
            line: "narrow",
            path,
            name: `wall of the channel for ${layer}`,
            says: [
              { label: "in from the edge", value: inset, quantity: "length" },
              { label: "down the side", value: height, quantity: "length" },
            ],
          },
        ]
      : [],
  ),
});

export const centreLayer = (outline: Path): Layer => {
  const box = pathBounds(outline);
  return centreAlong(box.minX - BEYOND, box.maxX + BEYOND);
};

/** The place of a level on the instrument: halves are kept on the side of rising y. */
const placed = (at: Vec, sign: number): Vec => vec(at.x, sign * at.y);

/** "bout 1": bouts and waists are counted from the neck. */
export const levelName = (levels: readonly BodyLevel[], index: number): string => {
  const { what } = levels[index]!;
  const same = levels.filter((level) => level.what === what);
  if (same.length === 1) return what;
  const nth = levels.slice(0, index + 1).filter((level) => level.what === what).length;
  if (what === "bout" && same.length === 2) return nth === 1 ? "upper bout" : "lower bout";
  return `${what} ${nth}`;
};

const halfMarks = (half: BodyHalf | undefined, name: "treble" | "bass", sign: number): Shape[] =>
  (half?.levels ?? []).map((level, i): Shape => {
    const at = placed(level.at, sign);
    return {
      id: `${name}-level-${i + 1}`,
      role: "mark",
      line: "narrow",
      path: segmentPath(vec(at.x, at.y - sign * 14), at),
      name: levelName(half!.levels, i),
      says: [
        { label: "from the centre line", value: level.at.y, quantity: "length" },
        ...(level.radius !== undefined ? [{ label: "radius", value: level.radius, quantity: "length" } as const] : []),
        ...(level.leanRad > 0 ? [{ label: "a router on the top leans", value: level.leanRad, quantity: "angle" } as const] : []),
      ],
    };
  });

export const levelLayer = (m: BodyMeasures, side: 1 | -1): Layer => ({
  name: "levels",
  shapes: [...halfMarks(m.treble, "treble", side), ...halfMarks(m.bass, "bass", -side)],
});

/** Length of a fairness line for a bend of 1 / mm, and the longest one drawn. */
const SPOKE = 1500;
const LONGEST = 60;
/** Between two fairness lines, mm. */
const APART = 7;

/** Lines square to the edge, as long as it bends there, and a line through their ends; each stretch without a corner for itself. */
function fairnessLayer(outline: Path): Layer {
  const shapes: Shape[] = [];
  for (const run of smoothRuns(outline)) {
    const comb: Vec[] = [];
    const tips: Vec[] = [];
    for (const piece of piecesOf(run)) {
      const count = Math.max(1, Math.round(pieceLength(piece) / APART));
      for (let k = 0; k <= count; k++) {
        const foot = pointAt(piece, k / count);
        const way = tangentAt(piece, k / count);
        const bend = curvatureAt(piece, k / count);
        // A piece too short to have a direction has no bend either.
        if (!way || Number.isNaN(bend)) continue;
        const tip = add(foot, scale(leftOf(way), Math.max(-LONGEST, Math.min(LONGEST, -SPOKE * bend))));
        comb.push(foot, tip, foot);
        tips.push(tip);
      }
    }
    if (tips.length < 2) continue;
    const id = `fairness-${shapes.length / 2 + 1}`;
    shapes.push(
      { id, role: "guide", line: "narrow", path: polyline(comb), name: "fairness lines" },
      { id: `${id}-ends`, role: "guide", line: "narrow", path: polyline(tips), name: "ends of the fairness lines" },
    );
  }
  return { name: "fairness", shapes };
}

function dimensions(p: BodyParams, m: BodyMeasures, outline: Path, side: 1 | -1): Dimension[] {
  const box = pathBounds(outline);
  const byMeasures = p.outlineBy === "measures";
  const along = (id: string, x: number, row: number, edits: string, rank: 1 | 2 | 3, after?: string): Dimension => ({
    id,
    from: vec(m.neckX, box.minY),
    to: vec(x, box.minY),
    along: "x",
    offset: -ROW * row,
    value: x - m.neckX,
    quantity: "length",
    ...(byMeasures ? { edits } : {}),
    ...(after ? { after } : {}),
    rank,
  });
  const across = (id: string, x: number, width: number, edits: string, rank: 1 | 2): Dimension => ({
    id,
    from: vec(x, -width / 2),
    to: vec(x, width / 2),
    along: "y",
    offset: 0,
    value: width,
    quantity: "length",
    edits,
    rank,
  });
  const list: Dimension[] = [along("length", m.tailX, byMeasures ? 4 : 1, ".length", 1)];
  if (byMeasures) {
    const [trebleWhole, bassWhole] = [p.cutaway === "none", p.bassCutaway === "none"];
    list.push(
      along("upper-at", m.joinX + p.upperBoutAt, 1, ".upperBoutAt", 3),
      along("waist-at", m.joinX + p.waistAt, 2, ".waistAt", 3),
      along("lower-at", m.joinX + p.lowerBoutAt, 3, ".lowerBoutAt", 3),
      ...(trebleWhole && bassWhole ? [across("upper", m.joinX + p.upperBoutAt, p.upperBout, ".upperBout", 1)] : []),
      across("waist", m.joinX + p.waistAt, p.waist, ".waist", 1),
      across("lower", m.joinX + p.lowerBoutAt, p.lowerBout, ".lowerBout", 1),
    );
    // From the centre line to the side that is not cut away; where both are, there is no upper bout to measure.
    if (trebleWhole !== bassWhole)
      list.push({
        id: "upper-half",
        from: vec(m.joinX + p.upperBoutAt, 0),
        to: vec(m.joinX + p.upperBoutAt, (trebleWhole ? side : -side) * (p.upperBout / 2)),
        along: "y",
        offset: 0,
        value: p.upperBout / 2,
        quantity: "length",
        rank: 2,
      });
  } else
    list.push({
      id: "across",
      from: vec(box.maxX, box.minY),
      to: vec(box.maxX, box.maxY),
      along: "y",
      offset: -ROW,
      value: box.maxY - box.minY,
      quantity: "length",
      rank: 1,
    });
  return list;
}

/** On the whole instrument: its edge and the inmost layer; of a solid body the slab from the side too. */
export function bodyInPlace(p: BodyParams, m: BodyMeasures): InPlace {
  if (!m.outline) return {};
  const ledge = m.topLedges.at(-1);
  const front: Drawing = {
    layers: [outlineLayer(m), ...(ledge ? [ledgeLayer("binding", [ledge])] : [])],
    dimensions: [],
  };
  if (p.build === "hollow") return { front };
  const slab: Path = {
    start: vec(m.neckX, 0),
    segments: [line(vec(m.neckX, -p.depth)), line(vec(m.tailX, -p.depth)), line(vec(m.tailX, 0)), line(vec(m.neckX, 0))],
    closed: true,
  };
  return {
    front,
    side: {
      layers: [
        { name: "outline", shapes: [{ id: "outline", role: "cut", line: "visible", path: slab, name: "body", tint: "wood" }] },
      ],
      dimensions: [],
    },
    plane: "body",
  };
}
