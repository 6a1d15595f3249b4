import { describe, expect, it } from "vitest";
import { addCopy, copyOf, numbersOfAll, ownPaths, removeCopy, setOwn } from "../../src/document/copies.ts";
import type { Design } from "../../src/document/design.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setValue } from "../../src/document/set-value.ts";
import { writeDesign } from "../../src/document/write.ts";
import type { Result } from "../../src/units/result.ts";

const done = <T>(result: Result<T, { readonly message: string }>): T => {
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};
const shared: Design = { ...newDesign("classical"), order: { title: "School guitar", number: "21" } };
const three = done(addCopy(done(addCopy(shared, { number: "22", player: "Ines" })), { number: "23" }));

describe("copies of one design", () => {
  it("have all numbers of the design but those of their own", () => {
    const own = done(setOwn(three, 0, "nutWidth", "50 mm"));
    expect(done(copyOf(own, 0)).design.instrument["nutWidth"]).toBe("50 mm");
    expect(done(copyOf(own, 1)).design.instrument["nutWidth"]).toBe("52 mm");
    const later = done(setValue(own, "scale", "640 mm"));
    for (const i of [0, 1]) expect(done(copyOf(later, i)).design.instrument["scale"]).toBe("640 mm");
    expect(ownPaths(own)).toEqual(["instrument.nutWidth"]);
  });

  it("have an order of their own, and neither the copies nor the record of cuts", () => {
    const { design } = done(copyOf({ ...three, cuts: [] }, 0));
    expect(design.order).toEqual({ title: "School guitar", number: "22", player: "Ines" });
    expect(design.copies).toBeUndefined();
    expect(design.cuts).toBeUndefined();
  });

  it("share a number again when their own is taken back, and leave nothing behind when taken out", () => {
    const own = done(setOwn(three, 1, "parts.neck.firstDepth", "21 mm"));
    expect(done(setOwn(own, 1, "parts.neck.firstDepth", ""))).toEqual(three);
    expect(removeCopy(removeCopy(three, 1), 0)).toEqual(shared);
  });

  it("never have a number of the shop's series twice", () => {
    expect(numbersOfAll(three)).toEqual(["21", "22", "23"]);
    const twice = addCopy(three, { number: " 22 " });
    expect(twice.ok ? "" : twice.error.message).toBe("number 22 is taken");
  });

  it("take only numbers of the instrument and of parts for their own", () => {
    expect(setOwn(three, 0, "order.title", "x").ok).toBe(false);
    expect(setOwn(three, 0, "nothing", "1").ok).toBe(false);
    expect(setOwn(three, 7, "nutWidth", "1").ok).toBe(false);
  });

  it("tell what leads nowhere once a part is gone, and go on without it", () => {
    const own = done(setOwn(three, 0, "parts.neck.firstDepth", "21 mm"));
    const { neck: _neck, ...parts } = own.parts;
    const { leftOut } = done(copyOf({ ...own, parts }, 0));
    expect(leftOut.map(({ message }) => message).join()).toContain("neck");
  });

  it("outlive saving and reading, and a damaged list is repaired and told", () => {
    const own = done(setOwn(three, 0, "nutWidth", "50 mm"));
    const again = readDesign(writeDesign(own));
    expect(again.ok && again.repairs).toEqual([]);
    expect(again.ok && again.design.copies).toEqual(own.copies);
    const damaged = readDesign(writeDesign({ ...own, copies: [3, { number: 22 }] as unknown as NonNullable<Design["copies"]> }));
    expect(damaged.ok && damaged.repairs.length).toBe(2);
    expect(damaged.ok && damaged.design.copies).toEqual([{ number: "22" }]);
  });

  it("keep their lengths when the units are switched", () => {
    const own = done(setOwn(three, 0, "nutWidth", "50"));
    expect(done(setValue(own, "units", "in")).copies![0]!.own).toEqual({ "instrument.nutWidth": "50 mm" });
  });
});
