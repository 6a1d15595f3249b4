/** Small drawings of how a number is taken: what is held where, with the number as an arrow. On a card of 60 by 34 mm, y up. */
import type { Drawing, LineType, Shape } from "../drawing/drawing.ts";
import { arc, line, polygon, polyline, segmentPath, type Path } from "../geometry/path.ts";
import { circle } from "../geometry/path.ts";
import { vec, type Vec } from "../geometry/vec.ts";

export const CARD = { width: 60, height: 34 } as const;

/** Collects the lines of one card. */
class Card {
  readonly #shapes: Shape[] = [];

  draw(path: Path, type: LineType = "visible", tint?: Shape["tint"]): this {
    const id = `line-${this.#shapes.length + 1}`;
    this.#shapes.push({ id, role: "mark", line: type, path, name: "line", ...(tint ? { tint } : {}) });
    return this;
  }

  wood(points: readonly (readonly [number, number])[]): this {
    return this.draw(polygon(points.map(([x, y]) => vec(x, y))), "visible", "wood");
  }

  lines(points: readonly (readonly [number, number])[], type: LineType = "narrow"): this {
    return this.draw(polyline(points.map(([x, y]) => vec(x, y))), type);
  }

  /** The number itself: a line with an arrow at both ends. */
  arrows(a: Vec, b: Vec): this {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const length = Math.hypot(dx, dy);
    const [ux, uy] = [dx / length, dy / length];
    const head = (at: Vec, way: 1 | -1): Path => {
      const back = vec(at.x - way * 2.2 * ux, at.y - way * 2.2 * uy);
      return polyline([vec(back.x - 0.8 * uy, back.y + 0.8 * ux), at, vec(back.x + 0.8 * uy, back.y - 0.8 * ux)]);
    };
    this.draw(segmentPath(a, b), "visible");
    this.draw(head(b, 1), "visible");
    return this.draw(head(a, -1), "visible");
  }

  finish(): Drawing {
    return { layers: [{ name: "sketch", shapes: this.#shapes }], dimensions: [] };
  }
}

/** The end of a board with its nut, seen from the front; the strings run to the right. */
function nutEnd(): Card {
  const card = new Card();
  card.wood([
    [14, 6],
    [58, 4],
    [58, 30],
    [14, 28],
  ]);
  card.draw(polygon([vec(11, 6), vec(14, 6), vec(14, 28), vec(11, 28)]));
  for (const x of [26, 37, 47])
    card.lines([
      [x, 6 - (x - 14) / 22],
      [x, 28 + (x - 14) / 22],
    ]);
  for (const y of [9, 12.2, 15.4, 18.6, 21.8, 25])
    card.lines([
      [8, y],
      [58, y + ((y - 17) * 44) / 130],
    ]);
  return card;
}

const nutWidth = (): Drawing =>
  nutEnd()
    .arrows(vec(4.5, 6), vec(4.5, 28))
    .lines([
      [3, 6],
      [11, 6],
    ])
    .lines([
      [3, 28],
      [11, 28],
    ])
    .finish();
const nutSpread = (): Drawing => nutEnd().arrows(vec(4.5, 9), vec(4.5, 25)).finish();

/** Nut, board and saddle along the strings, with frets at their true ratios. */
function along(to: number, label: "fret" | "saddle"): Drawing {
  const card = new Card();
  const x = (n: number): number => 6 + 72 * (1 - 2 ** (-n / 12));
  card.wood([
    [6, 9],
    [54, 7],
    [54, 21],
    [6, 19],
  ]);
  card.draw(polygon([vec(4, 9), vec(6, 9), vec(6, 19), vec(4, 19)]));
  for (let n = 1; n <= 12; n++)
    card.lines(
      [
        [x(n), 8.8],
        [x(n), 19.4],
      ],
      n === 12 ? "visible" : "narrow",
    );
  if (label === "saddle") card.draw(polygon([vec(56, 7), vec(58, 7.4), vec(58, 20.8), vec(56, 20.4)]));
  card
    .lines([
      [6, 24],
      [6, 30],
    ])
    .lines([
      [to, 22],
      [to, 30],
    ]);
  return card.arrows(vec(6, 28), vec(to, 28)).finish();
}

const toFret12 = (): Drawing => along(6 + 36, "fret");
const toSaddle = (): Drawing => along(56.6, "saddle");

const boardAtJoin = (): Drawing =>
  new Card()
    .wood([
      [2, 8],
      [58, 5],
      [58, 29],
      [2, 26],
    ])
    .draw(polyline([vec(36, 34), vec(36, 30), vec(38, 27.9)]), "narrow")
    .draw(polyline([vec(36, 0), vec(36, 4), vec(38, 6.1)]), "narrow")
    .lines([
      [14, 7.4],
      [14, 26.6],
    ])
    .lines([
      [26, 6.8],
      [26, 27.2],
    ])
    .lines(
      [
        [38, 6.1],
        [38, 27.9],
      ],
      "visible",
    )
    .lines([
      [49, 5.5],
      [49, 28.5],
    ])
    .arrows(vec(38, 6.1), vec(38, 27.9))
    .finish();

/** The board's end on, arched, a straightedge touching its middle. */
const rise = (): Drawing => {
  const middle = 20;
  const radius = 60;
  const centre = vec(30, middle - radius);
  const at = (x: number): Vec => vec(x, centre.y + Math.sqrt(radius * radius - (x - 30) ** 2));
  return new Card()
    .draw(
      { start: vec(6, 6), segments: [line(at(6)), arc(at(54), centre, false), line(vec(54, 6)), line(vec(6, 6))], closed: true },
      "visible",
      "wood",
    )
    .draw(polygon([vec(4, middle), vec(56, middle), vec(56, 24), vec(4, 24)]))
    .arrows(vec(8, at(8).y), vec(8, middle))
    .arrows(vec(8, 29), vec(52, 29))
    .finish();
};

/** A neck cut across: the board above, the wood below. */
function neckSection(): Card {
  const back: Path = {
    start: vec(10, 23),
    segments: [
      { kind: "cubic", c1: vec(11, 12), c2: vec(20, 5), to: vec(30, 5) },
      { kind: "cubic", c1: vec(40, 5), c2: vec(49, 12), to: vec(50, 23) },
      line(vec(10, 23)),
    ],
    closed: true,
  };
  return new Card().draw(back, "visible", "wood").draw(polygon([vec(10, 23), vec(50, 23), vec(50, 28), vec(10, 28)]));
}

const depth = (): Drawing =>
  neckSection()
    .lines([
      [2, 28],
      [10, 28],
    ])
    .lines([
      [2, 5],
      [30, 5],
    ])
    .arrows(vec(5, 5), vec(5, 28))
    .finish();
const halfWay = (): Drawing =>
  neckSection()
    .lines([
      [4, 23],
      [10, 23],
    ])
    .lines([
      [4, 14],
      [12.5, 14],
    ])
    .lines([
      [4, 5],
      [30, 5],
    ])
    .arrows(vec(13.4, 14), vec(46.6, 14))
    .finish();

/** Half of a body, tail to the right. */
function body(): Card {
  const path: Path = {
    start: vec(4, 21),
    segments: [
      { kind: "cubic", c1: vec(4, 32), c2: vec(20, 30), to: vec(26, 26.5) },
      { kind: "cubic", c1: vec(32, 24), c2: vec(36, 33), to: vec(46, 33) },
      { kind: "cubic", c1: vec(55, 33), c2: vec(57, 26), to: vec(57, 17) },
      { kind: "cubic", c1: vec(57, 8), c2: vec(55, 1), to: vec(46, 1) },
      { kind: "cubic", c1: vec(36, 1), c2: vec(32, 10), to: vec(26, 7.5) },
      { kind: "cubic", c1: vec(20, 4), c2: vec(4, 2), to: vec(4, 13) },
      line(vec(4, 21)),
    ],
    closed: true,
  };
  return new Card().draw(path, "visible", "wood").draw(circle(vec(28, 17), 4.2), "narrow");
}

const bodyLength = (): Drawing => body().arrows(vec(4, 17), vec(57, 17)).finish();
const upperBout = (): Drawing => body().arrows(vec(13.5, 4.2), vec(13.5, 29.8)).finish();
const waist = (): Drawing => body().arrows(vec(27.6, 8.2), vec(27.6, 25.8)).finish();
const lowerBout = (): Drawing => body().arrows(vec(46, 1), vec(46, 33)).finish();

/** The side of a body, tail to the right. */
function side(at: "neck" | "tail"): Drawing {
  const card = new Card().wood([
    [8, 27],
    [52, 28],
    [52, 4],
    [8, 9],
  ]);
  card.wood([
    [0, 27],
    [8, 27],
    [8, 20],
    [0, 22],
  ]);
  return (at === "neck" ? card.arrows(vec(12, 8.6), vec(12, 27)) : card.arrows(vec(48, 4.5), vec(48, 27.9))).finish();
}

/** A string over fret 12, from the side. */
const action = (): Drawing =>
  new Card()
    .wood([
      [2, 4],
      [58, 4],
      [58, 12],
      [2, 12],
    ])
    .draw({ start: vec(27, 12), segments: [arc(vec(33, 12), vec(30, 12), false), line(vec(27, 12))], closed: true })
    .lines(
      [
        [2, 24],
        [58, 27],
      ],
      "visible",
    )
    .arrows(vec(30, 15), vec(30, 25.5))
    .finish();

/** Bridge and saddle on the top, from the side. */
const bridge = (of: "strings" | "bridge"): Drawing => {
  const card = new Card().wood([
    [2, 4],
    [58, 4],
    [58, 9],
    [2, 9],
  ]);
  card.draw(polygon([vec(18, 9), vec(46, 9), vec(44, 18), vec(22, 18)]));
  card.draw(polygon([vec(27, 14), vec(30, 14), vec(30, 25), vec(27, 24.4)]));
  card.lines(
    [
      [2, 24],
      [28.5, 25],
      [38, 16],
    ],
    "visible",
  );
  return (of === "strings" ? card.arrows(vec(14, 9), vec(14, 24.4)) : card.arrows(vec(41, 9), vec(41, 18))).finish();
};

const saddleSpread = (): Drawing => {
  const card = new Card().wood([
    [22, 2],
    [40, 2],
    [40, 32],
    [22, 32],
  ]);
  card.draw(polygon([vec(26, 5), vec(28.4, 5), vec(27.4, 29), vec(25, 29)]));
  for (const y of [7, 11, 15, 19, 23, 27]) {
    card.lines([
      [2, y],
      [34, y],
    ]);
    card.draw(circle(vec(34, y), 1.1));
  }
  return card.arrows(vec(9, 7), vec(9, 27)).finish();
};

/** Every way of taking a number that has a drawing. */
export const SKETCHES = {
  nutWidth,
  nutSpread,
  toFret12,
  toSaddle,
  boardAtJoin,
  rise,
  depth,
  halfWay,
  bodyLength,
  upperBout,
  waist,
  lowerBout,
  depthAtNeck: () => side("neck"),
  depthAtTail: () => side("tail"),
  action,
  stringsOverTop: () => bridge("strings"),
  bridgeThickness: () => bridge("bridge"),
  saddleSpread,
} as const satisfies Readonly<Record<string, () => Drawing>>;

export type SketchName = keyof typeof SKETCHES;
