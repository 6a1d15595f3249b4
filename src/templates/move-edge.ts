/** The moved edge in the place of the part's, with the lines that show where it comes from and what is lost. */
import type { Drawing, Layer, Shape } from "../drawing/drawing.ts";
import { offsetOutlines } from "../geometry/offset.ts";
import type { Outline } from "../geometry/outline.ts";
import type { Making } from "../parts/making-choices.ts";
import { areaOf, asOutline, withShapes } from "./edge.ts";
import { refuse, type Guidance, type Refusal } from "./guidance.ts";
import { lostCorners, swallowedRuns, type LostPlace } from "./lost.ts";
import type { Template } from "./template.ts";

export interface MovedEdge {
  readonly ok: true;
  readonly drawing: Drawing;
  readonly lost: readonly LostPlace[];
}

const move = (outlines: readonly Outline[], delta: number, join: Guidance["join"] = "round"): readonly Outline[] =>
  delta === 0 ? outlines : offsetOutlines(outlines, delta, join);

/** Puts the moved edge in the place of the part's, which stays as a dashed line, and draws what is lost. */
export function moveEdge(template: Template, edge: Shape, making: Making, guidance: Guidance): MovedEdge | Refusal {
  const own = [asOutline(edge)];
  const working = move(own, guidance.offset, guidance.join);
  const made = move(working, guidance.masterOffset);
  const [offset, master] = [guidance.offset, guidance.masterOffset];
  if (made.length === 0)
    return refuse("nothing is left of the template: its edge is moved in too far", "Move it less, or take a smaller bush.");
  if (guidance.cutter === undefined && offset === 0 && master === 0) return { ok: true, drawing: template.drawing, lost: [] };

  const before = areaOf(own);
  const ledge = guidance.ledge === 0 ? [] : move(own, guidance.ledge);
  const lost = [
    ...(offset === 0 ? [] : swallowedRuns(before, offset, areaOf(working), "swallowed")),
    ...(master === 0 ? [] : swallowedRuns(areaOf(working), master, areaOf(made), "swallowed-master")),
    ...(guidance.ledge === 0 ? [] : swallowedRuns(before, guidance.ledge, areaOf(ledge), "swallowed-ledge")),
    ...lostCorners(before, guidance.leastOutward, guidance.leastInward),
  ];
  const name = nameOf(template, making, guidance);
  const line = (outlines: readonly Outline[], id: string, said: string): Shape[] =>
    outlines.map((outline, i) => ({
      id: numbered(id, i),
      role: "guide",
      line: "hidden",
      path: outline.outer,
      ...(outline.holes.length > 0 ? { holes: outline.holes } : {}),
      name: said,
    }));
  const partner =
    guidance.gap === undefined || making.master !== "none"
      ? []
      : line(move(own, guidance.partnerOffset), "other-half", "edge of the other half");
  const added: Layer[] = [
    { name: "part-edge", shapes: offset === 0 && master === 0 ? [] : line(own, "part-edge", `line to be cut: ${edge.name}`) },
    { name: "working-edge", shapes: master === 0 ? [] : line(working, "working-edge", "edge of the working template") },
    { name: "other-half", shapes: partner },
    { name: "ledge", shapes: line(ledge, "ledge", "edge of the ledge") },
    { name: "swallowed", shapes: lost.filter(({ kind }) => kind === "tight" || kind === "narrow").map(({ shape }) => shape) },
    {
      name: "lost-corners",
      shapes: lost.filter(({ kind }) => kind === "outward" || kind === "inward").map(({ shape }) => shape),
    },
  ].filter(({ shapes }) => shapes.length > 0);
  const { says: _, tint: __, ...rest } = edge;
  const outlines = made.map((outline, i): Shape => ({
    ...rest,
    id: numbered(edge.id, i),
    role: "cut",
    line: "visible",
    path: outline.outer,
    ...(outline.holes.length > 0 ? { holes: outline.holes } : {}),
    name: made.length > 1 ? `${name}, piece ${i + 1}` : name,
    says: [{ label: "moved by", value: offset + master, quantity: "length" }],
    tint: guidance.inside ? "waste" : "wood",
  }));
  return {
    ok: true,
    drawing: { layers: [...withShapes(template.drawing, edge.id, outlines).layers, ...added], dimensions: [] },
    lost,
  };
}

const numbered = (id: string, i: number): string => (i === 0 ? id : `${id}-${i + 1}`);

const nameOf = ({ title }: Template, making: Making, { inside }: Guidance): string =>
  `${making.master === "none" ? "" : "master "}${inside ? "inside" : "outside"} template: ${title.charAt(0).toLowerCase()}${title.slice(1)}`;
