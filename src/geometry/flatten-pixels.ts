/** A picture drawn anew through a map of planes: what a slanting camera narrowed is stretched again. */
import type { Homography } from "./homography.ts";

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, cover of every pixel in rows. */
  readonly data: Uint8ClampedArray;
}

/**
 * @param toSource from the middle of a pixel of the new picture to a place of the old; between four pixels there it is their mean by
 * distance. Where the old picture shows nothing the new one is clear.
 */
export function mappedPixels(source: Pixels, toSource: Homography, width: number, height: number): Uint8ClampedArray {
  const [a, b, c, d, e, f, g, h, i] = toSource;
  const { data, width: w, height: high } = source;
  const out = new Uint8ClampedArray(width * height * 4);
  for (let row = 0; row < height; row++) {
    const y = row + 0.5;
    for (let column = 0; column < width; column++) {
      const x = column + 0.5;
      const depth = g * x + h * y + i;
      if (!(depth > 0)) continue;
      // Middles of pixels lie half a pixel in.
      const u = (a * x + b * y + c) / depth - 0.5;
      const v = (d * x + e * y + f) / depth - 0.5;
      if (u < -0.5 || v < -0.5 || u > w - 0.5 || v > high - 0.5) continue;
      const u0 = u < 0 ? 0 : u > w - 1 ? w - 1 : Math.floor(u);
      const v0 = v < 0 ? 0 : v > high - 1 ? high - 1 : Math.floor(v);
      const u1 = u0 + 1 < w ? u0 + 1 : u0;
      const v1 = v0 + 1 < high ? v0 + 1 : v0;
      const su = u < 0 ? 0 : u - u0;
      const sv = v < 0 ? 0 : v - v0;
      const p = 4 * (v0 * w + u0);
      const q = 4 * (v0 * w + u1);
      const r = 4 * (v1 * w + u0);
      const s = 4 * (v1 * w + u1);
      const kp = (1 - su) * (1 - sv);
      const kq = su * (1 - sv);
      const kr = (1 - su) * sv;
      const ks = su * sv;
      const at = 4 * (row * width + column);
      out[at] = kp * data[p]! + kq * data[q]! + kr * data[r]! + ks * data[s]!;
      out[at + 1] = kp * data[p + 1]! + kq * data[q + 1]! + kr * data[r + 1]! + ks * data[s + 1]!;
      out[at + 2] = kp * data[p + 2]! + kq * data[q + 2]! + kr * data[r + 2]! + ks * data[s + 2]!;
      out[at + 3] = kp * data[p + 3]! + kq * data[q + 3]! + kr * data[r + 3]! + ks * data[s + 3]!;
    }
  }
  return out;
}
