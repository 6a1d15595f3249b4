/** A contour gauge's trace at a measured fret: the shoulders that it gives, what is told of it, and where findings about wood are seen. */
import { describe, expect, it } from "vitest";
import { sentenceOf } from "../../../src/checks/findings.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { nearestOnPath } from "../../../src/geometry/nearest.ts";
import { vec, type Vec } from "../../../src/geometry/vec.ts";
import { fieldOf, findingOf, shapeOf, shapesOf } from "../derived-board.ts";
import { deriveNeck, type Given } from "./derived-neck.ts";

/** 40 wide all along with 15 of wood under a board of 6. */
const EVEN: Given = {
  instrument: { nutWidth: "40", nutSpread: "34" },
  fingerboard: { widthAtJoin: "40", thickness: "6" },
  neck: { firstDepth: "21", secondDepth: "21" },
};

/** The Lamé curve by its own parameter, turned by some degrees and moved, as across and down. */
function traced(
  bass: number,
  treble: number,
  given: { degrees?: number; by?: Vec; from?: number; to?: number; half?: number } = {},
): { across: number; down: number }[] {
  const { degrees = 0, by = vec(0, 0), from = 0, to = Math.PI, half = 20 } = given;
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return Array.from({ length: 21 }, (_, i) => {
    const t = from + ((to - from) * (i + 0.5)) / 21;
    const p = t < Math.PI / 2 ? bass : treble;
    const [x, y] = [-Math.sign(Math.cos(t)) * half * Math.abs(Math.cos(t)) ** (2 / p), -15 * Math.sin(t) ** (2 / p)];
    return { across: c * x - s * y + by.x, down: -(s * x + c * y + by.y) };
  });
}

const withTrace = (firstContour: { across: number; down: number }[], more: Record<string, string> = {}, instrument = {}) =>
  deriveNeck({ ...EVEN, instrument: { ...EVEN.instrument, ...instrument }, neck: { ...EVEN.neck, firstContour, ...more } });

const said = (part: ReturnType<typeof withTrace>["part"], id: string): string =>
  sentenceOf(findingOf(part, id), (value, quantity) =>
    quantity === "angle" ? `${((value * 180) / Math.PI).toFixed(1)} deg` : value.toFixed(2),
  );

describe("a trace that lies anywhere on its paper", () => {
  it("gives both fullnesses, is laid level, and its lie and its misses are told in words", () => {
    const { part, m } = withTrace(traced(2.6, 1.9, { degrees: -9, by: vec(12, 4) }), { firstContourLies: "free" });
    expect(fieldOf(part, "firstFullness").value).toBeCloseTo(2.6, 3);
    expect(fieldOf(part, "firstTrebleFullness").value).toBeCloseTo(1.9, 3);
    expect(said(part, "contour/first")).toMatch(
      /^The curve fitted to the contour gauge at fret 1 lies within 0\.00 of what was traced; farthest (on the back|at the (bass|treble) (shoulder|edge))\.$/,
    );
    expect(said(part, "contour/first-level")).toBe("The trace at fret 1 lay turned by 9.0 deg and is laid level.");
    expect(said(part, "contour/first-rms")).toContain("0.00");
    expect(m.contours).toHaveLength(1);
    // The fitted curve is drawn on the trace itself: through each of its points, about the section's middle.
    const drawing = part.drawing();
    const box = pathBounds(shapeOf(drawing, "section-1").path);
    const curve = shapeOf(drawing, "section-1-contour").path;
    for (const { across, down } of traced(2.6, 1.9, { degrees: -9, by: vec(12, 4) }))
      expect(nearestOnPath(curve, vec((box.minX + box.maxX) / 2 + across, box.maxY - down)).distance).toBeLessThan(0.01);
  });

  it("seen from the head has its sides the other way round", () => {
    const { part } = withTrace(traced(2.6, 1.9, { degrees: 5 }), { firstContourLies: "over" });
    expect(fieldOf(part, "firstFullness").value).toBeCloseTo(1.9, 3);
    expect(fieldOf(part, "firstTrebleFullness").value).toBeCloseTo(2.6, 3);
  });

  it("is mirrored on the drawing of a left-handed neck, and gives the same neck", () => {
    const { part } = withTrace(traced(2.6, 1.9, { degrees: 5 }), { firstContourLies: "free" }, { handed: "left" });
    expect(fieldOf(part, "firstFullness").value).toBeCloseTo(2.6, 3);
    const [outline] = part.outlines();
    const [first] = traced(2.6, 1.9, { degrees: 5 });
    expect(outline!.points[0]).toMatchObject({ x: -first!.across, y: -first!.down });
    const curve = shapeOf(part.drawing(), "section-1-contour").path;
    for (const { x, y } of outline!.points)
      expect(nearestOnPath(curve, vec(outline!.origin.x + x, outline!.origin.y + y)).distance).toBeLessThan(0.01);
  });

  it("typed from the neck's own lines is not moved, so that a trace 0.8 aside is told with its miss", () => {
    const { part, m } = withTrace(traced(2, 2, { by: vec(0.8, 0) }));
    expect(m.contours[0]).toMatchObject({ turnRad: 0, move: { x: 0, y: 0 } });
    expect(findingOf(part, "contour/first").measured!).toBeGreaterThan(0.4);
    expect(part.findings().some(({ id }) => id === "contour/first-level")).toBe(false);
  });

  it("is told where it shows too little: the bass side only from 60 % down, no back, a trace 3 wider than the neck, three points", () => {
    // sin t = 0.6 at the height of 9 of 15.
    const short = withTrace(traced(2, 2, { from: Math.asin(0.62) }), { firstContourLies: "free" }).part;
    expect(findingOf(short, "contour/first-reach-bass")).toMatchObject({ severity: "look", needed: 7.5 });
    expect(short.findings().some(({ id }) => id === "contour/first-reach-treble")).toBe(false);
    const wide = withTrace(traced(2, 2, { half: 21.5 })).part;
    // The first and the last of 21 points lie half a step from the edges: 43 cos(pi / 42).
    expect(findingOf(wide, "contour/first-width")).toMatchObject({
      measured: expect.closeTo(43 * Math.cos(Math.PI / 42), 9),
      needed: 40,
    });
    const few = withTrace(
      traced(2, 2).filter((_, i) => i % 8 === 2),
      { firstContourLies: "free" },
    ).part;
    expect(findingOf(few, "contour/first-level")).toMatchObject({ severity: "look", measured: 3, needed: 5 });
    const bare = withTrace(traced(2, 2).slice(0, 6)).part;
    expect(findingOf(bare, "contour/first").severity).toBe("stop");
    const flat = withTrace(traced(2, 2).filter(({ down }) => down < 12)).part;
    expect(findingOf(flat, "contour/first-depth")).toMatchObject({ needed: 15 });
  });

  it("is told at its farthest point, which is ringed on the section", () => {
    const points = traced(2, 2).map((point, i) => (i === 4 ? { ...point, down: point.down + 1.5 } : point));
    const { part } = withTrace(points);
    const finding = findingOf(part, "contour/first");
    expect(finding.severity).toBe("look");
    expect(said(part, "contour/first")).toContain("farthest at the bass shoulder");
    const box = pathBounds(shapeOf(part.drawing(), finding.shape!).path);
    const at = { across: finding.at!.x - (box.minX + box.maxX) / 2, down: box.maxY - finding.at!.y };
    expect(Math.hypot(at.across - points[4]!.across, at.down - points[4]!.down)).toBeLessThan(1e-6);
  });
});

describe("where findings about a channel's wood are seen", () => {
  const seen = (given: Given, id: string) => {
    const { part, m } = deriveNeck(given);
    const finding = findingOf(part, id);
    return { part, m, finding, drawing: part.drawing(), shape: shapeOf(part.drawing(), finding.shape!) };
  };

  it("wood under the rod's end is shown from the side, between the channel's floor and the back", () => {
    const { finding, drawing, shape } = seen({ neck: { pocketDepth: "13.5" } }, "wood-under-entry");
    expect(finding.severity).toBe("stop");
    const side = pathBounds(shapeOf(drawing, "side-outline").path);
    const isSection = shape.id.startsWith("section-");
    expect(isSection || (finding.at!.y < side.maxY && finding.at!.y > side.minY)).toBe(true);
    // Half way through the wall, which no more than half its measure is from the channel's edge.
    const away = nearestOnPath(shape.path, finding.at!).distance;
    expect(away).toBeLessThan(finding.measured! / 2 + 0.01);
  });

  it("wood beside a channel is shown in a section of its own where it is little, with its figure; there is none where it is enough", () => {
    const bars = [{ offset: "14", endOffset: "16", width: "4", depth: "4" }];
    const { finding, drawing, shape, m } = seen({ ...EVEN, neck: { ...EVEN.neck, bars } }, "wood-beside/bar-1");
    expect(finding.severity).toBe("look");
    expect(shape.id).toBe("section-beside-bar-1");
    const box = pathBounds(shapeOf(drawing, "section-beside").path);
    expect(finding.at!.x).toBeLessThan(box.maxX);
    expect(finding.at!.x).toBeGreaterThan(pathBounds(shape.path).maxX - 1e-6);
    expect(drawing.dimensions.find(({ id }) => id === "least-beside")!.value).toBeCloseTo(finding.measured!, 9);
    expect(m.channels.find(({ id }) => id === "bar-1")!.beside!.distance).toBeCloseTo(finding.measured!, 9);
    expect(shapesOf(deriveNeck(EVEN).part.drawing()).some(({ id }) => id === "section-beside")).toBe(false);
    // A limit of the maker's own decides.
    const easy = deriveNeck({ ...EVEN, neck: { ...EVEN.neck, bars }, limits: { "neck.wood-beside.usual": "1 mm" } });
    expect(shapesOf(easy.part.drawing()).some(({ id }) => id === "section-beside")).toBe(false);
    // Deep ones come nearest to the back and to the side at one place: one section shows both.
    const deep = [{ offset: "16", width: "4", depth: "6" }];
    const both = seen({ ...EVEN, neck: { ...EVEN.neck, bars: deep } }, "wood-beside/bar-1");
    expect(both.shape.id).toBe("section-least-bar-1");
    expect(both.drawing.dimensions.map(({ id }) => id)).toEqual(expect.arrayContaining(["least-wood", "least-beside"]));
  });
});
