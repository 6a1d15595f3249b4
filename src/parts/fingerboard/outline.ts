/**
 * The outline of a board and its copies moved in for binding, in closed form: straight sides by formula, the end a straight cut or a true
 * arc. "Low" and "high" are the sides of falling and rising y, whichever of them is the bass.
 */
import { arc, line, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { movedIn, type Taper } from "../../lutherie/fingerboard-taper.ts";
import { meetEdge, movedBy, pointAt, type TransverseLine } from "../../lutherie/transverse-line.ts";

/** How the board ends: a straight cut, or a hollow arc about a centre beyond the end. */
export type EndCut =
  | { readonly kind: "line"; readonly line: TransverseLine }
  | { readonly kind: "arc"; readonly centre: Vec; readonly radius: number };

/** What the outline is cut from. */
export interface BoardFrame {
  readonly taper: Taper;
  readonly start: TransverseLine;
  readonly end: EndCut;
}

/** Two sides y = m x + c (high) and y = -m x - c (low), from corner to corner. */
export interface BoardEdges {
  readonly m: number;
  readonly c: number;
  readonly start: TransverseLine;
  readonly end: EndCut;
  readonly lowStart: Vec;
  readonly lowEnd: Vec;
  readonly highEnd: Vec;
  readonly highStart: Vec;
}

/** Frets that coincide with an end of the board to within this, mm, lie on it. */
const ON_EDGE = 1e-9;

/**
 * The board moved in by `side` mm along both sides and by `end` mm at its end, square to each, corners mitred. Undefined where nothing is
 * left, where the ends cross, or where the arc of the end does not reach both sides.
 */
export function edgesOf(frame: BoardFrame, side: number, end: number): BoardEdges | undefined {
  const taper = movedIn(frame.taper, side);
  const m = taper.slope / 2;
  const c = taper.atNut / 2;
  const cut: EndCut =
    frame.end.kind === "line"
      ? { kind: "line", line: movedBy(frame.end.line, -end) }
      : { ...frame.end, radius: frame.end.radius + end };
  const lowStart = meetEdge(frame.start, -m, -c);
  const highStart = meetEdge(frame.start, m, c);
  const lowEnd = cut.kind === "line" ? meetEdge(cut.line, -m, -c) : meetArc(cut, -m, -c);
  const highEnd = cut.kind === "line" ? meetEdge(cut.line, m, c) : meetArc(cut, m, c);
  if (!lowStart || !highStart || !lowEnd || !highEnd) return undefined;
  const open = highStart.y > lowStart.y && highEnd.y > lowEnd.y && lowEnd.x > lowStart.x && highEnd.x > highStart.x;
  return open ? { m, c, start: frame.start, end: cut, lowStart, lowEnd, highEnd, highStart } : undefined;
}

/** Where the side y = m x + c meets the arc, on the half of the circle that faces the nut. */
function meetArc({ centre, radius }: { readonly centre: Vec; readonly radius: number }, m: number, c: number): Vec | undefined {
  // From the centre (u = x - cx): (1 + m^2) u^2 + 2 m h u + h^2 - r^2 = 0, h the side's height over the centre.
  const height = m * centre.x + c;
  const a = 1 + m * m;
  const square = m * m * height * height - a * (height * height - radius * radius);
  if (!(square > 0)) return undefined;
  const u = (-m * height - Math.sqrt(square)) / a;
  return u < 0 ? vec(centre.x + u, height + m * u) : undefined;
}

/** The closed outline, counter-clockwise from the low corner at the nut. */
export function outlinePath(edges: BoardEdges): Path {
  const { lowStart, lowEnd, highEnd, highStart } = edges;
  return {
    start: lowStart,
    segments: [line(lowEnd), endSegment(edges.end, highEnd, false), line(highStart), line(lowStart)],
    closed: true,
  };
}

const endSegment = (cut: EndCut, to: Vec, downwards: boolean): Path["segments"][number] =>
  cut.kind === "line" ? line(to) : arc(to, cut.centre, downwards);

export type StripPlace = "low" | "high" | "end";

/** The strip between an outline and the one moved in from it, along one side or along the end. */
export function stripPath(outer: BoardEdges, inner: BoardEdges, place: StripPlace): Path {
  if (place === "end") {
    return {
      start: outer.lowEnd,
      segments: [
        endSegment(outer.end, outer.highEnd, false),
        line(inner.highEnd),
        endSegment(inner.end, inner.lowEnd, true),
        line(outer.lowEnd),
      ],
      closed: true,
    };
  }
  const [a, b, c, d] =
    place === "low"
      ? [outer.lowStart, outer.lowEnd, inner.lowEnd, inner.lowStart]
      : [outer.highStart, outer.highEnd, inner.highEnd, inner.highStart];
  // A strip that runs out at the end itself is cut off by it; one that goes on round the end is mitred.
  const isCutOff = outer.end.kind === "arc" && inner.end.kind === "arc" && outer.end.radius === inner.end.radius;
  const tail = isCutOff ? endSegment(outer.end, c, place === "high") : line(c);
  return { start: a, segments: [line(b), tail, line(d), line(a)], closed: true };
}

/** The piece of a line across the board that lies on it, from the low to the high side; undefined where none does. */
export function clipAcross(across: TransverseLine, edges: BoardEdges): readonly [Vec, Vec] | undefined {
  const low = meetEdge(across, -edges.m, -edges.c);
  const high = meetEdge(across, edges.m, edges.c);
  if (!low || !high) return undefined;
  let pieces: [number, number][] = [[low.y, high.y]];
  pieces = pieces.map((piece) => keepAhead(piece, across, edges.start));
  const { end } = edges;
  if (end.kind === "line") {
    pieces = pieces.map((piece) => keepAhead(piece, { x0: -across.x0, q: -across.q }, { x0: -end.line.x0, q: -end.line.q }));
  } else {
    pieces = pieces.flatMap((piece) => outsideArc(piece, across, end));
  }
  const longest = pieces.reduce<[number, number] | undefined>(
    (best, piece) => (piece[1] - piece[0] > (best ? best[1] - best[0] : ON_EDGE) ? piece : best),
    undefined,
  );
  return longest && [pointAt(across, longest[0]), pointAt(across, longest[1])];
}

/** The heights between y0 and y1 where `across` lies on the tail side of `limit`. */
function keepAhead([y0, y1]: [number, number], across: TransverseLine, limit: TransverseLine): [number, number] {
  const ahead = across.x0 - limit.x0 + ON_EDGE;
  const rate = across.q - limit.q;
  if (Math.abs(rate) < 1e-12) return ahead >= 0 ? [y0, y1] : [y0, y0];
  const cross = -ahead / rate;
  return rate > 0 ? [Math.max(y0, cross), y1] : [y0, Math.min(y1, cross)];
}

/** What is left of the heights between y0 and y1 outside the circle of the end, on its side towards the nut. */
function outsideArc(
  [y0, y1]: [number, number],
  across: TransverseLine,
  { centre, radius }: { readonly centre: Vec; readonly radius: number },
): [number, number][] {
  const u = across.x0 - centre.x;
  const a = 1 + across.q * across.q;
  const square = across.q * across.q * u * u - a * (u * u - radius * radius);
  let pieces: [number, number][] = [[y0, y1]];
  if (square > 0) {
    const from = (-across.q * u - Math.sqrt(square)) / a;
    const to = (-across.q * u + Math.sqrt(square)) / a;
    pieces = [
      [y0, Math.min(y1, from)],
      [Math.max(y0, to), y1],
    ];
  }
  return pieces.filter(([from, to]) => to > from && u + across.q * ((from + to) / 2) < 0);
}
