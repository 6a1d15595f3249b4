/** From the shared numbers to the lines of strings and frets that every other part reads. */
import { vec, type Vec } from "../../geometry/vec.ts";
import { fretDistance, fretOn, layScales, type ScaleLayout, type StringLine } from "../../lutherie/fret-positions.ts";
import { spreadShift, type MarginTo } from "../../lutherie/nut-numbers.ts";
import { fittingCourses, stringCentres } from "../../lutherie/string-spacing.ts";
import { lineAcross, pointAt } from "../../lutherie/transverse-line.ts";
import { takenOf, type InstrumentParams } from "./params.ts";

/** A string seen from the front. */
export interface InstrumentString extends StringLine {
  /** As people count: 1 is the treble string. */
  readonly number: number;
  /** Counted from the treble as well. */
  readonly course: number;
  readonly gauge: number;
  readonly wound: boolean;
  readonly note: string;
  /** Speaking length along the centre line's direction, before compensation. */
  readonly scale: number;
}

export interface InstrumentFret {
  /** 0 is the nut, or the zero fret. */
  readonly number: number;
  /** From the nut, on the centre line. */
  readonly fromNut: number;
  /** From the nut on the outer strings, along the centre line's direction. */
  readonly bassFromNut: number;
  readonly trebleFromNut: number;
  /** Where the fret crosses the outer strings; it runs straight through both, on to the edges of the board. */
  readonly bass: Vec;
  readonly treble: Vec;
}

export interface InstrumentMeasures {
  /** 1 where the treble side is that of rising y, -1 on a left-handed instrument. */
  readonly side: 1 | -1;
  /** From bass to treble. */
  readonly strings: readonly InstrumentString[];
  /** Strings in each course, from bass to treble; they add up to the strings. */
  readonly courses: readonly number[];
  /** From the nut on: frets[n] is fret n. */
  readonly frets: readonly InstrumentFret[];
  /** The lines on which the frets are laid off: the outer strings, or where they would run. */
  readonly bass: StringLine;
  readonly treble: StringLine;
  readonly twoScales: boolean;
  readonly zeroFret: boolean;
  readonly squareFret: number;
  readonly scale: number;
  readonly bassScale: number;
  readonly marginTo: MarginTo;
  readonly nutWidth: number;
  readonly nutSpread: number;
  readonly nutMargin: number;
  readonly joinSpread: number;
  readonly saddleSpread: number;
  /** Half diameters of both outer strings where margins run to their edges, else 0. */
  readonly takenByStrings: number;
  readonly joinFret: number;
  /** x on the centre line of the join, of fret 12 and of the last fret. */
  readonly joinX: number;
  readonly fret12X: number;
  readonly lastFretX: number;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    instrument: InstrumentMeasures;
  }
}

/** Below this distance of the outer strings, mm, two scales cannot be laid out: frets would run along the strings. */
export const LEAST_SPREAD_FOR_TWO_SCALES = 1;

export function measureInstrument(p: InstrumentParams): InstrumentMeasures {
  const side = p.handed === "left" ? -1 : 1;
  const shift = spreadShift(p.marginTo, p.strings[0]?.gauge ?? 0, p.strings.at(-1)?.gauge ?? 0);
  const twoScales = p.bassScale !== undefined && Math.min(p.nutSpread, p.saddleSpread) >= LEAST_SPREAD_FOR_TWO_SCALES;
  const bassScale = twoScales ? p.bassScale : p.scale;
  const outer = (spread: number): { bass: number; treble: number } => ({
    bass: side * (shift - spread / 2),
    treble: side * (shift + spread / 2),
  });
  const layout = layScales({
    bassScale,
    trebleScale: p.scale,
    squareFret: p.squareFret,
    nut: outer(p.nutSpread),
    saddle: outer(p.saddleSpread),
  });
  const atCentre = (fret: number): number => lineAcross(fretOn(layout.bass, fret), fretOn(layout.treble, fret)).x0;
  const courses = fittingCourses(p.courses, p.strings.length);

  return {
    side,
    strings: layStrings(p, layout, side, shift, courses),
    courses,
    frets: Array.from({ length: p.frets + 1 }, (_, number) => ({
      number,
      fromNut: atCentre(number),
      bassFromNut: fretDistance(bassScale, number),
      trebleFromNut: fretDistance(p.scale, number),
      bass: fretOn(layout.bass, number),
      treble: fretOn(layout.treble, number),
    })),
    bass: layout.bass,
    treble: layout.treble,
    twoScales,
    zeroFret: p.zeroFret,
    squareFret: p.squareFret,
    scale: p.scale,
    bassScale,
    marginTo: p.marginTo,
    nutWidth: p.nutWidth,
    nutSpread: p.nutSpread,
    nutMargin: p.nutMargin,
    joinSpread: p.joinSpread,
    saddleSpread: p.saddleSpread,
    takenByStrings: takenOf(p),
    joinFret: p.joinFret,
    joinX: atCentre(p.joinFret),
    fret12X: atCentre(12),
    lastFretX: atCentre(p.frets),
  };
}

function layStrings(
  p: InstrumentParams,
  layout: ScaleLayout,
  side: 1 | -1,
  shift: number,
  courses: readonly number[],
): InstrumentString[] {
  const gauges = p.strings.map((s) => s.gauge);
  const at = (spread: number, inCourse: number): number[] =>
    stringCentres({ spread, gauges, courses, inCourse, by: p.spacing }).map((y) => side * (y + shift));
  const atNut = at(p.nutSpread, p.courseSpacing);
  const atSaddle = at(p.saddleSpread, p.saddleCourseSpacing);
  const nutLine = lineAcross(layout.bass.nut, layout.treble.nut);
  const saddleLine = lineAcross(layout.bass.saddle, layout.treble.saddle);
  const courseOf = courses.flatMap((count, c) => Array<number>(count).fill(courses.length - c));
  return p.strings.map((record, i) => {
    const nut = pointAt(nutLine, atNut[i]! + side * record.nutShift);
    const saddle = pointAt(saddleLine, atSaddle[i]!);
    return {
      number: p.strings.length - i,
      course: courseOf[i]!,
      gauge: record.gauge,
      wound: record.wound,
      note: record.note,
      nut: vec(nut.x + 0, nut.y + 0),
      saddle,
      scale: saddle.x - nut.x,
    };
  });
}
