/**
 * Pairs of 63 characters of three faces, 12 mm high, held against JTS (the npm package jsts), which has no part in making them. What is measured is
 * what goes into a file: the arcs of pocket and piece, in chords within 0.0002 mm.
 */
import { describe, expect, it } from "vitest";
import { regionOfArcs } from "../../src/geometry/arc-ring.ts";
import type { Outline } from "../../src/geometry/outline.ts";
import { inlayPair } from "../../src/lutherie/inlay-pair.ts";
import { jtsLeft, jtsOffset } from "../geometry/jts.ts";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";

const CHARACTERS = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&"];
/** Three kinds: even strokes, fine serifs, and a script whose thin strokes break under this cutter. */
const FACES = ["lato", "cormorant-garamond", "great-vibes"];
const [CUTTER, GAP, OFF] = [0.508, 0.05, 0.005];
/** Chords of both, and of JTS's own arcs, may make slivers of this area in all, mm2. */
const NOTHING = 1e-6;

describe.each(FACES)("every character of %s", (id) => {
  it.each(CHARACTERS)("%s: the gap is 0.045 to 0.055 everywhere and the piece keeps within the pocket", (character) => {
    const { region } = set(faceById(id), character, { size: { by: "cap-height", value: 12 } });
    const { curves, followed } = inlayPair(region, {
      pocketRadius: CUTTER / 2,
      pieceRadius: CUTTER / 2,
      gap: GAP,
      share: 0.5,
      pieces: "apart",
      mend: "cut",
    });
    expect(followed).toBe(true);
    const flat = (outlines: readonly Outline[]) => regionOfArcs(outlines, 0.0002);
    const [pocket, piece] = [flat(curves.pocket), flat(curves.piece)];
    expect(piece.length).toBeGreaterThan(0);
    expect(pocket).toHaveLength(piece.length);
    // Nowhere nearer: the piece grown by the least gap is still in the pocket.
    expect(jtsLeft(jtsOffset(piece, GAP - OFF), pocket)).toBeLessThan(NOTHING);
    // Nowhere further: the piece grown by the greatest gap covers the pocket, and covers itself what is left of the pocket shrunk by that.
    expect(jtsLeft(pocket, jtsOffset(piece, GAP + OFF))).toBeLessThan(NOTHING);
    expect(jtsLeft(jtsOffset(pocket, -GAP - OFF), piece)).toBeLessThan(NOTHING);
  });
});

it("the measuring tells a gap that misses by 0.001", () => {
  const { region } = set(faceById("lato"), "R", { size: { by: "cap-height", value: 12 } });
  const cutting = { pocketRadius: 0.254, pieceRadius: 0.254, share: 0.5, pieces: "apart", mend: "cut" } as const;
  for (const gap of [0.044, 0.056]) {
    const { curves } = inlayPair(region, { ...cutting, gap });
    const [pocket, piece] = [regionOfArcs(curves.pocket, 0.0002), regionOfArcs(curves.piece, 0.0002)];
    const [nearer, further, inward] = [
      jtsLeft(jtsOffset(piece, GAP - OFF), pocket),
      jtsLeft(pocket, jtsOffset(piece, GAP + OFF)),
      jtsLeft(jtsOffset(pocket, -GAP - OFF), piece),
    ];
    if (gap < GAP) expect(nearer).toBeGreaterThan(0.01);
    else for (const left of [further, inward]) expect(left).toBeGreaterThan(0.01);
  }
});
