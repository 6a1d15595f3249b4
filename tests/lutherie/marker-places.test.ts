import { describe, expect, it } from "vitest";
import { markerSpaces } from "../../src/lutherie/marker-places.ts";

describe("spaces for markers between courses", () => {
  it("are the middle one and its neighbours under an even number of courses", () => {
    // Spaces are counted by the course on their bass side: 6 courses have spaces 0 to 4, the middle one is 2.
    expect(markerSpaces(6)).toEqual({ single: 2, pair: [1, 3] });
    expect(markerSpaces(4)).toEqual({ single: 1, pair: [0, 2] });
  });

  it("lie beside the middle course under an odd number, a single one on the treble side", () => {
    expect(markerSpaces(5)).toEqual({ single: 2, pair: [1, 2] });
    expect(markerSpaces(3)).toEqual({ single: 1, pair: [0, 1] });
  });

  it("are wanting below three courses", () => {
    for (const courses of [0, 1, 2]) expect(markerSpaces(courses)).toBeUndefined();
  });
});
