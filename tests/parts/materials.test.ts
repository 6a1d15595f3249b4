import { describe, expect, it } from "vitest";
import { addPart } from "../../src/document/edit-parts.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { setValue } from "../../src/document/set-value.ts";
import type { Design } from "../../src/document/design.ts";
import { pathsBounds } from "../../src/geometry/measure.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { blanksOf, jointsOf, NO_WOOD, seasonsOf } from "../../src/parts/wood.ts";

function withValues(values: Readonly<Record<string, unknown>>): Design {
  const bridged = addPart(newDesign("steel-string"), "bridge");
  if (!bridged.ok) throw new Error(bridged.error.message);
  let design: Design = bridged.value.design;
  for (const [path, value] of Object.entries(values)) {
    const set = setValue(design, path, value);
    if (!set.ok) throw new Error(`${path}: ${set.error.message}`);
    design = set.value;
  }
  return design;
}

const materialsOf = (design: Design, id: string) => {
  const part = createDeriver()(design).parts.find((one) => one.id === id);
  if (!part) throw new Error(`no ${id}`);
  return part.materials();
};

describe("what parts are cut from", () => {
  it("gives the board before binding, its binding and its wire in lengths worked by hand", () => {
    // Nut 43, end 57, length 470: a side is sqrt(470^2 + 7^2) = 470.0521. Moved in by 2.413 the blank is 38.17346 wide at the nut.
    const design = withValues({
      "instrument.nutWidth": "43 mm",
      "fingerboard.widthAtEnd": "57 mm",
      "fingerboard.length": "470 mm",
      "fingerboard.bindingThickness": "2.413 mm",
      "fingerboard.bindEnd": false,
      "fingerboard.crownOverhang": "2 mm",
    });
    const { blanks, strips = [] } = materialsOf(design, "fingerboard");
    const [board] = blanks;
    const box = pathsBounds([board!.outline]);
    expect(box.maxX - box.minX).toBeCloseTo(470, 9);
    // At the end: 57 - 2 x 2.413 x 470.0521 / 470 = 52.17346.
    expect(box.maxY - box.minY).toBeCloseTo(52.17346, 4);
    const binding = strips.find(({ name }) => name === "binding")!;
    for (const length of binding.lengths) expect(length).toBeCloseTo(Math.hypot(470, 7), 9);
    expect(binding.width).toBeCloseTo(2.413, 9);
    const wire = strips.find(({ name }) => name === "fret-wire")!;
    expect(wire.lengths).toHaveLength(20);
    expect(wire.spare).toBeCloseTo(4, 9);
  });

  it("glues the board to the neck over the width at the join, square to the centre line", () => {
    const derived = createDeriver()(newDesign("steel-string"));
    const joints = jointsOf(derived, blanksOf(newDesign("steel-string"), derived));
    const board = joints.find(({ id }) => id === "neck/board-on-neck")!;
    expect([board.first.id, board.second.id]).toEqual(["neck/shaft", "fingerboard/board"]);
    const measures = derived.parts.find(({ id }) => id === "fingerboard")!.measures as { widthAtJoin: number };
    expect(board.joint.across).toBeCloseTo(measures.widthAtJoin, 9);
  });
});

describe("the wood of a design", () => {
  it("is what its part says until the maker says another, and follows formulas", () => {
    const design = withValues({
      "wood.bridge/bridge.species": "ebony-african",
      "wood.bridge/bridge.grain": "80",
      "wood.bridge/bridge.allowance": "= nutWidth / 10",
      "instrument.nutWidth": "45 mm",
    });
    const blanks = blanksOf(design, createDeriver()(design));
    expect(blanks.find(({ id }) => id === "bridge/bridge")!.wood.value).toMatchObject({
      species: "ebony-african",
      sawn: "quartersawn",
      grain: (80 * Math.PI) / 180,
      allowance: 4.5,
    });
    expect(blanks.find(({ id }) => id === "nut/nut")!.wood.value!.species).toBe(NO_WOOD);
  });

  it("knows the air of the shop and of the player, 45 % and 25 to 65 % at 20 °C unless told", () => {
    const design = withValues({ "seasons.dryHumidityPct": 30 });
    expect(seasonsOf(design, createDeriver()(design)).value).toEqual({
      shopHumidityPct: 45,
      shopC: 20,
      dryHumidityPct: 30,
      dampHumidityPct: 65,
      homeC: 20,
    });
  });

  it("glues the pieces of an inlay into the part that it lies on, on one plate as large as the letters", () => {
    const headed = addPart(newDesign("steel-string"), "headstock");
    const added = headed.ok ? addPart(headed.value.design, "inlay") : headed;
    if (!added.ok) throw new Error(added.error.message);
    const on = setValue(added.value.design, "parts.inlay.on", "headstock");
    const ring = on.ok ? setValue(on.value, "parts.inlay.ornaments", [{ figure: "ring" }]) : on;
    const bare = ring.ok ? setValue(ring.value, "parts.inlay.text", " ") : ring;
    if (!bare.ok) throw new Error(bare.error.message);
    const derived = createDeriver()(bare.value);
    const inlay = derived.parts.find(({ id }) => id === "inlay")!;
    const { width, height } = inlay.measures as { width: number; height: number };
    expect(width).toBeGreaterThan(0);
    const blanks = blanksOf(bare.value, derived);
    const joint = jointsOf(derived, blanks).find(({ id }) => id === "inlay/in-host")!;
    expect(joint.second.id).toBe("headstock/plate");
    const box = pathsBounds([joint.first.blank.outline]);
    // A ring is as wide as it is high, however it is turned with the head.
    expect(width).toBeCloseTo(height, 3);
    expect(Math.abs(box.maxX - box.minX - (box.maxY - box.minY))).toBeLessThan(1e-6);
  });
});
