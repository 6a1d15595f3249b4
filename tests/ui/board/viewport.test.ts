import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { vec } from "../../../src/geometry/vec.ts";
import {
  fitted,
  LEAST_PX_PER_MM,
  MOST_PX_PER_MM,
  panned,
  pinched,
  seen,
  toScreen,
  toWorld,
  zoomed,
  type Px,
  type View,
} from "../../../src/ui/board/viewport.ts";

const mm = fc.double({ min: -2000, max: 2000, noNaN: true });
const px = fc.double({ min: -500, max: 3000, noNaN: true });
const place = fc.record({ x: px, y: px });
const view: fc.Arbitrary<View> = fc.record({
  camera: fc.record({
    centre: fc.record({ x: mm, y: mm }),
    pxPerMm: fc.double({ min: LEAST_PX_PER_MM, max: MOST_PX_PER_MM, noNaN: true }),
  }),
  width: fc.integer({ min: 100, max: 3000 }),
  height: fc.integer({ min: 100, max: 2000 }),
});

const near = (a: Px, b: Px, within = 1e-6): void => {
  expect(Math.abs(a.x - b.x)).toBeLessThan(within);
  expect(Math.abs(a.y - b.y)).toBeLessThan(within);
};

describe("the way between drawing and board", () => {
  it("puts a point 10 mm right of and 5 mm above the middle, at 4 px a mm, 40 px right and 20 px up (worked by hand)", () => {
    const over: View = { camera: { centre: vec(100, 50), pxPerMm: 4 }, width: 800, height: 600 };
    near(toScreen(over, vec(110, 55)), { x: 440, y: 280 });
  });

  it("comes back to the same point", () => {
    fc.assert(
      fc.property(view, place, (v, at) => {
        near(toScreen(v, toWorld(v, at)), at, 1e-5);
      }),
    );
  });

  it("turns y over and x not", () => {
    fc.assert(
      fc.property(view, mm, mm, (v, x, y) => {
        const a = toScreen(v, vec(x, y));
        expect(toScreen(v, vec(x + 10, y)).x).toBeGreaterThan(a.x);
        expect(toScreen(v, vec(x, y + 10)).y).toBeLessThan(a.y);
      }),
    );
  });

  it("keeps what lies under the pointer there while it zooms, and stays within its limits", () => {
    fc.assert(
      fc.property(view, place, fc.double({ min: 0.01, max: 100, noNaN: true }), (v, at, factor) => {
        const before = toWorld(v, at);
        const camera = zoomed(v, at, factor);
        near(toScreen({ ...v, camera }, before), at, 1e-4);
        expect(camera.pxPerMm).toBeGreaterThanOrEqual(LEAST_PX_PER_MM);
        expect(camera.pxPerMm).toBeLessThanOrEqual(MOST_PX_PER_MM);
      }),
    );
  });

  it("moves every point by as many px as it is panned", () => {
    fc.assert(
      fc.property(view, place, px, px, (v, at, dx, dy) => {
        const p = toWorld(v, at);
        near(toScreen({ ...v, camera: panned(v, dx, dy) }, p), { x: at.x + dx, y: at.y + dy }, 1e-4);
      }),
    );
  });

  it("keeps under both fingers what was there, where they do not turn and the zoom is within its limits", () => {
    fc.assert(
      fc.property(place, px, px, fc.double({ min: 0.5, max: 2, noNaN: true }), (a, dx, dy, spread) => {
        const v: View = { camera: { centre: vec(0, 0), pxPerMm: 4 }, width: 1000, height: 700 };
        const from = [a, { x: a.x + 120, y: a.y + 60 }] as const;
        const to = [
          { x: a.x + dx, y: a.y + dy },
          { x: a.x + dx + 120 * spread, y: a.y + dy + 60 * spread },
        ] as const;
        const after = { ...v, camera: pinched(v, from, to) };
        for (const i of [0, 1] as const) near(toScreen(after, toWorld(v, from[i])), to[i], 1e-6);
      }),
    );
  });

  it("fits a box into what is left of the board, and touches it on one side", () => {
    fc.assert(
      fc.property(
        mm,
        mm,
        fc.double({ min: 1, max: 1500, noNaN: true }),
        fc.double({ min: 1, max: 1500, noNaN: true }),
        (x, y, wide, high) => {
          const size = { width: 1000, height: 700 };
          const clear = { left: 60, top: 40, right: 30, bottom: 80 };
          const box = { minX: x, minY: y, maxX: x + wide, maxY: y + high };
          const v = { ...size, camera: fitted(box, size, clear) };
          const a = toScreen(v, vec(box.minX, box.maxY));
          const b = toScreen(v, vec(box.maxX, box.minY));
          const gaps = [a.x - clear.left, a.y - clear.top, size.width - clear.right - b.x, size.height - clear.bottom - b.y];
          for (const gap of gaps) expect(gap).toBeGreaterThan(-1e-6);
          expect(Math.min(...gaps)).toBeLessThan(v.camera.pxPerMm === MOST_PX_PER_MM ? Infinity : 1e-6);
        },
      ),
    );
  });

  it("sees just what the board's corners show", () => {
    fc.assert(
      fc.property(view, (v) => {
        const sight = seen(v);
        near(toScreen(v, vec(sight.minX, sight.maxY)), { x: 0, y: 0 }, 1e-4);
        near(toScreen(v, vec(sight.maxX, sight.minY)), { x: v.width, y: v.height }, 1e-4);
      }),
    );
  });
});
