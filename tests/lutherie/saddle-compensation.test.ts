import * as fc from "fast-check";
import { Note } from "tonal";
import { describe, expect, it } from "vitest";
import {
  centsSharp,
  openTensionN,
  saddleHeight,
  saddleSetback,
  setbackWithBand,
  type ClampedEnds,
  type StringSetup,
} from "../../src/lutherie/saddle-compensation.ts";
import {
  assumedNylonCore,
  assumedSteelCore,
  CORE_MATERIALS,
  massKgPerM,
  stiffnessLength,
  tensionN,
  WRAP_MATERIALS,
  type StringBuild,
} from "../../src/lutherie/string-build.ts";

const INCH = 25.4;
const SCALE = 25.4 * INCH;
const plain = (gaugeIn: number): StringBuild => ({
  diameter: gaugeIn * INCH,
  core: gaugeIn * INCH,
  coreMaterial: CORE_MATERIALS.steel,
});
const wound = (gaugeIn: number, coreIn: number): StringBuild => ({
  diameter: gaugeIn * INCH,
  core: coreIn * INCH,
  coreMaterial: CORE_MATERIALS.steel,
  wrapMaterial: WRAP_MATERIALS["phosphor-bronze"],
});
const setup = (build: StringBuild, note: string, actionAt12: number): StringSetup => ({
  build,
  frequencyHz: Note.freq(note)!,
  scale: SCALE,
  actionAt12,
  nutHeight: 0.4,
});
const e4 = setup(plain(0.012), "E4", 2);
const e2 = setup(wound(0.053, 0.016), "E2", 2.5);

// A light steel set at 25.4 in, E = 200 GPa, worked once outside this project with the full string path and retuning:
// g/m, N, lambda, setback with 0, 1, 2 clamped ends. Nut slot 0.4 mm above the fret plane.
const SET = [
  { name: "E4", setup: e4, mass: 0.5728, pull: 103.62, lambda: 0.904, setbacks: [0.83, 1.72, 2.62] },
  { name: "B3", setup: setup(plain(0.016), "B3", 2.05), mass: 1.0183, pull: 103.38, lambda: 1.609, setbacks: [1.57, 3.16, 4.74] },
  {
    name: "G3",
    setup: setup(wound(0.024, 0.013), "G3", 2.1),
    mass: 2.0976,
    pull: 134.16,
    lambda: 0.933,
    setbacks: [0.82, 1.75, 2.67],
  },
  {
    name: "D3",
    setup: setup(wound(0.032, 0.014), "D3", 2.2),
    mass: 3.6794,
    pull: 132.07,
    lambda: 1.09,
    setbacks: [1.07, 2.15, 3.23],
  },
  {
    name: "A2",
    setup: setup(wound(0.042, 0.015), "A2", 2.3),
    mass: 6.2847,
    pull: 126.61,
    lambda: 1.278,
    setbacks: [1.41, 2.67, 3.93],
  },
  { name: "E2", setup: e2, mass: 9.9592, pull: 112.6, lambda: 1.542, setbacks: [2.13, 3.64, 5.15] },
] as const;

describe("string build", () => {
  it.each(SET)(
    "gives the worked mass, tension and stiffness of $name",
    ({ setup: { build, frequencyHz }, mass, pull, lambda }) => {
      expect(massKgPerM(build) * 1000).toBeCloseTo(mass, 3);
      const tension = tensionN(massKgPerM(build), SCALE, frequencyHz);
      expect(Math.abs(tension - pull)).toBeLessThan(0.02);
      expect(stiffnessLength(build, tension)).toBeCloseTo(lambda, 3);
    },
  );

  it("pulls a plain .012 in E4 at 25.4 in to 23.294 lbf, by hand: 5.72782e-4 kg/m x (425.325 m/s)² = 103.617 N", () => {
    const tension = tensionN(massKgPerM(e4.build), SCALE, 329.6276);
    expect(tension).toBeCloseTo(103.617, 2);
    expect(tension / 4.4482216).toBeCloseTo(23.294, 2);
    // Inharmonicity by Fletcher and Rossing, Eq. 2.67a (from memory): B = pi³ E d⁴ / (64 T L²) = (pi lambda / L)² = 1.94e-5.
    expect(((Math.PI * stiffnessLength(e4.build, tension)) / SCALE) ** 2).toBeCloseTo(1.94e-5, 7);
  });

  it("reads the assumed cores of a light set back and stays inside the string beyond it", () => {
    for (const [over, core] of [
      [0.024, 0.013],
      [0.032, 0.014],
      [0.042, 0.015],
      [0.053, 0.016],
    ] as const) {
      expect(assumedSteelCore(over * INCH)).toBeCloseTo(core * INCH, 9);
    }
    for (let d = 0.1; d < 4; d += 0.05) {
      expect(assumedSteelCore(d)).toBeGreaterThan(0);
      expect(assumedSteelCore(d)).toBeLessThanOrEqual(0.6 * d);
      expect(assumedSteelCore(d + 0.05)).toBeGreaterThan(assumedSteelCore(d));
    }
  });

  it("leaves wound nylon basses of a usual set (.029, .035, .043 in at 650 mm) at 50 to 80 N with the assumed core", () => {
    for (const [gaugeIn, note] of [
      [0.029, "D3"],
      [0.035, "A2"],
      [0.043, "E2"],
    ] as const) {
      const diameter = gaugeIn * INCH;
      const build = {
        diameter,
        core: assumedNylonCore(diameter),
        coreMaterial: CORE_MATERIALS.nylon,
        wrapMaterial: WRAP_MATERIALS["silvered-copper"],
      };
      const pull = tensionN(massKgPerM(build), 650, Note.freq(note)!);
      expect(pull).toBeGreaterThan(50);
      expect(pull).toBeLessThan(80);
    }
    expect(() => assumedNylonCore(0)).toThrow(RangeError);
  });

  it("refuses a core thicker than its string, a wrap over nothing and a bare core under nothing", () => {
    expect(() => massKgPerM({ ...plain(0.012), core: 1 })).toThrow(RangeError);
    expect(() => massKgPerM({ ...plain(0.012), wrapMaterial: WRAP_MATERIALS.brass })).toThrow(RangeError);
    expect(() => massKgPerM({ ...plain(0.012), core: 0.1 })).toThrow(RangeError);
    expect(() => tensionN(Number.NaN, 1, 1)).toThrow(RangeError);
    expect(() => stiffnessLength(plain(0.012), 0)).toThrow(RangeError);
    expect(() => assumedSteelCore(0)).toThrow(RangeError);
  });
});

describe("saddle setback", () => {
  it.each(SET)("puts $name within 0.03 mm of the worked setback for 0, 1 and 2 clamped ends", ({ setup: s, setbacks }) => {
    setbacks.forEach((expected, ends) => expect(Math.abs(saddleSetback(s, ends as ClampedEnds)! - expected)).toBeLessThan(0.03));
    const { least, setback, most } = setbackWithBand(s)!;
    expect([least, setback, most]).toEqual([0, 1, 2].map((ends) => saddleSetback(s, ends as ClampedEnds)));
  });

  it("shows the sawtooth of a plain string beside a wound one: B3 stands more than 1 mm behind G3", () => {
    expect(saddleSetback(SET[1].setup, 1)! - saddleSetback(SET[2].setup, 1)!).toBeGreaterThan(1);
  });

  // Cents at fret 12 with the saddle at the scale length, and what is left at frets 1 and 15 once fret 12 is true (worked outside).
  it.each([
    [e4, 4.67, 0.76, -0.18],
    [e2, 9.95, 1.41, -0.38],
  ])("leaves the worked errors in cents before and after", (s, before, atFret1, atFret15) => {
    expect(Math.abs(centsSharp(s, 0, 12, 1)! - before)).toBeLessThan(0.06);
    const setback = saddleSetback(s, 1)!;
    expect(Math.abs(centsSharp(s, setback, 12, 1)!)).toBeLessThan(1e-4);
    expect(Math.abs(centsSharp(s, setback, 1, 1)! - atFret1)).toBeLessThan(0.04);
    expect(Math.abs(centsSharp(s, setback, 15, 1)! - atFret15)).toBeLessThan(0.04);
  });

  it("sharpens the E4 octave by 2.23 cents from tension alone, worked by hand", () => {
    // Path: 0.4²/(2·322.58) + 3.6²/(2·322.58) - 3.2²/(2·645.16) = 0.0124 mm; dT = 200e3 x 0.0729659 x 0.0124/645.16 = 0.2805 N;
    // 600 log2(1 + 0.2805/103.62) = 2.34 cents, less 0.11 for the longer path to the saddle.
    expect(saddleHeight(e4)).toBeCloseTo(3.6, 12);
    expect(Math.abs(centsSharp(e4, 0, 12, 0)! - 2.23)).toBeLessThan(0.03);
  });

  it.each([
    [1140, 4, [0.17, 0.95, 1.73]],
    [1060, 5, [0.27, 1.16, 2.06]],
  ] as const)(
    "puts a nylon .028 in E4 at 650 mm (%d kg/m³, %d GPa) at the worked setbacks",
    (densityKgM3, modulusGPa, expected) => {
      const coreMaterial = { name: "nylon", mark: "worked case", densityKgM3, modulusGPa };
      const diameter = 0.028 * INCH;
      const s: StringSetup = {
        build: { diameter, core: diameter, coreMaterial },
        frequencyHz: Note.freq("E4")!,
        scale: 650,
        actionAt12: 3,
        nutHeight: 0.6,
      };
      expected.forEach((mm, ends) => expect(Math.abs(saddleSetback(s, ends as ClampedEnds)! - mm)).toBeLessThan(0.03));
    },
  );

  it.each([
    [0.014, 2.79],
    [0.016, 3.64],
    [0.018, 4.59],
  ])("moves E2 with its core: %d in gives %d mm", (coreIn, expected) => {
    expect(Math.abs(saddleSetback(setup(wound(0.053, coreIn), "E2", 2.5), 1)! - expected)).toBeLessThan(0.03);
  });

  it("agrees with the first-order rule N lambda + L dT / 2T, an independent estimate, within a tenth", () => {
    for (const { setup: s } of SET) {
      const tension = tensionN(massKgPerM(s.build), SCALE, s.frequencyHz);
      const lambda = stiffnessLength(s.build, tension);
      const hs = saddleHeight(s);
      const longer = (s.nutHeight ** 2 + hs ** 2) / SCALE - (hs - s.nutHeight) ** 2 / (2 * SCALE);
      const rise = s.build.coreMaterial.modulusGPa * 1000 * Math.PI * (s.build.core / 2) ** 2 * (longer / SCALE);
      for (const ends of [0, 1, 2] as const) {
        const rough = ends * lambda + (SCALE * rise) / (2 * tension);
        expect(Math.abs(saddleSetback(s, ends)! / rough - 1)).toBeLessThan(0.1);
      }
    }
  });

  it("tunes the open string whatever the setback: the tension found gives the pitch back", () => {
    for (const ends of [0, 1, 2] as const) {
      const tension = openTensionN(e2, 3, ends)!;
      const length = Math.hypot(SCALE + 3, saddleHeight(e2) - 0.4) - ends * stiffnessLength(e2.build, tension);
      expect((Math.sqrt(tension / massKgPerM(e2.build)) * 1000) / (2 * length)).toBeCloseTo(e2.frequencyHz, 9);
    }
  });

  it("is finite and in order for every plausible string", () => {
    const gauges = fc.double({ min: 0.008, max: 0.02, noNaN: true });
    fc.assert(
      fc.property(
        gauges,
        fc.double({ min: 330, max: 900, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (g, scale, actionAt12, nutHeight) => {
          // Tuned so that the string pulls 80 N, as players choose gauges to.
          const build = plain(g);
          const frequencyHz = (Math.sqrt(80 / massKgPerM(build)) * 1000) / (2 * scale);
          const { least, setback, most } = setbackWithBand({ build, frequencyHz, scale, actionAt12, nutHeight })!;
          expect(least).toBeGreaterThan(0);
          expect(setback).toBeGreaterThan(least);
          expect(most).toBeGreaterThan(setback);
          expect(most).toBeLessThan(scale / 10);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("has no answer for a string far too slack for its note, nor for a bar", () => {
    expect(setbackWithBand({ ...e4, frequencyHz: 2 })).toBeUndefined();
    expect(saddleSetback({ ...e4, frequencyHz: 2 }, 0)).toBeUndefined();
    expect(openTensionN({ ...e4, frequencyHz: 0.01 }, 0, 2)).toBeUndefined();
  });

  it("refuses frets, scales, pitches and heights that no instrument has", () => {
    expect(() => centsSharp(e4, 0, 0, 1)).toThrow(RangeError);
    expect(() => centsSharp(e4, 0, 2.5, 1)).toThrow(RangeError);
    expect(() => saddleSetback({ ...e4, scale: 0 }, 1)).toThrow(RangeError);
    expect(() => saddleSetback({ ...e4, frequencyHz: Number.NaN }, 1)).toThrow(RangeError);
    expect(() => saddleSetback({ ...e4, nutHeight: -0.1 }, 1)).toThrow(RangeError);
  });
});
