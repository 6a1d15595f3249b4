import { describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { startDesign } from "../../src/store/commands/start-design.ts";
import { dated, dayOf } from "../../src/store/day.ts";
import { createWorkbench } from "../../src/store/workbench.ts";

/** Noon by this computer's calendar, whatever its zone. */
const NOON = new Date(2026, 2, 9, 12).getTime();

describe("a design that is begun", () => {
  it("is dated with the day of this computer's calendar, once", async () => {
    expect(dayOf(NOON)).toBe("2026-03-09");
    const bench = createWorkbench({ now: () => NOON });
    expect(bench.design.getState().design.order?.date).toBe("2026-03-09");
    await startDesign(bench, newDesign("ukulele"));
    expect(bench.design.getState().design.order).toEqual({ title: "Tenor ukulele", date: "2026-03-09" });
  });

  it("keeps the date that its order has, an empty one too", () => {
    const order = { title: "x", date: "2025-01-02" };
    expect(dated({ ...newDesign("ukulele"), order }, NOON).order).toEqual(order);
    expect(dated({ ...newDesign("ukulele"), order: { date: "" } }, NOON).order).toEqual({ date: "" });
  });
});
