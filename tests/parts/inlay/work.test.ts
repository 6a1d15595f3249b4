import { describe, expect, it } from "vitest";
import { fewLetters } from "../../../src/lettering/few-letters.ts";
import type { InlayQuestion } from "../../../src/parts/inlay/question.ts";
import { inlayWork } from "../../../src/parts/inlay/work.ts";
import { faceById } from "../../lettering/font-files.ts";
import { specOf } from "../../lettering/spec.ts";
import { NO_FIGURES } from "./no-figures.ts";
import { wholeStep } from "./whole-steps.ts";

const question = (more: Partial<InlayQuestion> = {}): InlayQuestion => ({
  letters: { spec: specOf("Ri", { size: { by: "cap-height", value: 12 } }), face: fewLetters(faceById("lato"), "Ri") },
  figures: NO_FIGURES,
  cutting: { pocketRadius: 0.4, pieceRadius: 0.4, gap: 0.05, share: 0.5, pieces: "apart", mend: "cut" },
  coupon: true,
  ...more,
});
const keysOf = (answer: object): string[] => Object.keys(answer).toSorted();

describe("the work for an inlay", () => {
  it("tells more with every step: the pair, what is lost of the letters, how it fits, what sizes would do, the coupon", () => {
    const answers = inlayWork.steps(question()).map(wholeStep);
    const drawn = ["area", "capHeight", "crossings", "cut", "outlines"];
    const told = [[], [], ["report"], ["fit", "wall"], ["keeps", "limits"], ["coupon"]];
    expect(answers.map(keysOf)).toEqual(told.map((_, i) => [...drawn, ...told.slice(0, i + 1).flat()].toSorted()));
    expect(answers[0]!.cut!.followed).toBe(false);
    for (const answer of answers.slice(1)) expect(answer.cut).toEqual(answers[1]!.cut);
  });

  it("answers at once by its last step what it answers step by step", () => {
    expect(inlayWork.steps(question()).at(-1)!()).toEqual(inlayWork.steps(question()).map(wholeStep).at(-1));
  });

  it("makes the pair of many letters part by part, so that it can be dropped on the way", () => {
    const text = "Made by hand for you";
    const face = fewLetters(faceById("great-vibes"), text);
    const letters = { spec: specOf(text, { size: { by: "cap-height", value: 10 } }), face };
    const [, cut] = inlayWork.steps(question({ letters, coupon: false }));
    const given = Array.from({ length: 6 }, () => cut!());
    expect(given).toEqual(given.map(() => undefined));
    expect(wholeStep(cut!)).toEqual(wholeStep(inlayWork.steps(question({ letters, coupon: false }))[1]!));
  });

  it("has no step that tells nothing new: without coupon and passes the sizes come last", () => {
    const answers = inlayWork.steps(question({ coupon: false })).map(wholeStep);
    expect(answers.map((answer) => keysOf(answer).length)).toEqual([5, 5, 6, 8, 10]);
  });

  it("stays with the reason, step by step, where letters cannot be had or bush and bit jam", () => {
    const { letters: _, ...none } = question();
    for (const answer of inlayWork.steps(none).map(wholeStep))
      expect(answer).toMatchObject({ trouble: { kind: "text" }, outlines: [] });
    const bush = { by: "bush", guide: 3, bit: 3 } as const;
    const guided = { way: "one-inside", pocket: bush, piece: bush, gap: 0, share: 0.5, mend: "cut", through: false } as const;
    for (const answer of inlayWork.steps(question({ guided, coupon: false })).map(wholeStep)) {
      expect(answer.refused).toMatchObject({ why: "bush", cuts: "pocket" });
      expect(answer.cut).toBeUndefined();
    }
  });
});
