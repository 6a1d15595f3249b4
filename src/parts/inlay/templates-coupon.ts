/** The fit coupon: to try bits, bushes and glue in scrap. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { pathsBounds } from "../../geometry/measure.ts";
import type { Outline } from "../../geometry/outline.ts";
import { transformOutline, translation } from "../../geometry/transform.ts";
import { vec } from "../../geometry/vec.ts";
import type { InlayTemplate } from "../../lutherie/inlay-template.ts";
import type { TemplateSource } from "../contract.ts";
import { outlineShapes } from "./draw.ts";
import { allPaths } from "./layout.ts";
import type { InlayParams } from "./numbers.ts";
import type { InlayAnswer } from "./work.ts";

/** Heights of capitals on all of an inlay's patterns, mm. */
export const NUMBER = 2;
export const SMALL = 1.6;
/** Between two templates of a coupon, mm. */
const APART = 10;

/** Edges that a bush follows: windows of inside templates, islands of outside ones. */
export const bushEdges = (prefix: string, kind: InlayTemplate["kind"], edge: readonly Outline[]): Shape[] =>
  outlineShapes(edge, prefix, { role: "cut", line: "visible", tint: kind === "inside" ? "waste" : "wood" }, (n) =>
    kind === "inside" ? `window ${n}` : `island ${n}`,
  );

/** The bushes and bits of what is cut along a template: of one for the piece alone the pocket's would mislead. */
export function bushRows(p: InlayParams, cuts: InlayTemplate["cuts"]): { readonly label: string; readonly value: number }[] {
  const pocket = [
    { label: "bush for the pocket", value: p.pocketBush },
    { label: "bit for the pocket", value: p.pocketCuts ?? p.pocketBit },
  ];
  const piece = [
    { label: "bush for the piece", value: p.pieceBush },
    { label: "bit for the piece", value: p.pieceCuts ?? p.pieceBit },
  ];
  return [...(cuts === "piece" ? [] : pocket), ...(cuts === "pocket" ? [] : piece)];
}

const FOR: Readonly<Record<InlayTemplate["cuts"], string>> = { both: "pocket and piece", pocket: "pocket", piece: "piece" };

/** The templates of the coupon side by side, each with what it is for under it. */
export function guidedCouponTemplate(
  { gap, templates }: NonNullable<InlayAnswer["guidedCoupon"]>,
  p: InlayParams,
): TemplateSource {
  const shapes: Shape[] = [];
  const texts: Text[] = [];
  let x = 0;
  for (const { cuts, kind, edge } of templates) {
    const box = pathsBounds(allPaths(edge));
    const by = translation(vec(x - box.minX, -box.minY));
    const beside = edge.map((outline) => transformOutline(by, outline));
    shapes.push(...bushEdges(`coupon-${cuts}`, kind, beside));
    texts.push({
      id: `coupon-${cuts}-text`,
      at: vec(x + (box.maxX - box.minX) / 2, -2 * NUMBER),
      text: `${kind} template, ${FOR[cuts]}`,
      height: NUMBER,
      align: "middle",
    });
    x += box.maxX - box.minX + APART;
  }
  return {
    name: "coupon",
    title: "Fit coupon",
    lineIs:
      "edge that the bush follows, cut to the centre of the line: cut a pocket and a piece along it in scrap, and try them with your glue; the gap that would have fitted is typed under “Gap that fitted in the coupon”",
    drawing: { layers: [{ name: "template", shapes, texts }], dimensions: [] },
    table: { title: "Bushes and bits", rows: [...bushRows(p, "both"), { label: "gap that they make", value: gap }] },
  };
}

export function couponTemplate(
  { pocket, pieces }: NonNullable<InlayAnswer["coupon"]>,
  p: Pick<InlayParams, "pocketBit" | "pieceBit">,
): TemplateSource {
  const texts: Text[] = pieces.map(({ number, gap, label }) => ({
    id: `number-${number}`,
    at: vec(label.x, label.y - 1),
    text: `${number}: ${gap.toFixed(2)}`,
    height: SMALL,
    align: "middle",
  }));
  const box = pathsBounds(allPaths(pocket));
  return {
    name: "coupon",
    title: "Fit coupon",
    lineIs:
      "one pocket, and pieces for it, each with its number and its gap in mm, to try bits and glue in scrap; the gap of the piece that fits is typed under “Gap that fitted in the coupon”",
    drawing: {
      layers: [
        {
          name: "pocket",
          shapes: outlineShapes(
            pocket,
            "pocket",
            { role: "pocket", line: "visible", tint: "waste" },
            () => "pocket of the coupon",
          ),
          texts: [
            {
              id: "pocket-text",
              at: vec(box.maxX + 3, (box.minY + box.maxY) / 2),
              text: "pocket",
              height: NUMBER,
              align: "start",
            },
          ],
        },
        {
          name: "plug",
          shapes: pieces.flatMap(({ number, outline }) =>
            outline.map(({ outer, holes }, i): Shape => ({
              id: i === 0 ? `plug-${number}` : `plug-${number}-${i + 1}`,
              role: "plug",
              line: "visible",
              path: outer,
              ...(holes.length > 0 ? { holes } : {}),
              name: `piece ${number} of the coupon`,
              tint: "inlay",
            })),
          ),
          texts,
        },
      ],
      dimensions: [],
    },
    table: {
      title: "Gap of each piece",
      rows: [
        ...pieces.map(({ number, gap }) => ({ label: `piece ${number}`, value: gap })),
        { label: "bit for the pocket", value: p.pocketBit },
        { label: "bit for the pieces", value: p.pieceBit },
      ],
    },
  };
}
