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
    const board = list.bits.filter(({ for: by }) => by.some((name) => name.startsWith("Fingerboard")));
    expect(board.map(({ what, size }) => [what, size])).toEqual([
      ["bit", 6],
      ["guide bush", 16],
      ["saw", 0.6],
    ]);
  });

  it("counts the bolt and insert holes of the neck's joint, the hole at the tail and those in the board's edge", () => {
    const list = listOf(["body", "sides"], {
      "neck.joint": "tenon",
      "neck.bolts": 3,
      "neck.boltDiameter": "6.6 mm",
      "neck.insertDiameter": "9.1 mm",
      "sides.endHole": "jack",
      "sides.endHoleDiameter": "12.3 mm",
      "fingerboard.sideDiameter": "2.1 mm",
      "fingerboard.sideFrets": [3, 5, 7],
      "fingerboard.sideDoubles": [],
    });
    const at = (diameter: number) =>
      list.holes.find((row) => Math.abs(row.diameter - diameter) < 1e-9)?.where.map(({ partId, count }) => `${partId} ${count}`);
    expect(at(6.6)).toEqual(["neck 3"]);
    expect(at(9.1)).toEqual(["neck 3"]);
    expect(at(12.3)).toEqual(["sides 1"]);
    expect(at(2.1)).toEqual(["fingerboard 3"]);
  });

  it("names every cutter that the numbers of a part name: joint, channel, inlay and saddle slot", () => {
    const said = (values: Readonly<Record<string, unknown>>): string[] =>
      listOf(["bridge", "inlay"], {
        "inlay.text": "",
        "inlay.ornaments": [{ figure: "spot", size: "20 mm" }],
        "neck.joint": "tenon",
        "neck.bush": "16 mm",
        "neck.bit": "12 mm",
        "neck.rodWidth": "6.1 mm",
        "bridge.type": "pinned",
        "bridge.saddleThickness": "3.1 mm",
        "inlay.pocketBit": "0.8 mm",
        "inlay.pieceBit": "0.6 mm",
        ...values,
      }).bits.map(({ what, size, for: by }) => `${what} ${size}: ${by.join("; ")}`);
    const machine = said({ "inlay.method": "machine", "inlay.clearing": true, "inlay.clearingBit": "2 mm" });
    expect(machine).toEqual(
      expect.arrayContaining([
        "bit 0.6: Inlay, inlay pieces",
        "bit 0.8: Inlay, pocket",
        "bit 2: Inlay, middle of the pocket",
        "bit 3.1: Bridge, slot of the saddle",
        "bit 6.1: Neck, channel of the truss rod, or a narrower bit",
        "bit 12: Neck, joint with the body",
        "guide bush 16: Neck, joint with the body",
      ]),
    );
    const bushes = said({ "inlay.method": "bush", "inlay.pocketBush": "9 mm", "inlay.pieceBush": "8 mm" });
    expect(bushes).toEqual(expect.arrayContaining(["guide bush 8: Inlay, inlay pieces", "guide bush 9: Inlay, pocket"]));
    const byKnife = said({ "inlay.method": "knife", "neck.joint": "butt", "neck.rod": "none", "bridge.type": "floating" });
    expect(byKnife).toEqual([expect.stringMatching(/^saw .*: Fingerboard, fret slots$/)]);
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
