import { describe, expect, it } from "vitest";
import { regionArea } from "../../src/geometry/region.ts";
import { setLetters } from "../../src/lettering/lettering.ts";
import { named } from "../../src/lettering/typed-letters.ts";
import { faceById, madeFile, mustRead } from "./font-files.ts";
import { seeded } from "./seeded.ts";
import { refused, set, specOf } from "./spec.ts";

const cormorant = faceById("cormorant-garamond");
const strokes = mustRead(madeFile("strokes.ttf"));

describe("text that is set", () => {
  it("has an accent typed apart become the accented letter of the face", () => {
    const apart = set(cormorant, "Jose\u0301");
    expect(apart.letters.map(({ character }) => character)).toEqual(["J", "o", "s", "é"]);
    expect(apart).toEqual(set(cormorant, "José"));
  });

  it("may be 300 letters long, counted as a reader counts them", () => {
    expect(set(cormorant, "e\u0301".repeat(300)).letters).toHaveLength(300);
    expect(refused(cormorant, "e\u0301".repeat(301))).toMatchObject({
      kind: "text",
      message: "The text has 301 letters, more than 300",
    });
  });

  it("may hold the space that does not break", () => {
    expect(set(cormorant, "A\u00a0B").bounds).toEqual(set(cormorant, "A B", { kerning: true }).bounds);
  });
});

describe("text that is refused", () => {
  it.each([
    ["", "no letters"],
    ["   \u2003", "no letters"],
    ["A\nB", "a line break, U+000A"],
    ["A\r\nB", "a line break, U+000D U+000A"],
    ["A\u2028B", "a line break, U+2028"],
    ["A\u0000", "an invisible mark, U+0000"],
    ["\u200fA", "an invisible mark, U+200F"],
    ["\u0301A", "an accent without its letter, U+0301"],
  ])("says why: %j", (text, words) => {
    expect(refused(cormorant, text)).toMatchObject({ kind: "text", message: expect.stringContaining(words) as string });
  });

  it.each([
    ["Ωmega", ["Ω"], "Ω (U+03A9)"],
    ["I ❤️ U", ["❤️"], "❤️ (U+2764 U+FE0F)"],
    ["👨‍👩‍👧", ["👨‍👩‍👧"], "U+1F468 U+200D U+1F469 U+200D U+1F467"],
    ["שלום", ["ש", "ל", "ו", "ם"], "ש (U+05E9), ל (U+05DC), ו (U+05D5), ם (U+05DD)"],
    ["x\u0302y\u0302", ["x\u0302", "\u0177"], "x̂ (U+0078 U+0302), ŷ (U+0177)"],
    ["A\ud800", ["\ud800"], "U+D800"],
    ["東京東", ["東", "京"], "東 (U+6771), 京 (U+4EAC)"],
  ])("names each character that the face lacks, once: %s", (text, missing, words) => {
    const trouble = refused(cormorant, text);
    expect(trouble.kind).toBe("glyph");
    expect(trouble.missing).toEqual(missing);
    expect(trouble.message).toContain(words);
  });

  it("counts a letter that the face draws nothing for as missing", () => {
    expect(refused(strokes, "HQ").message).toBe("Gramil Strokes has no Q (U+0051)");
  });

  it("says where a face was not read whole", () => {
    expect(refused({ ...strokes, whole: false }, "HZ").message).toBe(
      "Z (U+005A) is not among the letters read of Gramil Strokes",
    );
  });

  it("never sets letters that change with their neighbours side by side", () => {
    expect(refused(strokes, "بب")).toMatchObject({ kind: "text", message: expect.stringContaining("ب (U+0628)") as string });
  });

  it("never mixes both directions, nor leaves a bracket unturned", () => {
    expect(refused(strokes, "Hאב").message).toContain("mixes");
  });
});

describe("names of characters", () => {
  it("show the character only where it shows by itself", () => {
    expect([named("é"), named("\u0301"), named("\u00a0"), named("😀")]).toEqual([
      "é (U+00E9)",
      "U+0301",
      "U+00A0",
      "😀 (U+1F600)",
    ]);
  });
});

describe("500 odd texts", () => {
  const random = seeded(4);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const SCRAPS = [
    "A", "é", "e\u0301", "ß", " ", "\u00a0", "&", "Æ", "ﬁ", "1/2", "½", "😀", "👩‍🔧", "🏳️‍🌈", "ש", "بسم", "नि", "ไท", "東", "\u0301", "\u0300\u0301\u0302",
    "\u200d", "\u200f", "\u202e", "\ufeff", "\n", "\t", "\ud800", "\udfff", "\u0000", "\uffff", "\u{10ffff}", "Z̷̛̗a̴l̶g̷o̸", "<b>", "${x}", "'", "\\", "İ", "ı",
  ]; // prettier-ignore

  it("are set or refused with a reason, in every arrangement", () => {
    const outcomes = { set: 0, refused: 0 };
    for (let i = 0; i < 500; i++) {
      const length = pick([0, 1, 2, 3, 5, 8, 40, 320]);
      const alphabet = i % 2 === 0 ? SCRAPS : [..."ABCabc &é1½ÆœŁ."];
      const text = Array.from({ length }, () => pick(alphabet)).join("");
      const result = setLetters(
        specOf(text, {
          size: pick([
            { by: "em", value: 9 },
            { by: "cap-height", value: 4 },
            { by: "width", value: 60 },
          ] as const),
          tracking: pick([0, -0.5, 2]),
          slant: pick([0, 0.2]),
          arrangement: pick([
            { kind: "row" },
            { kind: "arc", radius: 90, side: "outside" },
            { kind: "arc", radius: 12, side: "inside" },
            { kind: "stacked", gap: 1 },
            { kind: "overlapped", overlap: 0.5 },
          ] as const),
        }),
        cormorant,
      );
      if (result.ok) {
        outcomes.set++;
        const { bounds, region, letters } = result.value;
        expect(Object.values(bounds).every(Number.isFinite), text).toBe(true);
        expect(regionArea(region), text).toBeGreaterThan(0);
        // Nothing was replaced: what stands there is what was typed.
        const drawn = letters.toSorted((a, b) => a.index - b.index).map(({ character }) => character);
        expect(drawn.join(""), text).toBe(text.normalize("NFC").replaceAll(/\p{Zs}/gu, ""));
      } else {
        outcomes.refused++;
        expect(result.error.message.length, text).toBeGreaterThan(10);
        expect(result.error.mend, text).toMatch(/\.$/);
      }
    }
    expect(outcomes.set).toBeGreaterThan(100);
    expect(outcomes.refused).toBeGreaterThan(100);
  });
});
