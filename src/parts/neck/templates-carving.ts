/** The patterns that the back is carved by: gauges, the carving set, and the layout of the first flats. */
import { centreLine } from "../centre-line.ts";
import type { Layer, Shape, Text } from "../../drawing/drawing.ts";
import { line, polyline, segmentPath, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { facetAt } from "../../lutherie/neck-facets.ts";
import { channelAt, leastSafeDepth } from "../../lutherie/neck-run.ts";
import { wallOfCorners } from "../../lutherie/neck-walls.ts";
import { sectionPath, type NeckSection } from "../../lutherie/neck-section.ts";
import type { TemplateSource } from "../contract.ts";
import type { NeckModel } from "./model.ts";
import { fretX, type NeckParams, type Which } from "./numbers.ts";
import { channelSection, seen } from "./sections.ts";
import { movedPath, placeName, said } from "./views.ts";

/** Width of a gauge beyond the neck on either side and below it, and the space between gauges, mm. */
const BODY = 15;
const SPACE = 7;
/** For the word over a gauge that must not be cut by. */
const WORDS = 7;
const LABEL = 3;
const COLUMNS = 2;

type Table = NonNullable<TemplateSource["table"]>;

/** @param least wood that must stay behind every channel */
export function carvingTemplates(p: NeckParams, model: NeckModel, least: number): TemplateSource[] {
  return [...carvingGauges(p, model, least), ...carvingSet(p, model, least), ...facetLayouts(p, model)];
}

/** Frets that have a gauge, in order, as far as the heel leaves the back free. */
function gaugePlaces(p: NeckParams, model: NeckModel): { readonly fret: number; readonly x: number }[] {
  return [...new Set(p.gaugeFrets)]
    .toSorted((a, b) => a - b)
    .map((fret) => ({ fret, x: fret === 0 ? model.nutX : fretX(model.instrument, fret) }))
    .filter(({ x }) => x <= Math.max(model.heel.from, model.second.x));
}

const channelsAt = (model: NeckModel, x: number) =>
  model.channels.filter(({ run }) => x >= run.from && x <= run.to).map(({ run }) => channelAt(run, x));

/** Whether a neck carved to this section at x comes too near to a channel. */
const isUnsafe = (model: NeckModel, x: number, section: NeckSection, least: number): boolean =>
  channelsAt(model, x).some(({ middle, width, depth }) => wallOfCorners(section, middle, width, -depth).distance < least - 1e-9);

interface Gauge {
  readonly key: string;
  readonly label: string;
  readonly x: number;
  readonly section: NeckSection;
  /** Carved to this gauge, a channel comes too near to the back. */
  readonly unsafe: boolean;
}

/** An inside template: it sits over the back, its two arms level with the underside of the board. */
function gaugeShapes(model: NeckModel, gauge: Gauge, at: Vec): { readonly shapes: Shape[]; readonly texts: Text[] } {
  const { side } = model.instrument;
  const section = seen(gauge.section, side);
  const back = sectionPath(section);
  const out = section.halfWidth + BODY;
  const low = -section.depth - BODY;
  const path: Path = {
    start: vec(-out, 0),
    segments: [
      line(back.start),
      ...back.segments,
      line(vec(out, 0)),
      line(vec(out, low)),
      line(vec(-out, low)),
      line(vec(-out, 0)),
    ],
    closed: true,
  };
  const id = `gauge-${gauge.key}`;
  const shapes: Shape[] = [
    {
      id,
      role: "cut",
      line: "visible",
      path: movedPath(path, at),
      name: `carving gauge, ${gauge.label}`,
      says: [
        said("width", 2 * section.halfWidth),
        said("depth of the wood", section.depth),
        said("depth with the board", section.depth + model.board),
      ],
      tint: "wood",
    },
    {
      ...centreLine(vec(at.x, at.y), vec(at.x, at.y + low)),
      id: `${id}-middle`,
      name: "centre line of the gauge",
    },
  ];
  for (const channel of model.channels) {
    const hollow = channelSection(channel, gauge.x, side, 0);
    if (hollow)
      shapes.push({
        id: `${id}-${channel.id}`,
        role: "guide",
        line: "hidden",
        path: movedPath(hollow, at),
        name: channel.name,
      });
  }
  const label = { height: LABEL, align: "middle" } as const;
  const upright = { ...label, height: 2.2, angle: Math.PI / 2 } as const;
  const arm = section.halfWidth + BODY / 2 + 1;
  const middle = -(section.depth + BODY) / 2;
  const texts: Text[] = [
    { ...label, align: "start", id: `${id}-label`, at: vec(at.x + 2.5, at.y + low + 2.5), text: gauge.label },
    { ...upright, id: `${id}-bass`, at: vec(at.x - side * arm, at.y + middle), text: "bass" },
    { ...upright, id: `${id}-treble`, at: vec(at.x + side * arm, at.y + middle), text: "treble" },
  ];
  if (gauge.unsafe) {
    texts.push(
      { ...label, height: 6, id: `${id}-stop`, at: vec(at.x, at.y + 5.6), text: "STOP", loud: true },
      { ...label, height: 2.6, id: `${id}-stop-words`, at: vec(at.x, at.y + 1.5), text: "cuts too near a channel", loud: true },
    );
  }
  return { shapes, texts };
}

/** Gauges laid in columns. */
function laid(model: NeckModel, gauges: readonly Gauge[]): Layer[] {
  const shapes: Shape[] = [];
  const texts: Text[] = [];
  const width = Math.max(...gauges.map(({ section }) => 2 * (section.halfWidth + BODY))) + SPACE;
  const height =
    Math.max(...gauges.map(({ section }) => section.depth + BODY)) + SPACE + (gauges.some(({ unsafe }) => unsafe) ? WORDS : 0);
  gauges.forEach((gauge, i) => {
    const at = vec((i % COLUMNS) * width, -Math.floor(i / COLUMNS) * height);
    const drawn = gaugeShapes(model, gauge, at);
    shapes.push(...drawn.shapes);
    texts.push(...drawn.texts);
  });
  return [
    { name: "gauges", shapes },
    { name: "labels", shapes: [], texts },
  ];
}

function carvingGauges(p: NeckParams, model: NeckModel, least: number): TemplateSource[] {
  const gauges = gaugePlaces(p, model).map(({ fret, x }): Gauge => {
    const section = model.sectionAt(x);
    return { key: `${fret}`, label: placeName(fret), x, section, unsafe: isUnsafe(model, x, section, least) };
  });
  if (gauges.length === 0) return [];
  return [
    {
      name: "carving-gauges",
      title: "Carving gauges",
      lineIs: "back of the neck, seen from the body; cut to the line, the arms meet the underside of the board",
      drawing: { layers: laid(model, gauges), dimensions: [] },
      table: {
        title: "Depth with the board, by callipers",
        rows: gauges.map(({ label, section }) => ({ label, value: section.depth + model.board })),
      },
    },
  ];
}

/** Deeper gauges for both measured frets, for the day when the player is in the shop. */
function carvingSet(p: NeckParams, model: NeckModel, least: number): TemplateSource[] {
  const gauges: Gauge[] = [];
  const rows: Table["rows"][number][] =
    model.channels.length === 0 ? [] : [{ label: "wood to leave behind a channel", value: least }];
  const frets = [...new Set((["first", "second"] as const satisfies readonly Which[]).map((which) => p[`${which}Fret`]))];
  const places = frets.map((fret) => {
    const x = fret === 0 ? model.nutX : fretX(model.instrument, fret);
    const final = model.sectionAt(x);
    return { fret, x, final, keep: leastSafeDepth(final, channelsAt(model, x), least) };
  });
  for (let step = p.carvingSteps; step >= 0; step--) {
    const letter = String.fromCharCode("A".charCodeAt(0) + p.carvingSteps - step);
    for (const { fret, x, final, keep } of places) {
      const section = { ...final, depth: final.depth + step * p.carvingStep };
      const spare = keep === undefined ? undefined : section.depth - keep;
      gauges.push({
        key: `${fret}-${letter.toLowerCase()}`,
        label: `${placeName(fret)}, ${letter}`,
        x,
        section,
        unsafe: isUnsafe(model, x, section, least),
      });
      rows.push({ label: `${placeName(fret)}, ${letter}: depth with the board`, value: section.depth + model.board });
      if (spare !== undefined)
        rows.push({ label: `${placeName(fret)}, ${letter}: still safe to take off`, value: Math.max(0, spare) });
    }
  }
  return [
    {
      name: "carving-set",
      title: "Carving set",
      lineIs: "back of the neck at each step down, the last letter the finished neck; cut to the line",
      drawing: { layers: laid(model, gauges), dimensions: [] },
      table: { title: "How far down each gauge goes", rows },
    },
  ];
}

interface Mark {
  /** -1 where the bend ends. */
  readonly fret: number;
  readonly key: string;
  readonly label: string;
  readonly x: number;
  /** On the back from the centre line and on the side from the glue plane, for each angle; undefined where the flat misses it. */
  readonly facets: readonly { readonly onBack: number | undefined; readonly onSide: number | undefined }[];
}

/** Where the flats run on the squared neck: one sheet for its back and one for its side, by hands where these differ. */
function facetLayouts(p: NeckParams, model: NeckModel): TemplateSource[] {
  const angles = [...new Set(p.facetAngles)].toSorted((a, b) => a - b);
  if (angles.length === 0) return [];
  const places = facetPlaces(p, model);
  if (places.length < 2) return [];
  const marks = (sign: 1 | -1): Mark[] =>
    places.map((place) => ({
      ...place,
      facets: angles.map((degrees) => facetAt(model.sectionAt(place.x), (degrees * Math.PI) / 180, sign)),
    }));
  const [bass, treble] = [marks(-1), marks(1)];
  const alike = bass.every((mark, i) =>
    mark.facets.every((facet, k) => {
      const other = treble[i]!.facets[k]!;
      return close(facet.onBack, other.onBack) && close(facet.onSide, other.onSide);
    }),
  );
  const hands = alike
    ? [{ key: "", said: "", marks: treble, signs: [-1, 1] as readonly (1 | -1)[] }]
    : [
        { key: "-bass", said: ", bass side", marks: bass, signs: [model.instrument.side === 1 ? -1 : 1] as readonly (1 | -1)[] },
        { key: "-treble", said: ", treble side", marks: treble, signs: [model.instrument.side] as readonly (1 | -1)[] },
      ];
  const chosen = new Set(p.gaugeFrets);
  return hands.flatMap((hand) => [
    facetSheet(model, angles, hand.marks, {
      name: `facets-back${hand.key}`,
      title: `Facets on the back${hand.said}`,
      lineIs: "edges of the flats on the back of the squared neck",
      table: "On the back, from the centre line out",
      signs: hand.signs,
      edge: (x) => model.widthAt(x) / 2,
      value: (facet) => facet.onBack,
      chosen,
    }),
    facetSheet(model, angles, hand.marks, {
      name: `facets-side${hand.key}`,
      title: `Facets on the side${hand.said}`,
      lineIs: "edges of the flats on the side of the squared neck, from the underside of the board down",
      table: "On the side, from the underside of the board down",
      signs: [-1],
      edge: (x) => model.sectionAt(x).depth,
      value: (facet) => facet.onSide,
      chosen,
    }),
  ]);
}

const close = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined ? a === b : Math.abs(a - b) < 1e-9;

/** Where the bend into the head ends, and every fret from there as far as the straight back reaches. */
function facetPlaces(
  p: NeckParams,
  model: NeckModel,
): { readonly key: string; readonly label: string; readonly x: number; readonly fret: number }[] {
  const { instrument, profile } = model;
  const volute = p.volute > 0 ? profile.corner + p.voluteLength / 2 : -Infinity;
  const places = [{ key: "bend", label: "bend", fret: -1, x: Math.max(model.nutX, profile.bendTo, volute) }];
  for (let fret = 1; fret <= instrument.joinFret; fret++) {
    const x = fretX(instrument, fret);
    if (x > places.at(-1)!.x + 1 && x <= model.heel.from) places.push({ key: `${fret}`, label: `${fret}`, fret, x });
  }
  return places;
}

function facetSheet(
  model: NeckModel,
  angles: readonly number[],
  marks: readonly Mark[],
  sheet: {
    readonly name: string;
    readonly title: string;
    readonly lineIs: string;
    readonly table: string;
    /** Sides of the line y = 0 that are drawn. */
    readonly signs: readonly (1 | -1)[];
    readonly edge: (x: number) => number;
    readonly value: (facet: Mark["facets"][number]) => number | undefined;
    readonly chosen: ReadonlySet<number>;
  },
): TemplateSource {
  const shapes: Shape[] = [];
  const texts: Text[] = [];
  const [first, last] = [marks[0]!, marks.at(-1)!];
  for (const sign of sheet.signs) {
    const key = sheet.signs.length > 1 ? (sign > 0 ? "-upper" : "-lower") : "";
    shapes.push({
      id: `edge${key}`,
      role: "guide",
      line: "visible",
      path: polyline(marks.map(({ x }) => vec(x, sign * sheet.edge(x)))),
      name: "edge of the squared neck",
    });
    angles.forEach((degrees, k) => {
      // A flat that misses the face at some fret is drawn where it does not.
      const runs: Vec[][] = [[]];
      for (const mark of marks) {
        const value = sheet.value(mark.facets[k]!);
        if (value === undefined) runs.push([]);
        else runs.at(-1)!.push(vec(mark.x, sign * value));
      }
      runs
        .filter((points) => points.length > 1)
        .forEach((points, i) => {
          shapes.push({
            id: `facet-${degrees}${key}${i > 0 ? `-${i + 1}` : ""}`,
            role: "mark",
            line: "visible",
            path: polyline(points),
            name: `flat at ${degrees} degrees`,
          });
          const end = points.at(-1)!;
          texts.push({
            id: `facet-${degrees}${key}${i > 0 ? `-${i + 1}` : ""}-label`,
            at: vec(end.x + 2 + 7 * k, end.y - 0.9),
            text: `${degrees}°`,
            height: 1.8,
            align: "start",
          });
        });
    });
  }
  for (const { key, label, fret, x } of marks) {
    const reach = sheet.edge(x);
    const [low, high] = [sheet.signs.includes(-1) ? -reach : 0, sheet.signs.includes(1) ? reach : 0];
    shapes.push({
      id: `station-${key}`,
      role: "guide",
      line: "narrow",
      path: segmentPath(vec(x, low), vec(x, high)),
      name: fret < 0 ? "end of the bend" : placeName(fret),
      says: [said("from the nut", x - model.nutX)],
    });
    texts.push({
      id: `station-${key}-label`,
      at: vec(x, high + 2),
      text: label,
      height: 2.2,
      align: "middle",
    });
  }
  shapes.push(centreLine(vec(first.x - 6, 0), vec(last.x + 6, 0)));
  const tabled = marks.filter(({ fret }) => sheet.chosen.has(fret));
  return {
    name: sheet.name,
    title: sheet.title,
    lineIs: sheet.lineIs,
    drawing: {
      layers: [
        { name: "facets", shapes },
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
    ...(tabled.length === 0
      ? {}
      : {
          table: {
            title: sheet.table,
            rows: tabled.flatMap((mark) =>
              angles.flatMap((degrees, k) => {
                const value = sheet.value(mark.facets[k]!);
                return value === undefined ? [] : [{ label: `${placeName(mark.fret)}, ${degrees}°`, value }];
              }),
            ),
          },
        }),
  };
}
