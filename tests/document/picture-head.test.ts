import { Resvg } from "@resvg/resvg-js";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pictureHead } from "../../src/document/picture-head.ts";

const sizeOf = (bytes: Uint8Array): readonly [number, number] => {
  const head = pictureHead(bytes);
  if (!head.ok) throw new Error(head.error.message);
  return [head.value.width, head.value.height];
};
const refusal = (bytes: Uint8Array): string => {
  const head = pictureHead(bytes);
  return head.ok ? "" : head.error.message;
};
const text = (letters: string): number[] => [...letters].map((letter) => letter.charCodeAt(0));

describe("the head of a picture", () => {
  it("says the size of a PNG as resvg writes it", () => {
    const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="321" height="45"/>';
    expect(sizeOf(new Resvg(svg).render().asPng())).toEqual([321, 45]);
  });

  it("finds the frame of a JPEG behind its other segments", () => {
    // ITU-T T.81, B.2.2: SOI, APP1 of 8 bytes, then SOF2: length, precision, 1200 lines of 1600 samples.
    const bytes = [0xff, 0xd8, 0xff, 0xe1, 0, 8, 1, 2, 3, 4, 5, 6, 0xff, 0xc2, 0, 17, 8, 0x04, 0xb0, 0x06, 0x40, 3, 0, 0, 0];
    expect(sizeOf(new Uint8Array(bytes))).toEqual([1600, 1200]);
    expect(refusal(new Uint8Array([0xff, 0xd8, 0xff, 0xd9, 0, 0, 0, 0, 0, 0, 0, 0]))).toMatch(/damaged/);
  });

  it("reads the three kinds of WebP (RFC 9649)", () => {
    const webp = (kind: string, rest: readonly number[]): Uint8Array =>
      new Uint8Array([
        ...text("RIFF"),
        0,
        0,
        0,
        0,
        ...text(`WEBP${kind}`),
        0,
        0,
        0,
        0,
        ...rest,
        ...Array.from({ length: 20 }, () => 0),
      ]);
    // Lossy: frame tag, start code, then 14 bits each. Lossless: signature, then width - 1 and height - 1 of 14 bits. Extended: 24 bits each.
    expect(sizeOf(webp("VP8 ", [0, 0, 0, 0x9d, 0x01, 0x2a, 0x40, 0x06, 0xb0, 0x04]))).toEqual([1600, 1200]);
    expect(
      sizeOf(webp("VP8L", [0x2f, 1599 & 255, ((1599 >> 8) | ((1199 & 3) << 6)) & 255, (1199 >> 2) & 255, 1199 >> 10])),
    ).toEqual([1600, 1200]);
    expect(sizeOf(webp("VP8X", [0, 0, 0, 0, 0x3f, 0x06, 0, 0xaf, 0x04, 0]))).toEqual([1600, 1200]);
  });

  it("refuses what is empty, has no pixels, too many, or is something else, with what to do", () => {
    expect(refusal(new Uint8Array())).toBe("the file is empty");
    const png = (width: number, height: number): Uint8Array => {
      const bytes = new Uint8Array([
        0x89,
        ...text("PNG\r\n\u001a\n"),
        0,
        0,
        0,
        13,
        ...text("IHDR"),
        ...Array.from({ length: 12 }, () => 0),
      ]);
      new DataView(bytes.buffer).setUint32(16, width);
      new DataView(bytes.buffer).setUint32(20, height);
      return bytes;
    };
    expect(refusal(png(0, 40))).toBe("the picture has no pixels");
    expect(refusal(png(60_000, 60_000))).toMatch(/larger than 120 megapixels/);
    expect(refusal(png(40, 40).subarray(0, 20))).toMatch(/damaged/);
    expect(refusal(new Uint8Array(text("<svg></svg>")))).toBe("the file is no photograph");
    expect(refusal(new Uint8Array(text("GIF89a......")))).toMatch(/GIF/);
    expect(refusal(new Uint8Array(text("%PDF-1.7....")))).toMatch(/PDF/);
  });

  it("never throws, whatever the bytes", () => {
    const starts = [[0x89, ...text("PNG\r\n\u001a\n")], [0xff, 0xd8, 0xff], [...text("RIFF1234WEBPVP8X")], []];
    fc.assert(
      fc.property(fc.constantFrom(...starts), fc.uint8Array({ maxLength: 80 }), (head, tail) => {
        const read = pictureHead(new Uint8Array([...head, ...tail]));
        if (read.ok) expect(read.value.width * read.value.height).toBeGreaterThan(0);
        else expect(read.error.mend).not.toBe("");
      }),
    );
  });
});
