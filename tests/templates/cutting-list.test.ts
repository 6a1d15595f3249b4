import { describe, expect, it } from "vitest";
import { createDeriver } from "../../src/parts/derive.ts";
import { makingsOf } from "../../src/parts/makings.ts";
import { cuttingListCsv, cuttingListReport } from "../../src/report/cutting-list.ts";
import { cuttingList, type CuttingList } from "../../src/templates/cutting-list.ts";
import { designWith } from "../checks/design.ts";

function listOf(kinds: readonly string[], values: Readonly<Record<string, unknown>> = {}): CuttingList {
  const design = designWith(kinds, values);
  const derived = createDeriver()(design);
  return cuttingList(design, derived, makingsOf(design, derived));
}

/** A plate of 100 by 40 by 5 of hard maple, 3 left on all round and 1 on the thickness. */
const PLATE = {
  "shape.start": "rectangle",
  "shape.length": "100 mm",
  "shape.width": "40 mm",
  "shape.thickness": "5 mm",
  "shape.name": "Plate",
  "wood.shape/piece.species": "maple-sugar",
  "wood.shape/piece.allowance": "3 mm",
  "wood.shape/piece.planing": "1 mm",
};
const plateOf = (list: CuttingList) => list.pieces.find(({ placed }) => placed.id === "shape/piece")!;

describe("the cutting list", () => {
  it("sizes and weighs a piece by hand: 106 x 46 x 6 at 706 kg/m³ is 20.66 g sawn, 100 x 40 x 5 is 14.12 g", () => {
    const plate = plateOf(listOf(["shape"], PLATE));
    expect(plate.rough.length).toBeCloseTo(106, 9);
    expect(plate.rough.width).toBeCloseTo(46, 9);
    expect(plate.rough.thickness).toBeCloseTo(6, 9);
    // 0.106 x 0.046 x 0.006 m³ x 706 = 0.020655 kg; 0.1 x 0.04 x 0.005 x 706 = 0.01412 kg.
    expect(plate.roughG).toBeCloseTo(20.655, 2);
    expect(plate.finishedG).toBeCloseTo(14.12, 6);
  });

  it("measures a piece along its grain", () => {
    const plate = plateOf(listOf(["shape"], { ...PLATE, "wood.shape/piece.grain": "90" }));
    expect([plate.rough.length, plate.rough.width].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([46, 106]);
  });

  it("does not weigh what no density is known of", () => {
    const plate = plateOf(listOf(["shape"], { ...PLATE, "wood.shape/piece.species": "none" }));
    expect(plate.roughG).toBeUndefined();
  });

  it("adds up fret wire with its overhang: every crown, and twice the overhang a fret", () => {
    const list = listOf([], { "fingerboard.crownOverhang": "2 mm", "fingerboard.radius": "" });
    const wire = list.lengths.find(({ title }) => title === "Fret wire")!;
    const derived = createDeriver()(designWith([], { "fingerboard.crownOverhang": "2 mm", "fingerboard.radius": "" }));
    const { frets } = derived.parts.find(({ id }) => id === "fingerboard")!.measures as { frets: { crown: number }[] };
    expect(wire.count).toBe(20);
    expect(wire.total).toBeCloseTo(frets.reduce((sum, { crown }) => sum + crown, 0) + 80, 9);
  });

  it("counts holes by drill: six pins of 5 mm in a pinned bridge for six strings", () => {
    const list = listOf(["bridge"], { "bridge.pinHole": "5 mm" });
    const pins = list.holes.find(({ where }) => where.some(({ partId }) => partId === "bridge"))!;
    expect(pins.diameter).toBeCloseTo(5, 9);
    expect(pins.where.find(({ partId }) => partId === "bridge")!.count).toBe(6);
  });

  it("names the bit and the bush that a template is made for, and the saw of the slots", () => {
    const list = listOf([], {
      "templates.fingerboard/blank-outline.follow": "bush",
      "templates.fingerboard/blank-outline.bush": "16 mm",
      "templates.fingerboard/blank-outline.bit": "6 mm",
      "fingerboard.slotWidth": "0.6 mm",
    });
    expect(list.bits.map(({ what, size }) => [what, size])).toEqual([
      ["bit", 6],
      ["guide bush", 16],
      ["saw", 0.6],
    ]);
  });

  it("has nut and saddle blanks of bone, as long as the nut and the saddle", () => {
    const { pieces } = listOf(["bridge"], { "nut.width": "44 mm", "wood.nut/nut.allowance": "1 mm" });
    const nut = pieces.find(({ placed }) => placed.id === "nut/nut")!;
    expect(nut.wood).toBe("bone");
    expect(nut.rough.length).toBeCloseTo(46, 9);
    expect(pieces.some(({ placed }) => placed.id === "bridge/saddle")).toBe(true);
  });
});

describe("the list as a table and on paper", () => {
  const list = listOf(["shape"], { ...PLATE, "shape.name": 'Plate, "A"' });

  it("has one row a piece, a length, a drill and a bit, under one head", () => {
    const rows = cuttingListCsv(list, ".").trimEnd().split("\r\n");
    const { pieces, lengths, holes, bits } = list;
    expect(rows).toHaveLength(1 + pieces.length + lengths.length + holes.length + bits.length);
    expect(rows.find((row) => row.includes("Plate"))).toContain(
      '"Plate, ""A""",Hard maple (sugar maple),1,106,46,6,20.655,14.12',
    );
  });

  it("takes the decimal comma, with semicolons between fields", () => {
    expect(cuttingListCsv(list, ",")).toContain(";106;46;6;20,655;14,12;");
  });

  it("says lengths on paper as the design does", () => {
    const report = cuttingListReport(designWith([]), list, (mm) => `${mm.toFixed(1)}!`);
    const pieces = report.sections.find(({ title }) => title === "Pieces of wood")!;
    expect(pieces.rows.find(([name]) => name === 'Plate, "A"')).toEqual([
      'Plate, "A"',
      "Hard maple (sugar maple)",
      "1",
      "106.0!",
      "46.0!",
      "6.0!",
      "21 g",
      "14 g",
    ]);
  });
});
