import { textWidth } from "../../../src/drawing/lettering.ts";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { deriveLettered } from "../../../src/cli/design-file.ts";
import { newDesign, NEW_KINDS } from "../../../src/document/new-design.ts";
import type { Drawing } from "../../../src/drawing/drawing.ts";
import { pathArea, pathBounds } from "../../../src/geometry/measure.ts";
import { fontAddress, fontNameOf, fontOfAddress, fontSizeOf } from "../../../src/lettering/font-address.ts";
import type { Finding, MeasuresByKind } from "../../../src/parts/contract.ts";
import type { DerivedPart, RawRecord } from "../../../src/parts/derived.ts";
import { expectSound } from "../sound.ts";

type Measures = MeasuresByKind["inlay"];

/** A design fresh from the starting numbers with a head, a plate of 80 by 40, and an inlay. */
function derive(
  inlay: RawRecord,
  instrument: RawRecord = {},
  plate: RawRecord = {},
): { inlay: DerivedPart; parts: readonly DerivedPart[] } {
  const fresh = newDesign("steel-string");
  const { parts } = deriveLettered({
    ...fresh,
    units: "mm",
    instrument: { ...fresh.instrument, ...instrument },
    parts: {
      ...fresh.parts,
      headstock: { kind: "headstock" },
      plate: { kind: "shape", start: "rectangle", length: "80 mm", width: "40 mm", thickness: "3 mm", ...plate },
      inlay: { kind: "inlay", ...inlay },
    },
  });
  return { inlay: parts.find(({ id }) => id === "inlay")!, parts };
}
const measure = (inlay: RawRecord): Measures => derive(inlay).inlay.measures as Measures;
const spot = { text: "", ornaments: [{ figure: "spot", size: "10 mm" }], on: "shape" };
const templateOf = (part: DerivedPart, name: string): Drawing => part.templates().find((one) => one.name === name)!.drawing;
const areasOf = (drawing: Drawing, role: string): number[] =>
  drawing.layers
    .flatMap(({ shapes }) => shapes)
    .filter((shape) => shape.role === role)
    .map(({ path, holes = [] }) => pathArea(path) + holes.reduce((sum, hole) => sum + pathArea(hole), 0));
const finding = (part: DerivedPart, id: string): Finding | undefined => part.findings().find((one) => one.id === id);

describe("an inlay from its starting numbers", () => {
  it.each(NEW_KINDS)("is sound and finds nothing to look at in a fresh %s, with a head and without", (kind) => {
    const fresh = newDesign(kind);
    for (const head of [{}, { headstock: { kind: "headstock" } }]) {
      const { parts, problems } = deriveLettered({ ...fresh, parts: { ...fresh.parts, ...head, inlay: { kind: "inlay" } } });
      const part = parts.find(({ id }) => id === "inlay")!;
      expect(problems).toEqual([]);
      expectSound(part);
      expect(part.findings().filter(({ severity }) => severity !== "fine")).toEqual([]);
    }
  });

  it("gives its templates by their kept names", () => {
    expect(
      derive({})
        .inlay.templates()
        .map(({ name }) => name),
    ).toEqual(["as-designed", "pocket", "plug", "passes", "coupon"]);
    const guided = {
      text: "",
      ornaments: [{ figure: "spot", size: "60 mm" }],
      on: "none",
      method: "bush",
      pocketBit: "3 mm",
      pocketBush: "15.9 mm",
    };
    const names = (templates: string): string[] =>
      derive({ ...guided, templates })
        .inlay.templates()
        .map(({ name }) => name);
    expect(names("one-inside")).toContain("inside");
    expect(names("one-outside")).toContain("outside");
    expect(names("inside-and-outside")).toEqual(["as-designed", "pocket", "plug", "inside", "outside", "coupon"]);
    expect(names("two-inside")).toEqual(["as-designed", "pocket", "plug", "inside", "inside-piece", "coupon"]);
  });
});

describe("a spot of 10 mm with a gap of 0.05 mm", () => {
  it("has a pocket of 10.05 and a piece of 9.95 across, and all of it can be reached", () => {
    // Half of the gap each way: radii 5.025 and 4.975.
    const m = measure({ ...spot, gap: "0.05 mm" });
    expect(m.pocketArea).toBeCloseTo(Math.PI * 5.025 ** 2, 2);
    expect(m.plugArea).toBeCloseTo(Math.PI * 4.975 ** 2, 2);
    expect(m.minGap).toBeCloseTo(0.05, 3);
    expect(m.maxGap).toBeCloseTo(0.05, 3);
    expect([m.unreachableArea, m.lostArea, m.spots]).toEqual([0, 0, []]);
  });

  it("gives all of the gap to the pocket where its share is 1, and follows the gap that fitted in the coupon", () => {
    const m = measure({ ...spot, share: 1, fitted: "0.08 mm" });
    expect(m.pocketArea).toBeCloseTo(Math.PI * 5.08 ** 2, 2);
    expect(m.plugArea).toBeCloseTo(Math.PI * 25, 2);
  });
});

describe("a lozenge of 20 by 10 mm", () => {
  it("loses at each corner what a round bit leaves there", () => {
    // Sides of slope 1/2: the corners along are of 2 atan(1/2) = 53.130 degrees, those across of 126.870. A bit of 0.5 mm with half of a gap of
    // 0.05 mm turns at 0.225 inside the common outline: a corner loses r^2 (cot(theta/2) - (pi - theta)/2).
    // 0.225^2 (2 - 1.107149) = 0.045201 and 0.225^2 (0.5 - 0.463648) = 0.001840; twice each: 0.094082.
    const m = measure({
      text: "",
      ornaments: [{ figure: "lozenge", size: "20 mm", height: "10 mm" }],
      on: "none",
      gap: "0.05 mm",
    });
    expect(m.lostArea).toBeCloseTo(0.0941, 2);
    // The tips: 0.225 (1 / sin 26.565 deg - 1) = 0.225 (sqrt 5 - 1) = 0.27811.
    expect(Math.max(...m.spots.map(({ depth }) => depth))).toBeCloseTo(0.2781, 2);
  });

  it("loses nothing to knife and chisel", () => {
    const m = measure({
      text: "",
      ornaments: [{ figure: "lozenge", size: "20 mm", height: "10 mm" }],
      on: "none",
      method: "knife",
    });
    expect([m.lostArea, m.spots]).toEqual([0, []]);
  });
});

describe("where it lies", () => {
  it("is by its distances from two edges of the part", () => {
    // The plate is 80 by 40 about its own zero. The spot's edge is 8 mm from the end and 6 mm from a side: its middle 13 and 11 mm in.
    const at = (given: RawRecord): Measures =>
      measure({ ...spot, placed: "edges", endDistance: "8 mm", sideDistance: "6 mm", ...given });
    expect(at({ fromEnd: "head", fromSide: "bass" }).middle).toEqual({ x: -27, y: -9 });
    expect(at({ fromEnd: "tail", fromSide: "treble" }).middle).toEqual({ x: 27, y: 9 });
    // The pocket is 0.025 mm larger than the spot all round.
    expect(at({ fromEnd: "head", fromSide: "bass" }).margins.edge?.distance).toBeCloseTo(5.975, 2);
    expect(at({ fromSide: "middle" }).middle.y).toBeCloseTo(0, 9);
  });

  it("is half way between two frets of a fingerboard", () => {
    const { inlay, parts } = derive({ ...spot, on: "fingerboard", fret: 9, ornaments: [{ figure: "spot", size: "4 mm" }] });
    const board = parts.find(({ kind }) => kind === "fingerboard")!.measures as MeasuresByKind["fingerboard"];
    const m = inlay.measures as Measures;
    // d(n) = L (1 - 2^(-n/12)) from the nut; L of the design.
    const scale = (board.frets[12]!.fromNut as number) * 2;
    const d = (n: number): number => scale * (1 - 2 ** (-n / 12));
    expect(m.middle.x).toBeCloseTo((d(8) + d(9)) / 2, 6);
    expect(m.margins.fret!.distance).toBeCloseTo((d(9) - d(8)) / 2 - 2.025, 1);
    expect(finding(derive({ ...spot, on: "fingerboard", fret: 40 }).inlay, "host")?.says).toMatch(/no fret 40/);
  });

  it("follows the part when that changes, and is shown on it", () => {
    const { parts } = derive({ ...spot, placed: "edges", fromEnd: "head" });
    const shapes = parts
      .find(({ id }) => id === "plate")!
      .drawing()
      .layers.flatMap((layer) => layer.shapes);
    const shown = shapes.find(({ id }) => id === "inlay-pocket-1")!;
    expect(pathBounds(shown.path).minX).toBeCloseTo(-32 - 0.025, 2);
    const longer = derive({ ...spot, placed: "edges", fromEnd: "head" }, {}, { length: "100 mm" }).inlay.measures as Measures;
    expect(longer.middle.x).toBeCloseTo(-37, 9);
  });

  it("is told of at edges and under 1.2 mm plates", () => {
    const near = derive({ ...spot, placed: "edges", endDistance: "1 mm" }).inlay;
    expect(finding(near, "margin/edge")).toMatchObject({ severity: "look", measured: expect.closeTo(0.975, 2) as number });
    const over = derive({ ...spot, placed: "edges", endDistance: "-3 mm" }).inlay;
    expect(finding(over, "margin/edge")).toMatchObject({ severity: "stop", measured: expect.closeTo(3.025, 2) as number });
    // A plate of 1.2 mm with a pocket of 0.8 keeps 0.4.
    const thin = derive({ ...spot, depth: "0.8 mm" }, {}, { thickness: "1.2 mm" }).inlay;
    expect(finding(thin, "depth")).toMatchObject({ severity: "look", measured: expect.closeTo(0.4, 9) as number });
    expect(finding(derive({ ...spot, depth: "1.3 mm" }, {}, { thickness: "1.2 mm" }).inlay, "depth")?.severity).toBe("stop");
  });

  it("shows where the pocket is that leaves too little", () => {
    const { inlay } = derive({ ...spot, depth: "2.8 mm" });
    const { at } = finding(inlay, "depth")!;
    // On the edge of the pocket, which is 10.05 across.
    expect(Math.hypot(at!.x, at!.y)).toBeCloseTo(5.025, 2);
  });

  it("says where there is no such part", () => {
    expect(finding(derive({ ...spot, on: "bridge" }).inlay, "host")?.severity).toBe("look");
  });
});

describe("letters", () => {
  it("are never mirrored by a left-handed instrument", () => {
    const right = derive({ text: "FR", face: "cinzel" });
    const left = derive({ text: "FR", face: "cinzel" }, { handed: "left" });
    expect(templateOf(left.inlay, "pocket").layers.find(({ name }) => name === "pocket")).toEqual(
      templateOf(right.inlay, "pocket").layers.find(({ name }) => name === "pocket"),
    );
  });

  it("that the face lacks are named and stop it", () => {
    const { inlay } = derive({ text: "A木" });
    expect(finding(inlay, "letters")).toMatchObject({
      severity: "stop",
      says: expect.stringMatching(/木 \(U\+6728\)/) as string,
    });
    expect(inlay.templates()).toEqual([]);
    expectSound(inlay);
  });

  it("of a maker's own font file come out as those of the same face that comes with the program", () => {
    const bytes = new Uint8Array(readFileSync(resolve(import.meta.dirname, "../../../public/faces/lato-latin-700-normal.woff")));
    const address = fontAddress(bytes);
    // Node's own base 64 is the witness.
    expect(address.slice(address.indexOf(",") + 1)).toBe(Buffer.from(bytes).toString("base64"));
    expect(fontOfAddress(address)).toEqual({ ok: true, value: bytes });
    const called = fontAddress(bytes, "Lato, bold; 50 % \ud800é");
    expect(fontOfAddress(called)).toEqual({ ok: true, value: bytes });
    expect([fontNameOf(called), fontNameOf(address), fontNameOf("data:,x")]).toEqual(["Lato, bold; 50 % \ufffdé", "", ""]);
    expect(Math.abs(fontSizeOf(called) - bytes.length)).toBeLessThanOrEqual(2);
    expect(fontOfAddress("data:font/sfnt;base64,A")).toMatchObject({ ok: false });
    const own = measure({ text: "Av", face: "own", fontFile: address });
    const bundled = measure({ text: "Av", face: "lato" });
    expect(own).toEqual(bundled);
    expect(finding(derive({ face: "own" }).inlay, "letters")?.says).toMatch(/No font file/);
    expect(finding(derive({ face: "own", fontFile: fontAddress(bytes.slice(0, 900)) }).inlay, "letters")?.severity).toBe("stop");
  });

  it("that break under a bit are told, with the bit that keeps them", () => {
    const m = measure({ text: "W", face: "great-vibes", size: "16 mm" });
    expect(m.scaleForStrokes).toBeGreaterThan(1);
    const kept = measure({ text: "W", face: "great-vibes", size: "16 mm", pocketBit: `${m.cutterForStrokes! * 0.98} mm` });
    expect(kept.scaleForStrokes).toBeLessThanOrEqual(1);
    expect(kept.changes.filter(({ kind }) => kind === "broken" || kind === "vanished")).toEqual([]);
  });
});

describe("interlaced letters", () => {
  const laced = { text: "A R", face: "cinzel", size: "20 mm", arrangement: "interlaced", on: "none", overlap: "14 mm" };

  it("have their crossings numbered on the drawing, each with the letter that passes over", () => {
    const { inlay } = derive(laced);
    const { crossings } = inlay.measures as Measures;
    expect(crossings.length).toBeGreaterThan(1);
    expect(crossings.map(({ over, under }) => over + under)).toEqual(crossings.map((_, i) => (i % 2 === 0 ? "AR" : "RA")));
    const { texts } = inlay.drawing().layers.find(({ name }) => name === "crossings")!;
    expect(texts!.map(({ text }) => Number(text))).toEqual(crossings.map((_, i) => i + 1));
    expect(measure({ ...laced, text: "OO" }).crossings[0]).toMatchObject({ over: "left O", under: "right O" });
    const turned = measure({ ...laced, weaveTurned: "1" }).crossings;
    expect(turned[0]).toMatchObject({ over: "R", under: "A" });
    expect(turned.slice(1)).toEqual(crossings.slice(1));
  });

  it("are told where they do not cross, or where a crossing is to be turned that is not there", () => {
    expect(finding(derive({ ...laced, overlap: "-3 mm" }).inlay, "crossings")?.severity).toBe("look");
    expect(finding(derive({ ...laced, weaveTurned: "99" }).inlay, "crossings/99")?.says).toMatch(/Crossing 99 .* are only \d/);
  });
});

describe("inlay pieces", () => {
  const lettered = { text: "AB", face: "lato", grain: "30 deg" };

  it("keep their areas however they are laid out, turned and mirrored", () => {
    const inPlace = areasOf(templateOf(derive({ ...lettered, laid: "in-place" }).inlay, "plug"), "plug");
    expect(inPlace.length).toBe(2);
    for (const given of [{}, { cutFrom: "back" }, { turns: [{ piece: 2, turn: "90 deg" }] }]) {
      const laid = areasOf(templateOf(derive({ ...lettered, ...given }).inlay, "plug"), "plug");
      expect(laid).toEqual(inPlace.map((area) => expect.closeTo(area, 6) as number));
    }
  });

  it("say beside their number where their grain is turned on purpose, laid out or in place", () => {
    for (const laid of ["rows", "in-place"]) {
      const { inlay } = derive({ ...lettered, laid, turns: [{ piece: 2, turn: "-22.5 deg" }] });
      const { texts } = templateOf(inlay, "plug").layers.find(({ name }) => name === "numbers")!;
      expect(texts!.map(({ text }) => text)).toEqual(["1", "2, grain turned -22.5°"]);
    }
  });

  it("lie clear of each other by the spacing", () => {
    const { layers } = templateOf(derive({ ...lettered, spacing: "5 mm" }).inlay, "plug");
    const [a, b] = layers.find(({ name }) => name === "plug")!.shapes.map(({ path }) => pathBounds(path));
    expect(b!.minX - a!.maxX).toBeCloseTo(5, 6);
  });
});

describe("the coupon", () => {
  it("along templates is a small template that both bushes run in, and the pocket and piece of it fit by the gap", () => {
    const guided = { text: "", ornaments: [{ figure: "spot", size: "60 mm" }], on: "none", method: "bush", pocketBit: "3 mm" };
    const { inlay } = derive({ ...guided, pocketBush: "15.9 mm" });
    const coupon = inlay.templates().find(({ name }) => name === "coupon")!;
    const [window, ...more] = coupon.drawing.layers.flatMap(({ shapes }) => shapes);
    expect(more).toEqual([]);
    // An L of squares of 2 x 15.9: 3 by 2 of them, half of the gap of 0.05 and (15.9 - 3) / 2 wider on each side.
    const box = pathBounds(window!.path);
    expect(box.maxX - box.minX).toBeCloseTo(6 * 15.9 + 0.05 + 12.9, 3);
    expect(box.maxY - box.minY).toBeCloseTo(4 * 15.9 + 0.05 + 12.9, 3);
    expect(coupon.table!.rows.at(-1)).toEqual({ label: "gap that they make", value: expect.closeTo(0.05, 9) as number });
    const apart = derive({ ...guided, templates: "inside-and-outside" }).inlay;
    expect(areasOf(templateOf(apart, "coupon"), "cut")).toHaveLength(2);
  });

  it("names the gap under each piece, clear of its outline and of the next one's", () => {
    const layer = templateOf(derive(spot).inlay, "coupon").layers.find(({ name }) => name === "plug")!;
    expect(layer.texts!.map(({ text }) => text)).toEqual(
      ["0.00", "0.02", "0.04", "0.06", "0.08", "0.10", "0.12"].map((gap, i) => `${i + 1}: ${gap}`),
    );
    for (const [i, { at, height, text }] of layer.texts!.entries()) {
      expect(at.y + height).toBeLessThan(pathBounds(layer.shapes[i]!.path).minY - 1);
      const next = layer.texts![i + 1];
      if (next?.at.y === at.y) expect(next.at.x - at.x).toBeGreaterThan(textWidth(text, height) + 2);
    }
  });
});

describe("one inside template for both cuts", () => {
  it("through 15.9/3 and 10/3 leaves a gap of 0.05: a spot of 39.95 has a window of 52.9", () => {
    // Half of the gap each way: the pocket is 40 across, the window (15.9 - 3) / 2 = 6.45 larger all round, the piece 39.9.
    const given = { text: "", ornaments: [{ figure: "spot", size: "39.95 mm" }], on: "none", method: "bush" };
    const { inlay } = derive({ ...given, pocketBit: "3 mm", pieceBit: "3 mm", pocketBush: "15.9 mm" });
    const field = inlay.fields.find(({ key }) => key === "pieceBush")!;
    expect(field.value).toBeCloseTo(10, 9);
    const [window] = areasOf(templateOf(inlay, "inside"), "cut");
    expect(window).toBeCloseTo(Math.PI * 26.45 ** 2, 1);
    expect(areasOf(templateOf(inlay, "plug"), "plug")[0]).toBeCloseTo(Math.PI * 19.95 ** 2, 1);
    // A bush of 17 for the pocket and of 10 for the piece jam by 0.5.
    const jammed = derive({ ...given, pocketBit: "3 mm", pieceBit: "3 mm", pocketBush: "17 mm", pieceBush: "10 mm" }).inlay;
    expect(finding(jammed, "letters")).toMatchObject({ severity: "stop", measured: expect.closeTo(0.5, 9) as number });
    // Of what bushes round a corner to, no single bit tells: none is advised.
    const turned = inlay.measures as Measures;
    expect(turned.corners).toEqual({ outward: 1.5, inward: expect.closeTo(6.5, 9) as number });
    expect(turned.cutterForStrokes).toBeUndefined();
    // And a bush does not enter a spot smaller than it needs.
    const small = derive({
      ...given,
      ornaments: [{ figure: "spot", size: "2 mm" }],
      pocketBit: "3 mm",
      pocketBush: "15.9 mm",
    }).inlay;
    expect(finding(small, "letters")?.severity).toBe("stop");
  });
});

describe("an outside template for the piece", () => {
  const ring = (stroke: number) =>
    derive({
      text: "",
      on: "none",
      method: "bush",
      ornaments: [{ figure: "ring", size: "70 mm", stroke: `${stroke} mm` }],
      templates: "inside-and-outside",
      pocketBit: "3 mm",
      pocketBush: "12 mm",
      gap: 0,
    }).inlay;

  it("is thinner than the piece by bush less bit, and looked at where less than 3 stays (common practice, no source)", () => {
    // A ring moved in by (12 - 3) / 2 on both sides: 9 less than its stroke.
    for (const [stroke, severity] of [
      [11, "look"],
      [13, "fine"],
    ] as const) {
      const found = finding(ring(stroke), "template")!;
      expect(found.measured).toBeCloseTo(stroke - 9, 3);
      expect(found.severity).toBe(severity);
      // In the middle of what stays of the stroke.
      expect(Math.hypot(found.at!.x, found.at!.y)).toBeCloseTo(35 - stroke / 2, 2);
    }
    // A limit of the maker's own is asked of wide ones, too.
    expect(finding(ring(16), "template")!.measured).toBeCloseTo(7, 3);
  });

  it("names only the bush and the bit that run along it", () => {
    const labelsOf = (name: string): readonly string[] =>
      ring(13)
        .templates()
        .find((one) => one.name === name)!
        .table!.rows.map(({ label }) => label);
    expect(labelsOf("outside").slice(0, 2)).toEqual(["bush for the piece", "bit for the piece"]);
    expect(labelsOf("inside").slice(0, 2)).toEqual(["bush for the pocket", "bit for the pocket"]);
    expect(labelsOf("inside")).toHaveLength(3);
  });
});
