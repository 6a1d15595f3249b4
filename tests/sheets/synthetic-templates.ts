/** Invented templates for the tests of sheets and files: simple geometry whose true measures are known without the parts. */
import type { Drawing, Shape } from "../../src/drawing/drawing.ts";
import { circle, cubic, line, polygon, polyline, segmentPath, type Path } from "../../src/geometry/path.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import type { SheetOptions } from "../../src/sheets/sheet.ts";
import { PAPERS } from "../../src/sheets/paper.ts";
import type { Template } from "../../src/templates/template.ts";

export function templateOf(partId: string, name: string, shapes: readonly Shape[], more: Partial<Template> = {}): Template {
  const drawing: Drawing = { layers: [{ name: "outline", shapes }], dimensions: [] };
  const partLabel = partId.slice(0, 1).toUpperCase() + partId.slice(1);
  const title = name.slice(0, 1).toUpperCase() + name.slice(1).replaceAll("-", " ");
  return {
    id: `${partId}/${name}`,
    partId,
    partLabel,
    name,
    title,
    lineIs: "edge of the finished part; cut to the centre of the line",
    drawing,
    ...more,
  };
}

export const cut = (id: string, path: Path): Shape => ({ id, role: "cut", line: "visible", path, name: id });

/** Distance of fret n from the nut: L (1 - 2^(-n/12)). */
export const fretAt = (scale: number, n: number): number => scale * (1 - 2 ** (-n / 12));

const half = (x: number): number => (43 + (14 * x) / 470) / 2;

/** A tapered board 43 to 57 mm wide and 470 long with 20 frets of a 645.16 mm scale. */
export function fingerboard(name = "blank-outline"): Template {
  const frets = Array.from({ length: 20 }, (_, i): Shape => {
    const x = fretAt(645.16, i + 1);
    return {
      id: `fret-${i + 1}`,
      role: "slot",
      line: "narrow",
      name: `fret ${i + 1}`,
      path: segmentPath(vec(x, -half(x)), vec(x, half(x))),
    };
  });
  const outline = cut("outline", polygon([vec(0, -half(0)), vec(470, -half(470)), vec(470, half(470)), vec(0, half(0))]));
  const centre: Shape = {
    id: "centre-line",
    role: "centre",
    line: "centre",
    name: "centre line",
    path: polyline([vec(-5, 0), vec(475, 0)]),
  };
  return templateOf("fingerboard", name, [outline, ...frets, centre], {
    edge: "outline",
    table: {
      title: "Distances from the nut",
      rows: Array.from({ length: 20 }, (_, i) => ({ label: `fret ${i + 1}`, value: fretAt(645.16, i + 1) })),
    },
  });
}

/** Half of a waisted body, 500 mm long and 200 wide, in cubics, with its centre line as the straight edge. */
export function bodyHalf(): Template {
  const path: Path = {
    start: vec(0, 0),
    closed: true,
    segments: [
      cubic(vec(0, 90), vec(60, 148), vec(120, 145)),
      cubic(vec(170, 142), vec(180, 120), vec(220, 120)),
      cubic(vec(280, 120), vec(290, 200), vec(380, 200)),
      cubic(vec(470, 200), vec(500, 110), vec(500, 0)),
      line(vec(0, 0)),
    ],
  };
  return templateOf("body", "half", [cut("outline", path)], { edge: "outline", title: "Half template" });
}

/** A plate with rounded ends and two holes. */
export function bridge(): Template {
  const holes = [-30, -18, -6, 6, 18, 30].map((y, i): Shape => ({
    id: `pin-${i + 1}`,
    role: "drill",
    line: "narrow",
    name: `pin ${i + 1}`,
    path: circle(vec(15, y), 2.5),
  }));
  const outline: Path = {
    start: vec(0, -76),
    closed: true,
    segments: [
      line(vec(27, -76)),
      cubic(vec(34, -40), vec(34, 40), vec(27, 76)),
      line(vec(0, 76)),
      cubic(vec(-4, 40), vec(-4, -40), vec(0, -76)),
    ],
  };
  return templateOf("bridge", "outline", [cut("outline", outline), ...holes], { edge: "outline" });
}

export const disc = (partId: string, radius: number): Template =>
  templateOf(partId, "disc", [cut("outline", circle(vec(0, 0), radius))], { edge: "outline" });

export const box = (partId: string, width: number, height: number): Template =>
  templateOf(partId, "box", [cut("outline", polygon([vec(0, 0), vec(width, 0), vec(width, height), vec(0, height)]))], {
    edge: "outline",
  });

export const ring = (partId: string, points: readonly Vec[]): Template =>
  templateOf(partId, "ring", [cut("outline", polygon(points))], { edge: "outline" });

/** Options of an office printer; changed as a test needs. */
export const sheetOptions = (change: Partial<SheetOptions> = {}): SheetOptions => ({
  paper: PAPERS["letter"]!,
  orientation: "best",
  margin: 8,
  overlap: 6,
  share: true,
  waste: "none",
  order: { number: "14", title: "Tenor guitar", player: "H. Rowan" },
  date: "2026-03-09",
  fingerprint: "7F3A-C2",
  say: (mm) => `${mm.toFixed(2)} mm`,
  ...change,
});
