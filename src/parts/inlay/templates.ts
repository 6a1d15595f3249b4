/** The inlay's patterns, as its letters are read: where it goes, what is cut there and what fills it. */
import type { Layer, Shape } from "../../drawing/drawing.ts";
import { pathsBounds } from "../../geometry/measure.ts";
import type { Outline } from "../../geometry/outline.ts";
import { segmentPath, type Path } from "../../geometry/path.ts";
import { rotation, scaling, transformOutline, transformPath } from "../../geometry/transform.ts";
import { vec } from "../../geometry/vec.ts";
import type { Pass } from "../../lutherie/inlay-clearing.ts";
import type { InlayTemplate } from "../../lutherie/inlay-template.ts";
import type { CutterPasses, Sources, TemplateSource } from "../contract.ts";
import { hostLayer, numberTexts, outlineShapes, seenOf, type Seen } from "./draw.ts";
import { grainArrow, grainOf, layPieces } from "./layout.ts";
import type { InlayMeasures } from "./measure.ts";
import type { InlayParams } from "./numbers.ts";
import { bushEdges, bushRows, couponTemplate, guidedCouponTemplate, NUMBER, SMALL } from "./templates-coupon.ts";
import type { InlayCut } from "./work.ts";

/** None as long as not everything is worked out: what is cut is never taken from a coarse answer. */
export function inlayTemplates(p: InlayParams, m: InlayMeasures, from: Sources): TemplateSource[] {
  const seen = m.state === "final" ? seenOf(p, from) : undefined;
  if (!seen) return [];
  const { cut, coupon, guidedCoupon } = seen.answer;
  const designed = designedTemplate(p, seen);
  if (!cut || cut.pocket.length === 0) return [designed];
  return [
    designed,
    pocketTemplate(p, m, seen, cut),
    plugTemplate(p, m, cut),
    ...cut.templates.map((template) => bushTemplate(p, seen, template)),
    ...(seen.answer.cleared ? [passesTemplate(p, m, seen, seen.answer.cleared.passes)] : []),
    ...(coupon ? [couponTemplate(coupon, p)] : []),
    ...(guidedCoupon ? [guidedCouponTemplate(guidedCoupon, p)] : []),
  ];
}

const asText = (p: InlayParams): string => (p.text.trim() === "" ? "inlay" : p.text.trim().slice(0, 24));

/** The part's own edge, and the middle of the letters, to lay a pattern by. */
function around(p: InlayParams, { host }: Seen): Layer[] {
  const cross = [0, Math.PI / 2].map((angle, i): Shape => ({
    id: `middle-${i + 1}`,
    role: "centre",
    line: "centre",
    path: transformPath(rotation(angle), segmentPath(vec(-6, 0), vec(6, 0))),
    name: "middle of the letters",
  }));
  return [...(host ? [hostLayer(p, host)] : []), { name: "centre", shapes: cross }];
}

function designedTemplate(p: InlayParams, seen: Seen): TemplateSource {
  const { outlines, cut } = seen.answer;
  return {
    name: "as-designed",
    title: `As designed, ${asText(p)}`,
    lineIs:
      p.method === "knife"
        ? "edge of the letters as drawn, with the numbers of the pieces; glue it on, or prick it through"
        : "edge of the letters as drawn, with the numbers of the pieces, to look at in place; bits cut it rounder",
    drawing: {
      layers: [
        ...around(p, seen),
        {
          name: "as-designed",
          shapes: outlineShapes(outlines, "drawn", { role: "mark", line: "visible" }, (n) => `piece ${n} as drawn`),
        },
        { name: "numbers", shapes: [], texts: numberTexts(cut?.pieces ?? [], NUMBER) },
      ],
      dimensions: [],
    },
  };
}

function pocketTemplate(p: InlayParams, m: InlayMeasures, seen: Seen, cut: InlayCut): TemplateSource {
  const passes = seen.answer.cleared ? cutterPasses(p, seen.answer.cleared.passes) : [];
  return {
    name: "pocket",
    title: `Pocket, ${asText(p)}`,
    lineIs: `edge of the pocket, ${POCKET_BY[p.method]}; cut inside the line, the line is its wall`,
    drawing: {
      layers: [
        ...around(p, seen),
        {
          name: "pocket",
          shapes: outlineShapes(
            cut.pocket,
            "pocket",
            { role: "pocket", line: "visible", tint: "waste", says: [{ label: "depth", value: m.depth, quantity: "length" }] },
            (n) => `pocket ${n}`,
          ),
        },
      ],
      dimensions: [],
    },
    ...(passes.length > 0 ? { passes } : {}),
  };
}

const POCKET_BY: Readonly<Record<InlayParams["method"], string>> = {
  machine: "rounded as its bit leaves it",
  bush: "rounded as its bit and bush leave it",
  knife: "with the corners of the drawing",
};

function plugTemplate(p: InlayParams, m: InlayMeasures, cut: InlayCut): TemplateSource {
  const mirrored = p.cutFrom === "back";
  const inPlace = p.method === "bush" || p.laid === "in-place";
  const laid = inPlace ? placedPieces(p, cut, mirrored) : rowsOfPieces(p, cut, mirrored);
  const box = pathsBounds(laid.pieces.map(({ outer }) => outer));
  const reach = Math.max(6, Math.min(20, (box.maxX - box.minX) / 3));
  const said = [
    p.material.trim() === "" ? "" : p.material.trim(),
    mirrored ? "mirrored: cut from the back" : "seen from the face",
    p.turns.some(({ turn }) => turn !== 0) ? "marked pieces with their grain turned on purpose" : "",
  ].filter((text) => text !== "");
  return {
    name: "plug",
    title: `Inlay piece${laid.pieces.length === 1 ? "" : "s"}, ${asText(p)}`,
    lineIs: `edge of the inlay piece${laid.pieces.length === 1 ? "" : "s"}, ${said.join(", ")}; cut outside the line, the line is its edge`,
    drawing: {
      layers: [
        {
          name: "plug",
          shapes: outlineShapes(
            laid.pieces,
            "plug",
            {
              role: "plug",
              line: "visible",
              tint: "inlay",
              says: [{ label: "thickness", value: p.pieceThickness, quantity: "length" }],
            },
            (n) => `inlay piece ${n}`,
          ),
        },
        {
          name: "grain",
          shapes: [
            {
              id: "grain",
              role: "mark",
              line: "narrow",
              path: grainArrow(vec((box.minX + box.maxX) / 2, box.maxY + 5), reach, laid.grain),
              name: "direction of the grain",
            },
          ],
          texts: [
            {
              id: "grain-text",
              at: vec((box.minX + box.maxX) / 2, box.maxY + 8),
              text: mirrored ? "grain, seen from the back" : "grain",
              height: SMALL,
              align: "middle",
            },
          ],
        },
        { name: "numbers", shapes: [], texts: numberTexts(laid.pieces, NUMBER, (n) => grainMark(p, n)) },
      ],
      dimensions: [],
    },
    table: { title: "Fit", rows: [{ label: "glue gap all round", value: m.gap }] },
  };
}

interface Laid {
  readonly pieces: readonly Outline[];
  /** Of the arrow on the sheet. */
  readonly grain: number;
}

/** Beside the number of a piece whose grain runs otherwise than the others'; as seen in place. */
function grainMark({ turns }: InlayParams, number: number): string {
  const degrees = (grainOf(turns, number) * 180) / Math.PI;
  return Math.abs(degrees) < 0.05 ? "" : `, grain turned ${Number(degrees.toFixed(1))}°`;
}

function rowsOfPieces(p: InlayParams, cut: InlayCut, mirrored: boolean): Laid {
  const { grain, turns, spacing } = p;
  const laid = layPieces(cut.pieces, { grain, turns, mirrored, spacing });
  return { pieces: laid.map(({ outline }) => outline), grain: 0 };
}

/** As they lie in the instrument; mirrored about the line of letters where they are cut from the back. */
function placedPieces(p: InlayParams, cut: InlayCut, mirrored: boolean): Laid {
  return {
    pieces: mirrored ? cut.pieces.map((outline) => transformOutline(scaling(1, -1), outline)) : cut.pieces,
    grain: mirrored ? -p.grain : p.grain,
  };
}

/** A template that a guide bush follows: `inside` or `outside`, of two inside templates the piece's is `inside-piece`. */
function bushTemplate(p: InlayParams, seen: Seen, { cuts, kind, edge, leastCorner }: InlayTemplate): TemplateSource {
  const alone = p.templates !== "two-inside" || cuts !== "piece";
  const what = cuts === "both" ? "pocket and inlay piece" : cuts === "pocket" ? "the pocket" : "the inlay piece";
  return {
    name: alone ? kind : `${kind}-piece`,
    title: `${kind === "inside" ? "Inside" : "Outside"} template for ${what}, ${asText(p)}`,
    lineIs: `edge of the ${kind} template that the bush runs ${kind === "inside" ? "in" : "round"}; cut to the centre of the line; dashed, the letters as bush and bit leave them`,
    drawing: {
      layers: [
        ...around(p, seen),
        {
          name: "template",
          shapes: bushEdges(kind, kind, edge),
        },
        {
          name: "letters",
          shapes: outlineShapes(seen.answer.cut?.common ?? [], "letter", { role: "guide", line: "hidden" }, (n) => `piece ${n}`),
        },
      ],
      dimensions: [],
    },
    table: {
      title: "Bushes and bits",
      rows: [...bushRows(p, cuts), { label: "least corner of the template", value: leastCorner }],
    },
  };
}

function cutterPasses(p: InlayParams, passes: readonly Pass[]): CutterPasses[] {
  const by = (which: Pass["by"]): Path[] => passes.filter((pass) => pass.by === which).map(({ path }) => path);
  const own = p.pocketCuts ?? p.pocketBit;
  return [
    { name: "first", diameter: p.clearingBit ?? own, paths: by("first") },
    { name: "pocket", diameter: own, paths: by("cutter") },
  ].filter(({ paths }) => paths.length > 0);
}

function passesTemplate(p: InlayParams, m: InlayMeasures, seen: Seen, passes: readonly Pass[]): TemplateSource {
  const pocket = seen.answer.cut?.pocket ?? [];
  const layer = (by: Pass["by"], name: string, bit: string): Layer => ({
    name,
    shapes: passes
      .filter((pass) => pass.by === by)
      .map(({ path, level }, i): Shape => ({
        id: `${name}-${i + 1}`,
        role: "guide",
        line: "narrow",
        path,
        name: `pass ${i + 1} of ${bit}${level === 0 ? ", along the wall" : ""}`,
      })),
  });
  return {
    name: "passes",
    title: `Passes, ${asText(p)}`,
    lineIs: "middle of the bit in its passes, in their order; the pocket's edge is dashed",
    drawing: {
      layers: [
        ...around(p, seen),
        layer("first", "passes-first", "the larger bit"),
        layer("cutter", "passes", "the bit"),
        { name: "pocket", shapes: outlineShapes(pocket, "pocket", { role: "guide", line: "hidden" }, (n) => `pocket ${n}`) },
      ].filter(({ shapes }) => shapes.length > 0),
      dimensions: [],
    },
    table: { title: "Passes", rows: [{ label: "way of the bit in all", value: m.passes?.length ?? 0 }] },
  };
}
