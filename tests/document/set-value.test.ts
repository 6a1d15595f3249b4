import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { insertRecord, moveRecord, removeRecord } from "../../src/document/edit-records.ts";
import { labelOf } from "../../src/document/describe.ts";
import { addPart } from "../../src/document/edit-parts.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { setValue } from "../../src/document/set-value.ts";
import { REGISTRY } from "../../src/parts/registry.ts";
import { design as anyDesign } from "./arbitrary-design.ts";

// A busy machine must not fail a property.
vi.setConfig({ testTimeout: 120_000 });

const start: Design = {
  format: "gramil-design",
  version: 1,
  units: "in",
  instrument: { nutWidth: "1 3/4", nutMargin: "3.2 mm", strings: ["0.05", { gauge: "0.01", note: "E4" }] },
  parts: {
    fingerboard: { kind: "fingerboard", binding: "0.06 in", overhang: 8 },
    nut: { kind: "nut" },
    odd: { kind: "unheard-of" },
  },
};

function set(design: Design, path: string, raw: unknown): Design {
  const result = setValue(design, path, raw);
  if (!result.ok) throw new Error(`${result.error.message} ${result.error.mend}`);
  return result.value;
}
function refusal(path: string, raw: unknown, design = start): string {
  const result = setValue(design, path, raw);
  if (result.ok) throw new Error(`${path} was set`);
  return `${result.error.message}. ${result.error.mend}`;
}

const given = (design: Design): string[] =>
  ["nutWidth", "nutSpread", "nutMargin"].filter((key) => design.instrument[key] !== undefined);

const strings = (design: Design): unknown => design.instrument.strings;
const done = <T>(result: { ok: true; value: T } | { ok: false; error: { message: string } }): T => {
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

describe("setting a value by path", () => {
  it("puts the text as typed into the instrument, a part, an entry of a list, the order, the limits", () => {
    expect(set(start, "instrument.scale", " 25.4 ").instrument.scale).toBe(" 25.4 ");
    expect(set(start, "parts.nut.thickness", 6).parts.nut).toEqual({ kind: "nut", thickness: 6 });
    expect(set(start, "instrument.strings[1].note", "D4").instrument.strings).toEqual(["0.05", { gauge: "0.01", note: "D4" }]);
    expect(set(start, "order.title", "For Ines").order).toEqual({ title: "For Ines" });
    expect(set(start, "order.number", 27).order).toEqual({ number: "27" });
    expect(set(start, "order.reference.nutWidth", "1 11/16").order).toEqual({ reference: { nutWidth: "1 11/16" } });
    expect(set(start, "fractions", "true").fractions).toBe(true);
  });

  it("reads the instrument's names alone, and a part's id without the word parts", () => {
    expect(set(start, "nutMargin", "3 mm")).toEqual(set(start, "instrument.nutMargin", "3 mm"));
    expect(set(start, "fingerboard.overhang", "5 mm")).toEqual(set(start, "parts.fingerboard.overhang", "5 mm"));
    expect(set(start, "strings[0].gauge", "1 mm")).toEqual(set(start, "instrument.strings[0].gauge", "1 mm"));
  });

  it("takes a value back with undefined, and with a blank text where a number stands; a blank title stays blank", () => {
    const { nutMargin: _, ...rest } = start.instrument;
    expect(set(start, "nutMargin", undefined).instrument).toEqual(rest);
    expect(set(start, "nutMargin", "  ").instrument).toEqual(rest);
    expect(set(start, "order.title", "").order).toEqual({ title: "" });
    expect(set(set(start, "order.title", "x"), "order.title", undefined)).toEqual(start);
  });

  it("gives the same object where nothing changes, and shares what it did not touch", () => {
    expect(set(start, "nutWidth", "1 3/4")).toBe(start);
    expect(set(start, "scale", undefined)).toBe(start);
    expect(set(start, "strings[1].note", "E4")).toBe(start);
    expect(set(start, "units", "in")).toBe(start);
    const next = set(start, "fingerboard.overhang", 9);
    expect(next.instrument).toBe(start.instrument);
    expect(next.parts.nut).toBe(start.parts.nut);
    expect(start.parts.fingerboard!.overhang).toBe(8);
  });

  it("opens a short entry into a record when one of its fields is set", () => {
    expect(set(start, "fingerboard.binding[0].name", "celluloid").parts.fingerboard!.binding).toEqual([
      { thickness: "0.06 in", name: "celluloid" },
    ]);
    expect(set(start, "strings[0].wound", "yes").instrument.strings).toEqual([
      { gauge: "0.05", wound: true },
      { gauge: "0.01", note: "E4" },
    ]);
  });

  it("changes an entry of a list that was not given by giving the list that held until then", () => {
    const fallback = REGISTRY[0]!.params["strings" as never] as { fallback: readonly { gauge: number }[] };
    const { strings: _, ...instrument } = start.instrument;
    const strings = set({ ...start, instrument }, "strings[2].gauge", "0.03 in").instrument.strings as { gauge: unknown }[];
    expect(strings.map(({ gauge }) => gauge)).toEqual(fallback.fallback.map(({ gauge }, i) => (i === 2 ? "0.03 in" : gauge)));
  });

  it("reads flags and lists as the command line writes them", () => {
    expect(set(start, "zeroFret", "Yes").instrument.zeroFret).toBe(true);
    expect(set(start, "zeroFret", "false").instrument.zeroFret).toBe(false);
    expect(set(start, "courses", "1 1").instrument.courses).toBe("1 1");
    expect(set(start, "fingerboard.markerFrets", "[]").parts.fingerboard!.markerFrets).toEqual([]);
    expect(set(start, "fingerboard.binding", '["0.06 in", {"thickness": 0.5}]').parts.fingerboard!.binding).toEqual([
      "0.06 in",
      { thickness: 0.5 },
    ]);
  });

  it("keeps date and manner of a measured number when its value is set alone, and takes the entry out with undefined", () => {
    const measured = set(start, "measured.nutWidth", { value: "43.1 mm", date: "2025-04-01", how: "calliper" });
    expect(measured.measured).toEqual({ "instrument.nutWidth": { value: "43.1 mm", date: "2025-04-01", how: "calliper" } });
    expect(set(measured, "measured.instrument.nutWidth", "43").measured).toEqual({
      "instrument.nutWidth": { value: "43", date: "2025-04-01", how: "calliper" },
    });
    expect(set(measured, "measured.instrument.nutWidth", undefined)).toEqual(start);
    expect(set(measured, "measured.nutWidth", { value: "43.1 mm", date: "2025-04-01", how: "calliper" })).toBe(measured);
  });

  it("sets the limits of checks by their names, and takes them back", () => {
    const part = REGISTRY.find(({ checks }) => checks.some(({ limits }) => Object.keys(limits).length > 0))!;
    const check = part.checks.find(({ limits }) => Object.keys(limits).length > 0)!;
    const key = `${part.kind}.${check.id}.${Object.keys(check.limits)[0]!}`;
    const limited = set(start, `limits.${key}`, "2 mm");
    expect(limited.limits).toEqual({ [key]: "2 mm" });
    expect(set(limited, `limits.${key}`, "")).toEqual(start);
    expect(refusal(`limits.${key}x`, 1)).toContain(`Did you mean ${key}?`);
  });
});

describe("a path that leads nowhere is refused, and the nearest name is told", () => {
  it.each([
    ["nutWidht", "a design has no nutWidht. Did you mean nutWidth?"],
    ["instrument.sclae", "the instrument has no sclae. Did you mean scale?"],
    ["fingerboard.overhnag", "fingerboard has no overhnag. Did you mean overhang?"],
    ["parts.fingerbord.overhang", "the design has no fingerbord. Did you mean fingerboard?"],
    ["fingerboard.binding[0].thikness", "binding[0] has no thikness. Did you mean thickness?"],
    ["order.titel", "the order has no titel. Did you mean title?"],
    ["fingerboard.binding.thickness", "binding is a list. Say which layer: binding[0]."],
    ["fingerboard.overhang.mm", "overhang holds nothing further. Write overhang alone."],
    ["fingerboard.overhang[0]", "overhang is no list. Write overhang alone."],
    ["fingerboard.binding[3].name", "there is no layer 3. There are 1, counted from 0."],
    ["parts.odd.size", 'this version knows no part of the kind "unheard-of". Take another part.'],
    ["measured.order.title", "order.title cannot be measured. Name a number of the instrument or of a part."],
    ["units.x", "units holds nothing further. Write units alone."],
    ["", "an empty text is no path. Write it as parts.fingerboard.binding[0].thickness."],
    ["a..b", "a..b is no path. Write it as parts.fingerboard.binding[0].thickness."],
    ["nutWidth.", "nutWidth. is no path. Write it as parts.fingerboard.binding[0].thickness."],
    ["strings[-1]", "strings[-1] is no path. Write it as parts.fingerboard.binding[0].thickness."],
  ])("%j", (path, says) => {
    expect(refusal(path, "1 in")).toBe(says);
  });

  it.each([
    "__proto__.x",
    "constructor",
    "parts.__proto__.kind",
    "instrument.toString",
    "fingerboard.constructor.name",
    "parts.toString.x",
    "hasOwnProperty.call",
  ])("%j reaches nothing of the language's own", (path) => {
    expect(setValue(start, path, 1).ok).toBe(false);
  });

  it("of a part as a whole, or its kind, is no place for a value", () => {
    expect(refusal("parts.fingerboard", "x")).toMatch(/^fingerboard is no number\. Known here: widthAtNut/);
    expect(refusal("parts.fingerboard.kind", "nut")).toMatch(/has no kind/);
    expect(refusal("instrument", {})).toMatch(/^the instrument is no number/);
  });
});

describe("a value of another shape is refused", () => {
  it.each<[string, unknown]>([
    ["scale", true],
    ["scale", Number.NaN],
    ["scale", Infinity],
    ["scale", { mm: 1 }],
    ["zeroFret", "maybe"],
    ["zeroFret", 1],
    ["courses", ["2"]],
    ["strings", "{}"],
    ["fingerboard.binding", [{ thickness: [] }]],
    ["fingerboard.binding[0]", false],
    ["order.status", "lost"],
    ["units", "cm"],
    ["fractions", 3],
    ["measured.nutWidth", { how: "rule" }],
    ["limits.x", 1],
  ])("%s: %j", (path, raw) => {
    const before = JSON.stringify(start);
    expect(setValue(start, path, raw).ok).toBe(false);
    expect(JSON.stringify(start)).toBe(before);
  });
});

describe("numbers in balance", () => {
  // The rule of the file: a third of the three nut numbers takes the spread back, unless it was the one set; then the margin.
  it("keep two of the three nut numbers: a third takes back the spread, or the margin if the spread was set", () => {
    expect(given(set(start, "nutSpread", "38 mm"))).toEqual(["nutWidth", "nutSpread"]);
    const widthAndSpread = set(start, "nutSpread", "38 mm");
    expect(given(set(widthAndSpread, "nutMargin", "3 mm"))).toEqual(["nutWidth", "nutMargin"]);
    const spreadAndMargin = set({ ...start, instrument: {} }, "nutSpread", "38 mm");
    expect(given(set(set(spreadAndMargin, "nutMargin", "3 mm"), "nutWidth", "44 mm"))).toEqual(["nutWidth", "nutMargin"]);
  });

  it("leave the others alone while there is room, when one changes, and when one is taken back", () => {
    expect(given(set(start, "nutWidth", "2 in"))).toEqual(["nutWidth", "nutMargin"]);
    expect(given(set(start, "nutWidth", undefined))).toEqual(["nutMargin"]);
    expect(given(set(set(start, "nutWidth", ""), "nutSpread", "38 mm"))).toEqual(["nutSpread", "nutMargin"]);
  });

  it("never hold more than their part's table allows, whatever is set in whatever order", () => {
    const settings = REGISTRY.flatMap((part) =>
      (part.balances ?? []).flatMap(({ members }) =>
        (members as readonly string[]).map((key) => (part.kind === ("instrument" as string) ? key : `${part.kind}.${key}`)),
      ),
    );
    expect(settings.length).toBeGreaterThan(3);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...settings), fc.constantFrom("1 in", "12 mm", "", "= 1 in")), { maxLength: 30 }),
        (edits) => {
          let design = REGISTRY.filter(
            ({ kind, balances }) => balances !== undefined && kind !== ("instrument" as string),
          ).reduce((so, { kind }) => (so.parts[kind] ? so : done(addPart(so, kind)).design), newDesign("steel-string"));
          for (const [path, raw] of edits) {
            design = set(design, path, raw);
            for (const part of REGISTRY) {
              const owner = part.kind === ("instrument" as string) ? design.instrument : (design.parts[part.kind] ?? {});
              for (const { members, given: most } of part.balances ?? []) {
                expect((members as readonly string[]).filter((key) => owner[key] !== undefined).length).toBeLessThanOrEqual(most);
              }
              const [, key] = path.includes(".") ? path.split(".") : ["", path];
              if (raw !== "" && (path.includes(".") ? part.kind === path.split(".")[0] : part.kind === ("instrument" as string)))
                expect(owner[key!]).toBe(raw);
            }
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe("entries of a list", () => {
  it("are put in before an index or at the end, taken out, and moved", () => {
    expect(strings(done(insertRecord(start, "strings", 1, { gauge: 1 })))).toEqual([
      "0.05",
      { gauge: 1 },
      { gauge: "0.01", note: "E4" },
    ]);
    expect(strings(done(insertRecord(start, "strings", 2, "0.02")))).toEqual(["0.05", { gauge: "0.01", note: "E4" }, "0.02"]);
    expect(strings(done(removeRecord(start, "instrument.strings", 0)))).toEqual([{ gauge: "0.01", note: "E4" }]);
    expect(strings(done(moveRecord(start, "strings", 0, 1)))).toEqual([{ gauge: "0.01", note: "E4" }, "0.05"]);
    expect(done(moveRecord(start, "strings", 1, 1))).toBe(start);
    expect(done(insertRecord(start, "fingerboard.binding", 1, { thickness: 1 })).parts.fingerboard!.binding).toEqual([
      "0.06 in",
      { thickness: 1 },
    ]);
  });

  it("are refused outside the list, and where the path is no list", () => {
    for (const index of [-1, 3, 0.5, Number.NaN])
      expect(insertRecord(start, "strings", index, "1").ok, String(index)).toBe(false);
    expect(removeRecord(start, "strings", 2).ok).toBe(false);
    expect(moveRecord(start, "strings", 0, 2).ok).toBe(false);
    expect(insertRecord(start, "strings[0]", 0, "1").ok).toBe(false);
    expect(insertRecord(start, "nutWidth", 0, "1").ok).toBe(false);
    expect(insertRecord(start, "strings", 0, true).ok).toBe(false);
  });

  it("come back as they were when what was put in is taken out again", () => {
    fc.assert(
      fc.property(anyDesign, fc.nat(8), (design, index) => {
        const put = insertRecord(design, "strings", index, { gauge: "1 mm" });
        if (!put.ok || !Array.isArray(design.instrument.strings)) return;
        expect(done(removeRecord(put.value, "strings", index))).toEqual(design);
      }),
      { numRuns: 200 },
    );
  });
});

describe("names of numbers for people", () => {
  it("stand within a sentence", () => {
    expect(labelOf(start, "nutWidth")).toBe("width at the nut");
    expect(labelOf(start, "parts.fingerboard.binding[0].thickness")).toBe("thickness of layer 1");
    // Of two, listed from the bass.
    expect(labelOf(start, "strings[1]")).toBe("string 1");
    expect(labelOf(start, "measured.nutWidth")).toBe("measured width at the nut");
    expect(labelOf(start, "order.number")).toBe("instrument number");
    expect(labelOf(start, "nowhere")).toBe("nowhere");
  });
});
