/** The string-and-fret diagram: what the shared numbers mean, before any wood. */
import type { Dimension, Drawing, Layer, Shape, Text } from "../../drawing/drawing.ts";
import { segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import { lineAcross, pointAt } from "../../lutherie/transverse-line.ts";
import type { InstrumentFret, InstrumentMeasures } from "./measure.ts";
import { centreAlong } from "../centre-line.ts";

/** How far frets, nut and saddle run on beyond the outer strings, mm. */
const BEYOND = 3;
/** Distance from one row of dimension lines to the next, mm. */
const ROW = 14;
/** Height of the words beside strings and frets, mm: to be read where the whole instrument is seen. */
const LABEL = 4;

export function drawInstrument(m: InstrumentMeasures): Drawing {
  const half = Math.max(
    m.nutWidth / 2,
    ...[m.bass, m.treble].flatMap((s) => [Math.abs(s.nut.y) + BEYOND, Math.abs(s.saddle.y) + BEYOND]),
  );
  return {
    layers: [centreLayer(m), fretLayer(m), stringLayer(m), ends(m, half), labels(m, half)],
    dimensions: dimensions(m, half),
  };
}

function centreLayer(m: InstrumentMeasures): Layer {
  const from = Math.min(m.bass.nut.x, m.treble.nut.x) - 10;
  const to = Math.max(m.bass.saddle.x, m.treble.saddle.x) + 10;
  return centreAlong(from, to);
}

/** The line through both points, carried on past them by `beyond` mm of height. */
function across(bass: { x: number; y: number }, treble: { x: number; y: number }, side: 1 | -1, beyond: number): Shape["path"] {
  const line = lineAcross(bass, treble);
  return segmentPath(pointAt(line, bass.y - side * beyond), pointAt(line, treble.y + side * beyond));
}

function fretLayer(m: InstrumentMeasures): Layer {
  const shape = (fret: InstrumentFret): Shape => ({
    id: `fret-${fret.number}`,
    role: "slot",
    line: "narrow",
    path: across(fret.bass, fret.treble, m.side, BEYOND),
    name: fret.number === 0 ? "zero fret" : `fret ${fret.number}`,
    says: m.twoScales
      ? [
          { label: "from the nut, bass", value: fret.bassFromNut, quantity: "length" },
          { label: "from the nut, treble", value: fret.trebleFromNut, quantity: "length" },
        ]
      : [{ label: "from the nut", value: fret.fromNut, quantity: "length" }],
  });
  return { name: "frets", shapes: m.frets.slice(m.zeroFret ? 0 : 1).map(shape) };
}

function stringLayer(m: InstrumentMeasures): Layer {
  return {
    name: "strings",
    shapes: m.strings.map((string) => ({
      id: `string-${string.number}`,
      role: "guide",
      line: "narrow",
      path: segmentPath(string.nut, string.saddle),
      name: string.note === "" ? `string ${string.number}` : `string ${string.number}, ${string.note}`,
      says: [
        { label: "gauge", value: string.gauge, quantity: "length" },
        { label: "scale", value: string.scale, quantity: "length" },
      ],
    })),
  };
}

function ends(m: InstrumentMeasures, half: number): Layer {
  const nut = lineAcross(m.bass.nut, m.treble.nut);
  return {
    name: "ends",
    shapes: [
      {
        id: "nut",
        role: "mark",
        line: "visible",
        path: segmentPath(pointAt(nut, (-m.side * m.nutWidth) / 2), pointAt(nut, (m.side * m.nutWidth) / 2)),
        name: "nut",
        says: [
          { label: "width", value: m.nutWidth, quantity: "length" },
          { label: "outer strings apart", value: m.nutSpread, quantity: "length" },
        ],
      },
      {
        id: "saddle",
        role: "mark",
        line: "visible",
        path: across(m.bass.saddle, m.treble.saddle, m.side, BEYOND),
        name: "saddle, before compensation",
        says: [{ label: "outer strings apart", value: m.saddleSpread, quantity: "length" }],
      },
      {
        id: "join",
        role: "guide",
        line: "adjacent",
        path: segmentPath(vec(m.joinX, -half), vec(m.joinX, half)),
        name: `join at fret ${m.joinFret}`,
        says: [
          { label: "from the nut", value: m.joinX, quantity: "length" },
          { label: "outer strings apart", value: m.joinSpread, quantity: "length" },
        ],
      },
    ],
  };
}

/** Numbers and notes of the courses at the nut, and numbers of frets along the treble side. */
function labels(m: InstrumentMeasures, half: number): Layer {
  const texts: Text[] = [];
  let first = 0;
  m.courses.forEach((count, c) => {
    const members = m.strings.slice(first, first + count);
    first += count;
    const middle = members.reduce((sum, s) => sum + s.nut.y, 0) / members.length;
    const numbers = members.map((s) => s.number);
    const said = numbers.length === 1 ? `${numbers[0]}` : `${numbers.at(-1)}-${numbers[0]}`;
    const note = members[0]?.note ?? "";
    const x = Math.min(...members.map((s) => s.nut.x)) - 3;
    texts.push({
      id: `string-label-${m.courses.length - c}`,
      at: vec(x, middle),
      text: note === "" ? said : `${said} ${note}`,
      height: LABEL,
      align: "end",
    });
  });
  for (const fret of m.frets.slice(1)) {
    const line = lineAcross(fret.bass, fret.treble);
    texts.push({
      id: `fret-label-${fret.number}`,
      at: pointAt(line, half + 2),
      text: `${fret.number}`,
      height: LABEL,
      align: "middle",
    });
  }
  return { name: "labels", shapes: [], texts };
}

function dimensions(m: InstrumentMeasures, half: number): Dimension[] {
  const { bass, treble, side } = m;
  const nutX = Math.min(bass.nut.x, treble.nut.x);
  const saddleX = Math.max(bass.saddle.x, treble.saddle.x);
  const upper = side === 1 ? treble : bass;
  const lower = side === 1 ? bass : treble;
  const upperScale: Dimension = {
    id: "upper-scale",
    from: vec(upper.nut.x, half),
    to: vec(upper.saddle.x, half),
    along: "x",
    offset: 2 * ROW,
    value: upper.saddle.x - upper.nut.x,
    quantity: "length",
    edits: upper === treble ? "instrument.scale" : "instrument.bassScale",
    rank: 1,
  };
  const list: Dimension[] = [
    {
      id: "nut-spread",
      from: vec(nutX, lower.nut.y),
      to: vec(nutX, upper.nut.y),
      along: "y",
      offset: 1.5 * ROW,
      value: m.nutSpread,
      quantity: "length",
      edits: "instrument.nutSpread",
      rank: 1,
    },
    {
      id: "nut-width",
      from: vec(nutX, -m.nutWidth / 2),
      to: vec(nutX, m.nutWidth / 2),
      along: "y",
      offset: 3 * ROW,
      value: m.nutWidth,
      quantity: "length",
      edits: "instrument.nutWidth",
      rank: 1,
    },
    {
      id: "saddle-spread",
      from: vec(saddleX, lower.saddle.y),
      to: vec(saddleX, upper.saddle.y),
      along: "y",
      offset: -1.5 * ROW,
      value: m.saddleSpread,
      quantity: "length",
      edits: "instrument.saddleSpread",
      rank: 1,
    },
    {
      id: "join",
      from: vec(0, -half),
      to: vec(m.joinX, -half),
      along: "x",
      offset: -ROW,
      value: m.joinX,
      quantity: "length",
      after: `to fret ${m.joinFret}`,
      rank: 2,
    },
  ];
  if (!m.twoScales) return [...list, { ...upperScale, id: "scale", edits: "instrument.scale" }];
  const lowerScale: Dimension = {
    ...upperScale,
    id: "lower-scale",
    from: vec(lower.nut.x, -half),
    to: vec(lower.saddle.x, -half),
    offset: -2 * ROW,
    value: lower.saddle.x - lower.nut.x,
    edits: lower === treble ? "instrument.scale" : "instrument.bassScale",
  };
  return [...list, upperScale, lowerScale];
}
