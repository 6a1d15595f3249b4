import { describe, expect, it } from "vitest";
import { findingOf } from "../derived-board.ts";
import { deriveInstrument } from "../derived-body.ts";

const bridgeOn = (body: Record<string, unknown>) =>
  deriveInstrument({ instrument: { scale: 645.16, joinFret: 14 }, fingerboard: {}, nut: {}, body, bridge: { span: 160 } }).part(
    "bridge",
  );

describe("the bridge on the body", () => {
  it("is fine in the middle of a usual lower bout", () => {
    expect(findingOf(bridgeOn({}), "on-body").severity).toBe("fine");
  });

  it("is a stop on a body that ends before the saddle: 645.16 lies 287 beyond the join, the body ends at 250", () => {
    const finding = findingOf(bridgeOn({ length: 250 }), "on-body");
    expect(finding.severity).toBe("stop");
    expect(finding.measured!).toBeLessThanOrEqual(0);
  });

  it("is a stop where it lies across the edge of the body, which ends at 290, 3 beyond the saddle", () => {
    const finding = findingOf(bridgeOn({ length: 290 }), "on-body");
    expect(finding.severity).toBe("stop");
    expect(finding.measured!).toBeLessThan(-1);
  });

  it("is told where it comes near to the edge: 160 across on a bout of 190 leaves no more than 15 each side", () => {
    const finding = findingOf(bridgeOn({ upperBout: 170, waist: 150, lowerBout: 190, neckFlat: 60 }), "on-body");
    expect(finding.severity).toBe("look");
    expect(finding.measured!).toBeLessThan(15.1);
    expect(finding.measured!).toBeGreaterThan(0);
  });
});
