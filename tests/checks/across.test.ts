import { describe, expect, it } from "vitest";
import { designWith, finding, findingsFor } from "./design.ts";

const KINDS = ["body", "bridge"];
/** A bridge of straight sides, 30 by 160, moved across by `off` mm. */
const straight = (off: number) => ({
  "bridge.mirrored": false,
  "bridge.outline": [
    [-12, -80],
    [18, -80],
    [18, 80],
    [-12, 80],
  ].map(([x, y]) => ({ x, y: y! + off })),
});

describe("the bridge on the body", () => {
  it("lies within half a millimetre of the middle of the body", () => {
    const at = (off: number) => finding(designWith(KINDS, straight(off)), "bridge", "bridge-centre");
    expect([at(0.49).severity, at(0.51).severity]).toEqual(["fine", "look"]);
    expect(at(0.51).measured).toBeCloseTo(0.51, 9);
  });

  it("is left alone by numbers that do not matter to it, and not asked without a body", () => {
    const of = (values: object) =>
      findingsFor(designWith(KINDS, values as Record<string, unknown>)).filter(({ id }) => id.startsWith("bridge-centre"));
    expect(of({ "fingerboard.crownHeight": "1.3 mm" })).toEqual(of({}));
    expect(findingsFor(designWith(["bridge"])).some(({ id }) => id.startsWith("bridge-centre"))).toBe(false);
  });
});

describe("templates as they are asked for", () => {
  const OUTLINE = "templates.shape/outline";
  /** An L: outward corners rounded by 6, the inward one sharp. */
  const SHAPE = {
    "shape.mirrored": false,
    "shape.outline": [
      [-30, -30],
      [30, -30],
      [30, 0],
      [0, 0],
      [0, 30],
      [-30, 30],
    ].map(([x, y], i) => ({ x, y, rounding: i === 3 ? 0 : 6 })),
  };
  const made = (values: Readonly<Record<string, unknown>>) => designWith(["shape"], { ...SHAPE, ...values });
  const bush = { [`${OUTLINE}.follow`]: "bush", [`${OUTLINE}.bush`]: "16 mm", [`${OUTLINE}.bit`]: "6 mm" };

  it("ask for nothing until something is said of them", () => {
    expect(findingsFor(made({})).some(({ id }) => id.startsWith("template-made"))).toBe(false);
  });

  it("are looked at where the guide enters no inward corner, with the radius that it leaves and the place", () => {
    // The bush enters no corner of the template under 8; the piece lies (16 - 6) / 2 = 5 outside of the template, so 8 - 5 = 3 is left in it.
    const found = finding(made(bush), "shape", "template-made/outline/inward");
    expect(found.severity).toBe("look");
    expect(found.measured).toBeCloseTo(3, 9);
    expect(Math.hypot(found.at!.x, found.at!.y)).toBeLessThan(3);
  });

  it("pass where the corner is rounded as widely as the guide runs, and not just under it", () => {
    const need = finding(made(bush), "shape", "template-made/outline/inward").measured!;
    const rounded = (radius: number) => {
      const points = (SHAPE["shape.outline"] as object[]).map((point, i) => (i === 3 ? { ...point, rounding: radius } : point));
      return findingsFor(made({ ...bush, "shape.outline": points })).filter(({ id }) => id.startsWith("template-made"));
    };
    expect(rounded(need + 0.2).map(({ severity }) => severity)).toEqual(["fine"]);
    expect(rounded(need - 0.5).map(({ id }) => id)).toEqual(["template-made/outline/inward"]);
  });

  it("stop where the bit is no smaller than its bush", () => {
    const found = finding(made({ ...bush, [`${OUTLINE}.bit`]: "16 mm" }), "shape", "template-made/outline");
    expect(found.severity).toBe("stop");
  });

  it("are left alone by numbers of other parts", () => {
    const of = (values: object) => findingsFor(made({ ...bush, ...values })).filter(({ id }) => id.startsWith("template-made"));
    expect(of({ "fingerboard.crownHeight": "1.3 mm" })).toEqual(of({}));
  });
});
