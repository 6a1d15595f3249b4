import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { addCut } from "../../src/document/cuts.ts";
import type { Design } from "../../src/document/design.ts";
import type { Kept } from "../../src/document/storage.ts";
import { summaryOf } from "../../src/document/summary-of.ts";
import { removeDesign } from "../../src/store/commands/remove-design.ts";
import { startDesign } from "../../src/store/commands/start-design.ts";
import { GIVEN_NUMBERS, givenOf, holderOf, isFoundBy, nextNumber, signOn } from "../../src/store/series.ts";
import { emptyBrowser, openTab } from "./kept-browser.ts";

beforeEach(emptyBrowser);
afterEach(emptyBrowser);

const kept = (id: string, order: NonNullable<Design["order"]>, more: Partial<Design> = {}): Kept => ({
  id,
  savedAt: 0,
  revision: 1,
  ...summaryOf({ ...newDesign("classical"), order, ...more }),
});

describe("the shop's series of numbers", () => {
  it("goes on after the greatest number, whatever was finished or removed in between", () => {
    expect(nextNumber(["12", "14", "13"])).toBe("15");
    expect(nextNumber(["9", "10"])).toBe("11");
    expect(nextNumber(["007"])).toBe("008");
    expect(nextNumber(["prototype", "24-03", ""])).toBe(undefined);
    expect(nextNumber(["prototype", "3"])).toBe("4");
  });

  it("tells who has a number: another design, one of its copies, or one that was removed", () => {
    const [mine, other] = [
      kept("a", { number: "14" }),
      kept("b", { number: "15", title: "tenor" }, { copies: [{ number: "16" }, { number: "17" }] }),
    ];
    const all = [mine, other];
    expect(holderOf("15", "a", all, [])).toBe(other);
    expect(holderOf(" 17 ", "a", all, [])).toBe(other);
    expect(holderOf("14", "a", all, [])).toBe(undefined);
    expect(holderOf("13", "a", all, ["13"])).toBe("removed");
    expect(holderOf("18", "a", all, ["13"])).toBe(undefined);
  });

  it("keeps the number of a design that was removed", async () => {
    const tab = await openTab();
    await startDesign(tab.bench, { ...newDesign("classical"), order: { number: "14" } });
    const listed = await tab.storage.list();
    if (!listed.ok) throw new Error(listed.error.message);
    expect(await removeDesign(tab.bench, listed.value[0]!)).toEqual({ ok: true, value: undefined });
    const given = await tab.storage.setting(GIVEN_NUMBERS);
    expect(given.ok && givenOf(given.value)).toEqual(["14"]);
    const after = await tab.storage.list();
    expect(after.ok && after.value).toEqual([]);
    expect(nextNumber(givenOf(given.ok && given.value))).toBe("15");
  });
});

describe("the list of designs", () => {
  const one = kept("a", { number: "14", title: "Tenor guitar", player: "H. Rowan", builtBy: "Ines" });

  it("is searched by number, name, player and builder", () => {
    for (const typed of ["14", "tenor", "rowan", "INES", ""]) expect(isFoundBy(one, typed), typed).toBe(true);
    for (const typed of ["15", "ukulele"]) expect(isFoundBy(one, typed), typed).toBe(false);
  });

  it("finds the design whose sheet bears a sign, also one that was cut from other numbers than it has now", () => {
    const then = newDesign("classical");
    const cut = addCut(then, { date: "2025-03-31", part: "fingerboard", template: "blank-outline" });
    const sign = cut.cuts![0]!.fingerprint;
    const later: Kept = { ...one, ...summaryOf({ ...cut, instrument: { ...cut.instrument, nutWidth: "51 mm" } }) };
    expect(later.signs).toHaveLength(2);
    expect(signOn(later, sign.toLowerCase().replace("-", " "))).toBe(sign);
    expect(isFoundBy(later, sign)).toBe(true);
    expect(signOn(later, sign.slice(0, 3))).toBe(undefined);
  });
});
