import { describe, expect, it } from "vitest";
import { asCircle } from "../../../src/geometry/path.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { deriveBoard, findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";

const gauges = (count: number): { gauge: string }[] => Array.from({ length: count }, () => ({ gauge: "0.6" }));

describe("markers on the face", () => {
  it("stand half way between the marked fret and the one before, worked by hand", () => {
    // 650 mm: frets 4 and 5 at 134.0947 and 163.0502 (published table): middle 148.57245.
    const { fingerboard: m } = deriveBoard({ instrument: { scale: "650" } });
    expect(m.faceMarkers.find((marker) => marker.fret === 5)!.at[0]).toBeCloseTo(148.57245, 4);
  });

  it("are the usual ones as far as there are frets, two at fret 12", () => {
    const { fingerboard: m } = deriveBoard({ instrument: { frets: 17 } });
    expect(m.faceMarkers.map((marker) => marker.fret)).toEqual([3, 5, 7, 9, 12, 12, 15, 17]);
  });

  it("keep to the centre line under an even number of strings, pairs alike on both sides", () => {
    const { fingerboard: m } = deriveBoard();
    for (const { fret, at } of m.faceMarkers) if (fret !== 12) expect(at[1]).toBe(0);
    const [bass, treble] = m.faceMarkers.filter((marker) => marker.fret === 12);
    expect(bass!.at[1]).toBeCloseTo(-treble!.at[1], 9);
    expect(treble!.at[1]).toBeGreaterThan(0);
  });

  it("go into the space beside a string that runs along the middle", () => {
    const instrument = { strings: gauges(5), nutWidth: "42", nutMargin: "3", saddleSpread: "52" };
    const { fingerboard: m, parts } = deriveBoard({ instrument, fingerboard: { markerSize: "4" } });
    // Five like strings over 36 at the nut and 52 at the saddle: 9 to 13 apart, so the space's middle lies 4.5 to 6.5 off the centre.
    for (const { fret, at } of m.faceMarkers) {
      const expected = (9 + (4 * at[0]) / 645.16) / 2;
      if (fret !== 12) expect(at[1]).toBeCloseTo(expected, 6);
    }
    expect(findingOf(parts.fingerboard, "marker-fit/string").severity).toBe("fine");
    const centred = deriveBoard({ instrument, fingerboard: { markerSize: "4", markerPlace: "centre" } });
    expect(findingOf(centred.parts.fingerboard, "marker-fit/string").severity).toBe("look");
  });

  it("are mirrored on a left-handed board", () => {
    const instrument = { strings: gauges(5) };
    const right = deriveBoard({ instrument }).fingerboard.faceMarkers;
    const left = deriveBoard({ instrument: { ...instrument, handed: "left" } }).fingerboard.faceMarkers;
    left.forEach((marker, i) => {
      expect(marker.at[0]).toBeCloseTo(right[i]!.at[0], 9);
      expect(marker.at[1]).toBeCloseTo(-right[i]!.at[1], 9);
    });
  });

  it("are drawn as circles, bars or diamonds of the given size", () => {
    const dot = shapeOf(deriveBoard({ fingerboard: { markerSize: "6.5" } }).parts.fingerboard.drawing(), "marker-5");
    expect(asCircle(dot.path)?.radius).toBe(3.25);
    for (const markerShape of ["bar", "diamond"]) {
      const { parts } = deriveBoard({ fingerboard: { markerShape, markerSize: "12", markerLength: "5" } });
      const box = pathBounds(shapeOf(parts.fingerboard.drawing(), "marker-5").path);
      expect([box.maxX - box.minX, box.maxY - box.minY]).toEqual([expect.closeTo(5, 9), expect.closeTo(12, 9)]);
    }
  });

  it("turn with the frets of a two-scale board, half way between their two slots", () => {
    const { parts, fingerboard: m } = deriveBoard({
      instrument: { scale: "675", bassScale: "710", squareFret: 7 },
      fingerboard: { markerShape: "bar", markerSize: "14", markerLength: "3" },
    });
    const slopeOf = (fret: number): number => {
      const { bass, treble } = m.frets[fret]!;
      return (treble[0] - bass[0]) / (treble[1] - bass[1]);
    };
    // Second side of the bar: from its bass end on the far side to its treble end.
    const [, to, next] = shapeOf(parts.fingerboard.drawing(), "marker-15").path.segments;
    const side = { x: next!.to.x - to!.to.x, y: next!.to.y - to!.to.y };
    const bar = [shapeOf(parts.fingerboard.drawing(), "marker-15").path.segments[0]!.to, to!.to];
    const slope = (bar[1]!.x - bar[0]!.x) / (bar[1]!.y - bar[0]!.y);
    expect(slope).toBeCloseTo((slopeOf(14) + slopeOf(15)) / 2, 9);
    expect(Math.hypot(bar[1]!.x - bar[0]!.x, bar[1]!.y - bar[0]!.y)).toBeCloseTo(14, 9);
    expect(Math.hypot(side.x, side.y)).toBeCloseTo(3, 9);
  });

  it("wanted at frets that the board has not are left out and told", () => {
    const { fingerboard: m, parts } = deriveBoard({ fingerboard: { markerFrets: "5 30", doubleFrets: "" } });
    expect(m.faceMarkers.map((marker) => marker.fret)).toEqual([5]);
    expect(findingOf(parts.fingerboard, "marker-frets")).toMatchObject({
      severity: "look",
      says: "Markers are wanted at fret 30, which the board has not.",
    });
  });

  it("too large for their space stop the board", () => {
    // Frets 18 and 19 are 12.9 mm apart on 650 mm.
    const { parts } = deriveBoard({ instrument: { scale: "650" }, fingerboard: { markerSize: "13" } });
    expect(findingOf(parts.fingerboard, "marker-fit/fret")).toMatchObject({ severity: "stop" });
  });

  it("are tabled once a fret and crossed at their middles for pricking", () => {
    const template = templateOf(deriveBoard().parts.fingerboard, "markers");
    expect(template.table!.rows.map((row) => row.label)).toEqual(
      [3, 5, 7, 9, 12, 15, 17, 19].map((fret) => `marker at fret ${fret}`),
    );
    const ids = shapesOf(template.drawing).map((shape) => shape.id);
    for (const id of ["marker-12-bass", "marker-12-treble-along", "marker-3-across"]) expect(ids).toContain(id);
  });
});

describe("markers on the side", () => {
  it("stand on the bass edge, two of them three diameters apart", () => {
    const { fingerboard: m } = deriveBoard({ fingerboard: { sideDiameter: "2" } });
    for (const { at } of m.sideMarkers) {
      const half = (m.widthAtNut + ((m.widthAtEnd - m.widthAtNut) * at[0]) / m.endX) / 2;
      expect(at[1]).toBeCloseTo(-half, 9);
    }
    const [first, second] = m.sideMarkers.filter((marker) => marker.fret === 12);
    expect(second!.at[0] - first!.at[0]).toBeCloseTo(6, 9);
  });

  it("are drilled through a strip as long as the edge, at the given depth below the face", () => {
    const { parts } = deriveBoard({
      instrument: { scale: "650", nutWidth: "43", nutMargin: "3.2" },
      fingerboard: { length: "470", widthAtEnd: "57", sideDepth: "2.5", thickness: "6", radius: "305" },
    });
    const drawing = templateOf(parts.fingerboard, "side-markers").drawing;
    const box = pathBounds(shapeOf(drawing, "outline").path);
    // The edge is the slanting side: sqrt(470^2 + 7^2) = 470.052125.
    expect(box.maxX - box.minX).toBeCloseTo(470.052125, 5);
    const hole = asCircle(shapeOf(drawing, "side-marker-5").path)!;
    // At x 148.57245 the board is 43 + 14 x 148.57245 / 470 = 47.425562 wide: the face has fallen 0.923201 there, and 2.5 more.
    const fall = 305 - Math.sqrt(305 ** 2 - (47.425562 / 2) ** 2);
    expect(hole.centre.y).toBeCloseTo(6 - fall - 2.5, 4);
    expect(hole.centre.x).toBeCloseTo((148.57245 * 470.052125) / 470, 3);
  });

  it("that break out of the edge stop the board", () => {
    const { parts } = deriveBoard({ fingerboard: { sideDepth: "0.5", sideDiameter: "2" } });
    expect(findingOf(parts.fingerboard, "side-marker-fit").severity).toBe("stop");
  });
});
