/** The join, the bridge and the soundhole of one instrument stay right to one another whatever the shared numbers are. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pathBounds, pathsBounds } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { vec } from "../../src/geometry/vec.ts";
import { pathWinding } from "../../src/geometry/winding.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { arrange, ownerOf } from "../../src/parts/general-arrangement.ts";
import { deriveInstrument, WHOLE_INSTRUMENT } from "./derived-body.ts";
import { drawingFault, expectSound } from "./sound.ts";

const shared = fc.record({
  scale: fc.double({ min: 380, max: 730, noNaN: true }),
  joinFret: fc.integer({ min: 11, max: 15 }),
  nutWidth: fc.double({ min: 34, max: 54, noNaN: true }),
  handed: fc.constantFrom("right", "left"),
  cutaway: fc.constantFrom("none", "rounded", "pointed"),
  bassCutaway: fc.constantFrom("none", "rounded", "pointed"),
  topRadius: fc.option(fc.double({ min: 6000, max: 20_000, noNaN: true }), { nil: undefined }),
  backRadius: fc.option(fc.double({ min: 4000, max: 8000, noNaN: true }), { nil: undefined }),
});

describe("a whole instrument", () => {
  it("keeps its body at the join, its saddle where the strings end, its soundhole between board and bridge, and draws every part", () => {
    fc.assert(
      fc.property(shared, ({ cutaway, bassCutaway, topRadius, backRadius, ...instrument }) => {
        const { derived, measures } = deriveInstrument({
          ...WHOLE_INSTRUMENT,
          instrument: { ...instrument, nutMargin: 3.2, saddleSpread: instrument.nutWidth + 10 },
          body: { cutaway, bassCutaway, ...(topRadius === undefined ? {} : { topRadius }) },
          sides: backRadius === undefined ? {} : { backRadius },
        });
        expect(derived.problems).toEqual([]);
        for (const part of [derived.instrument, ...derived.parts]) expectSound(part);
        const [body, bridge, hole, board] = [
          measures("body"),
          measures("bridge"),
          measures("soundhole"),
          measures("fingerboard"),
        ];
        // The join fret, by the definition of equal temperament.
        const join = instrument.scale * (1 - 2 ** (-instrument.joinFret / 12));
        expect(body.neckX).toBeCloseTo(join, 6);
        expect(board.joinX).toBeCloseTo(join, 6);
        // Each string ends on the saddle's line, within its slot's length, behind its scale.
        const [low, high] = bridge.saddle.ends.map(([x, y]) => vec(x, y));
        for (const { given: ends, setback, residual } of bridge.strings) {
          const onSaddle = nearestOnPath({ start: low!, segments: [{ kind: "line", to: high! }], closed: false }, vec(...ends));
          expect(onSaddle.distance).toBeLessThan(1e-6);
          // What the straight saddle leaves over is said, so that both together are the scale and its compensation.
          expect(ends[0] + residual).toBeCloseTo(instrument.scale + setback!, 9);
          expect(Math.abs(residual)).toBeLessThan(5);
        }
        expect(bridge.saddleX - body.joinX).toBeCloseTo(bridge.fromJoin, 9);
        // The bridge lies on the body, the hole in it and before the bridge.
        const place = pathBounds(bridge.outline!);
        for (const at of [vec(place.minX, 0), vec(place.maxX, 0)]) expect(pathWinding(body.outline!, at)).not.toBe(0);
        const round = pathBounds(hole.outline!);
        expect(round.maxX).toBeLessThan(place.minX);
        expect(pathWinding(body.outline!, vec(round.minX, 0))).not.toBe(0);
        expect(measures("sides").pieces.length).toBe(2 + [cutaway, bassCutaway].filter((kind) => kind === "pointed").length);
        const { drawing, distances } = arrange(derived);
        expect(drawingFault(drawing)).toBeUndefined();
        const told = new Map(distances.map(({ id, value }) => [id, value]));
        expect(told.get("nut-to-saddle")).toBeCloseTo(bridge.saddleX, 9);
        expect(told.get("nut-to-join")! + told.get("join-to-saddle")!).toBeCloseTo(bridge.saddleX, 9);
        expect(told.get("body")).toBeCloseTo(body.length, 9);
      }),
      { numRuns: 40 },
    );
  }, 240_000);

  it("is worked out again only where a number reaches: counted by part", () => {
    const derive = createDeriver();
    const counted = (given: Parameters<typeof deriveInstrument>[0]): number => {
      const before = derive.measured();
      deriveInstrument({ ...WHOLE_INSTRUMENT, ...given }, derive);
      return derive.measured() - before;
    };
    // The instrument and its nine parts.
    expect(counted({})).toBe(10);
    expect(counted({})).toBe(0);
    // Only the bracing hangs on its own numbers.
    expect(counted({ bracing: { seamStrip: 20 } })).toBe(1);
    // Bracing reads the sides' depth, and nothing of their lining.
    expect(counted({ bracing: { seamStrip: 20 }, sides: { depthTail: 110 } })).toBe(2);
    expect(counted({ bracing: { seamStrip: 20 }, sides: { depthTail: 110, liningWidth: 7 } })).toBe(1);
    // A head hangs on neck, nut and board; nothing hangs on a head.
    expect(
      counted({
        bracing: { seamStrip: 20 },
        sides: { depthTail: 110, liningWidth: 7 },
        headstock: { thickness: 15.5 },
      }),
    ).toBe(1);
  });

  it("draws the body no other when the nut grows wider", () => {
    const derive = createDeriver();
    const narrow = deriveInstrument(
      { ...WHOLE_INSTRUMENT, instrument: { nutWidth: 43 }, fingerboard: { widthAtJoin: 56 } },
      derive,
    );
    const wide = deriveInstrument(
      { ...WHOLE_INSTRUMENT, instrument: { nutWidth: 44 }, fingerboard: { widthAtJoin: 56 } },
      derive,
    );
    expect(wide.measures("fingerboard")).not.toBe(narrow.measures("fingerboard"));
    expect(wide.measures("body").area).toBe(narrow.measures("body").area);
  });
});

describe("the general arrangement", () => {
  const { derived, measures } = deriveInstrument({
    ...WHOLE_INSTRUMENT,
    sides: { endHole: "jack" },
    body: { topRadius: 12_000 },
  });
  const { drawing } = arrange(derived);
  const shapes = drawing.layers.flatMap((layer) => layer.shapes);

  it("shows every part that has a place, each line with its owner", () => {
    const owners = new Set(shapes.flatMap(({ id }) => ownerOf(derived, id)?.id ?? []));
    for (const kind of ["body", "sides", "neck", "fingerboard", "nut", "headstock", "bridge", "soundhole", "bracing"])
      expect(owners, kind).toContain(kind);
    expect(ownerOf(derived, "centre-line")).toBeUndefined();
    expect(ownerOf(derived, "nothing/outline")).toBeUndefined();
  });

  it("turns the body by the pitch about the join in the side view: at the tail it falls by tan(pitch) times the body's length", () => {
    const neck = measures("neck");
    const body = measures("body");
    const side = shapes.find(({ id }) => id === "sides/side/outline")!;
    const board = shapes.find(({ id }) => id === "fingerboard/side/outline")!;
    // The board's underside is the plane of the join; the arc of the top ends at the tail.
    const level = pathBounds(board.path).minY;
    const tail = side.path.segments.map(({ to }) => to).toSorted((a, b) => b.x - a.x || b.y - a.y)[0]!;
    const fall = Math.sin(neck.pitchRad) * body.length;
    const atTail = side.path.segments.map(({ to }) => to.y - level).filter((y) => Math.abs(y + fall) < 0.01);
    expect(atTail.length).toBeGreaterThan(0);
    expect(tail.x).toBeLessThanOrEqual(body.tailX + 0.5 + Math.abs(neck.pitchRad) * 130);
  });

  it("says which side is seen from the side, and dashes a port on the other", () => {
    const seen = (handed: string, side: string) => {
      const made = deriveInstrument({ ...WHOLE_INSTRUMENT, instrument: { handed }, port: { side } });
      const { layers } = arrange(made.derived).drawing;
      const port = layers.flatMap((layer) => layer.shapes).find(({ id }) => id === "port/side/port")!;
      return [layers.flatMap(({ texts = [] }) => texts).map(({ text }) => text), port.line];
    };
    // The head lies at the left with its face up, so the eye is where the front view is below: at the bass of a right-handed instrument.
    expect(seen("right", "bass")).toEqual([["From the bass side"], "visible"]);
    expect(seen("right", "treble")).toEqual([["From the bass side"], "hidden"]);
    expect(seen("left", "bass")).toEqual([["From the treble side"], "hidden"]);
    expect(seen("left", "treble")).toEqual([["From the treble side"], "visible"]);
  });

  it("shows the hole at the tail and the saddle at its compensated place", () => {
    expect(shapes.some(({ id }) => id === "sides/side/end-hole-high")).toBe(true);
    const saddle = pathBounds(shapes.find(({ id }) => id === "bridge/saddle")!.path);
    expect((saddle.minX + saddle.maxX) / 2).toBeCloseTo(measures("bridge").saddleX, 6);
  });

  it("is shorter in the head from the front by the cosine of its tilt", () => {
    const head = measures("headstock");
    const box = pathBounds(shapes.find(({ id }) => id === "headstock/outline")!.path);
    expect(box.maxX - box.minX).toBeCloseTo((head.startX - head.topX) * Math.cos(head.tiltRad), 4);
  });

  it("shows what lies on a part where that part lies, its own to be worked on, shorter on a head that leans back", () => {
    // A ring 12 mm over all: on a board as broad as it is long, on a head shorter along by the cosine of the head's tilt.
    const ring = { text: "", ornaments: [{ figure: "ring", size: 12 }] };
    const seen = (inlay: Record<string, unknown>) => {
      const made = deriveInstrument({ ...WHOLE_INSTRUMENT, inlay: { ...ring, ...inlay } });
      const lines = arrange(made.derived).drawing.layers.flatMap((layer) => layer.shapes);
      const own = lines.filter(({ id }) => ownerOf(made.derived, id)?.kind === "inlay");
      const box = pathsBounds(own.map(({ path }) => path));
      return { made, box, lying: pathsBounds(shapesOnHost(made, String(inlay["on"]))) };
    };
    const shapesOnHost = ({ part }: ReturnType<typeof deriveInstrument>, on: string) =>
      part(on as "headstock")
        .drawing()
        .layers.filter(({ name }) => name.startsWith("inlay-"))
        .flatMap((layer) => layer.shapes.map(({ path }) => path));
    const board = seen({ on: "fingerboard", placed: "fret", fret: 12 });
    expect(board.box).toEqual(board.lying);
    const head = seen({ on: "headstock" });
    const { startX, tiltRad } = head.made.measures("headstock");
    const along = (x: number): number => startX + (x - startX) * Math.cos(tiltRad);
    expect(head.box.minX).toBeCloseTo(along(head.lying.minX), 9);
    expect(head.box.maxX).toBeCloseTo(along(head.lying.maxX), 9);
    expect(head.box.maxX - head.box.minX).toBeLessThan(head.lying.maxX - head.lying.minX - 0.1);
    expect(head.box.maxY).toBeCloseTo(head.lying.maxY, 9);
    // On nothing it has no place.
    expect(
      Object.keys(
        deriveInstrument({ ...WHOLE_INSTRUMENT, inlay: { ...ring, on: "none" } })
          .part("inlay")
          .inPlace(),
      ),
    ).toEqual([]);
  }, 60_000);

  it("leaves out what cannot be drawn and says what it can", () => {
    const broken = deriveInstrument({ ...WHOLE_INSTRUMENT, body: { length: "none" } });
    const { drawing: rest, distances } = arrange(broken.derived);
    expect(drawingFault(rest)).toBeUndefined();
    expect(rest.layers.flatMap((layer) => layer.shapes).some(({ id }) => id.startsWith("body/"))).toBe(false);
    expect(distances.find(({ id }) => id === "nut-to-join")).toBeDefined();
  });
});
