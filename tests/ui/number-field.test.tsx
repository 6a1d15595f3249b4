// @vitest-environment jsdom
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Field, Problem } from "../../src/parts/derived.ts";
import { NumberField, saidOf, type NumberFieldProps } from "../../src/ui/kit/number-field.tsx";
import type { Notation } from "../../src/ui/notation.ts";
import { focus, inputNamed, leave, openPage, press, type, type Page } from "./page.ts";

const INCHES: Notation = { unit: "in", fractions: false };
const MM: Notation = { unit: "mm", fractions: false };

/** 1 11/16 in = 27/16 x 25.4 mm, by hand: 42.8625. */
const NUT_MM = 42.8625;

const nut = (change: Partial<Field> = {}): Field => ({
  path: "instrument.nutWidth",
  key: "nutWidth",
  raw: "1 11/16 in",
  value: NUT_MM,
  state: "given",
  idle: false,
  spec: {
    type: "length",
    label: "Width at the nut",
    help: "Width of the finished board.",
    group: "At the nut",
    min: 5,
    max: 200,
    step: 0.1,
    usual: { from: 35, to: 52, basis: "made up for this test" },
    follows: { words: "strings and both margins", value: () => 0 },
  },
  ...change,
});

const WRONG: Problem = {
  path: "instrument.nutWidth",
  label: "Width at the nut",
  message: "“x” is no unit",
  mend: "Use in or mm.",
  at: 5,
  length: 1,
};

let page: Page | undefined;
afterEach(() => {
  page?.close();
  page = undefined;
  vi.useRealTimers();
});

function show(change: Partial<NumberFieldProps> = {}): { input: HTMLInputElement; unit: string; props: NumberFieldProps } {
  const props: NumberFieldProps = {
    field: nut(),
    notation: INCHES,
    label: "Width",
    onTry: vi.fn(),
    onCommit: vi.fn(),
    onDrop: vi.fn(),
    ...change,
  };
  page = openPage(<NumberField {...props} />);
  return { input: inputNamed(page.root, "Width"), unit: page.root.querySelector(".numf-unit")?.textContent ?? "", props };
}
const look = (): string => page?.root.querySelector(".numf")?.className ?? "";

describe("what a number field shows", () => {
  it("keeps the maker's own spelling, the unit apart", () => {
    const { input, unit } = show();
    expect([input.value, unit]).toEqual(["1 11/16", "in"]);
  });

  it("keeps that spelling where the design is shown in millimetres, and says the length in them beside", () => {
    const { input, unit } = show({ notation: MM });
    expect([input.value, unit]).toEqual(["1 11/16", "in"]);
    expect(saidOf(nut(), MM)).toBe("= 42.86 mm");
  });

  it("shows the value of a formula, and the formula beside", () => {
    const { input } = show({ field: nut({ raw: "= 40 + 2.8625" }), notation: MM });
    expect(input.value).toBe("42.86");
    expect(saidOf(nut({ raw: "= 40 + 2.8625" }), MM)).toBe("= 40 + 2.8625");
  });

  it("puts a number that follows in a dashed box and says what it follows", () => {
    const field = nut({ raw: undefined, state: "follows" });
    const { input } = show({ field, notation: MM });
    expect(input.value).toBe("42.86");
    expect(look()).toContain("numf-follows");
    expect(saidOf(field, MM)).toBe("follows: strings and both margins");
  });

  it("marks a measured number and tells the planned one", () => {
    const field = nut({ state: "measured", value: 42.5, planned: NUT_MM });
    const { input } = show({ field, notation: MM });
    expect(input.value).toBe("42.5");
    expect(look()).toContain("numf-measured");
    expect(saidOf(field, MM)).toBe("as measured; planned 42.86 mm");
  });

  it("writes the ends of the usual range in the units shown", () => {
    show({ notation: MM });
    expect([...(page?.root.querySelectorAll(".range > span") ?? [])].map((end) => end.textContent)).toEqual(["35", "", "52"]);
  });

  it("tells the usual range, and that a value lies outside of it, to those who do not see the bar", () => {
    const { input } = show({ field: nut({ value: 60, raw: "60 mm" }), notation: MM });
    const says = document.getElementById(input.getAttribute("aria-describedby")?.split(" ")[0] ?? "")?.textContent;
    expect(says).toContain("usually 35 mm to 52 mm");
    expect(says).toContain("outside the usual range");
  });

  it("says what is wrong with a given text, and marks the place", () => {
    const { input } = show({ field: nut({ raw: "1 11/x", value: undefined, problem: WRONG }) });
    expect(input.getAttribute("aria-invalid")).toBe("true");
    expect(page?.root.querySelector(".numf-error")?.textContent).toContain("“x” is no unit. Use in or mm.");
    expect(page?.root.querySelector(".numf-error mark")?.textContent).toBe("x");
  });
});

describe("typing into a number field", () => {
  it("opens the whole text, chosen, when it is entered", () => {
    const { input } = show();
    focus(input);
    expect(input.value).toBe("1 11/16 in");
    expect([input.selectionStart, input.selectionEnd]).toEqual([0, input.value.length]);
  });

  it("tries a text at every letter and commits on Enter", () => {
    const { input, props } = show();
    type(input, "1 3/4");
    expect(props.onTry).toHaveBeenLastCalledWith("1 3/4");
    expect(props.onCommit).not.toHaveBeenCalled();
    press(input, "Enter");
    expect(props.onCommit).toHaveBeenCalledExactlyOnceWith("1 3/4");
  });

  it("commits when it is left, and only what was changed", () => {
    const { input, props } = show();
    focus(input);
    leave(input);
    expect(props.onCommit).not.toHaveBeenCalled();
    type(input, "43 mm");
    leave(input);
    expect(props.onCommit).toHaveBeenCalledExactlyOnceWith("43 mm");
  });

  it("restores what stood there on Escape, and lets go of what was tried", () => {
    const { input, props } = show();
    type(input, "99");
    press(input, "Escape");
    leave(input);
    expect(input.value).toBe("1 11/16");
    expect(props.onDrop).toHaveBeenCalled();
    expect(props.onCommit).not.toHaveBeenCalled();
  });

  it("takes the number back when it is emptied", () => {
    const { input, props } = show();
    type(input, " ");
    press(input, "Enter");
    expect(props.onCommit).toHaveBeenCalledExactlyOnceWith(undefined);
  });

  it("keeps a refused text and says why", () => {
    const { input } = show({ onCommit: () => WRONG });
    type(input, "1 11/x");
    press(input, "Enter");
    expect(input.value).toBe("1 11/x");
    expect(page?.root.querySelector("[role=alert]")?.textContent).toContain("Use in or mm.");
  });

  it("waits before it calls an unfinished text wrong", () => {
    vi.useFakeTimers();
    const { input } = show({ onTry: () => WRONG });
    type(input, "1 11/x");
    expect(page?.root.querySelector("[role=alert]")).toBeNull();
    vi.useRealTimers();
  });

  it.each([
    ["ArrowUp", MM, {}, "42.96 mm"],
    ["ArrowDown", MM, {}, "42.76 mm"],
    ["ArrowUp", MM, { shiftKey: true }, "43.86 mm"],
    // 0.1 mm is 0.0039 in: the next round step of decimal inches is 0.005; 1.6925 is shown with its half rounded up.
    ["ArrowUp", INCHES, {}, "1.693 in"],
    // A rule's finest line is 1/64 in.
    ["ArrowUp", { unit: "in", fractions: true }, {}, "1 45/64 in"],
  ] as const)("%s steps by a round amount of the units shown", (key, notation, more, expected) => {
    const { input, props } = show({ notation });
    focus(input);
    press(input, key, more);
    expect(vi.mocked(props.onCommit).mock.calls[0]?.[0]).toBe(expected);
  });

  it("steps no further than what is accepted", () => {
    const { input, props } = show({ field: nut({ raw: "199.95 mm", value: 199.95 }), notation: MM });
    focus(input);
    press(input, "ArrowUp");
    expect(vi.mocked(props.onCommit).mock.calls[0]?.[0]).toBe("200 mm");
  });
});
