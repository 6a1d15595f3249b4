/** Reads PDF files back with pdf.js, which shares no code with the writer. Everything comes out in mm on the page as stored. */
import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";

export interface Point {
  readonly x: number;
  readonly y: number;
}
/** A stroked or filled piece: straight (2 points) or a cubic (4). */
export interface ReadPiece {
  readonly points: readonly Point[];
  /** Which subpath of the page it belongs to. */
  readonly path: number;
  /** Drawn inside a form, so a part of a template. */
  readonly inForm: boolean;
  readonly filled: boolean;
  /** Line width, mm. */
  readonly width: number;
  readonly dashed: boolean;
  readonly clip: Box | undefined;
}
export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}
export interface ReadText extends Point {
  readonly text: string;
  /** Type size, mm. */
  readonly size: number;
  /** The font's own name in the file. */
  readonly font: string;
}
export interface ReadPage {
  /** Points, as stored. */
  readonly view: readonly number[];
  readonly rotate: number;
  readonly pieces: readonly ReadPiece[];
  readonly texts: readonly ReadText[];
}
export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly preferences: Readonly<Record<string, unknown>>;
  readonly info: Readonly<Record<string, unknown>>;
}

type Matrix = readonly [number, number, number, number, number, number];
const MM = 25.4 / 72;

const times = (m: Matrix, n: Matrix): Matrix => [
  n[0] * m[0] + n[1] * m[2],
  n[0] * m[1] + n[1] * m[3],
  n[2] * m[0] + n[3] * m[2],
  n[2] * m[1] + n[3] * m[3],
  n[4] * m[0] + n[5] * m[2] + m[4],
  n[4] * m[1] + n[5] * m[3] + m[5],
];

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0, useSystemFonts: false }).promise;
  const pages: ReadPage[] = [];
  for (let n = 1; n <= doc.numPages; n++) {
    const page = await doc.getPage(n);
    const list = await page.getOperatorList();
    const { items } = await page.getTextContent({ disableNormalization: true });
    const texts = items.flatMap((item): ReadText[] => {
      if (!("str" in item) || item.str.trim() === "") return [];
      const [a, b, , , e, f] = item.transform as number[];
      const { name } = page.commonObjs.get(item.fontName) as { readonly name: string };
      return [{ text: item.str, x: e! * MM, y: f! * MM, size: Math.hypot(a!, b!) * MM, font: name }];
    });
    pages.push({ view: page.view, rotate: page.rotate, pieces: piecesOf(list.fnArray, list.argsArray as unknown[][]), texts });
  }
  const preferences = ((await doc.getViewerPreferences()) ?? {}) as Record<string, unknown>;
  const { info } = await doc.getMetadata();
  await doc.destroy();
  return { pages, preferences, info: info as Record<string, unknown> };
}

interface State {
  readonly matrix: Matrix;
  readonly clip: Box | undefined;
  readonly width: number;
  readonly dashed: boolean;
  readonly inForm: boolean;
}

function piecesOf(codes: readonly number[], args: readonly (readonly unknown[] | null)[]): ReadPiece[] {
  const pieces: ReadPiece[] = [];
  const stack: State[] = [];
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], clip: undefined, width: 1, dashed: false, inForm: false };
  let clipNext = false;
  let path = 0;
  for (const [i, code] of codes.entries()) {
    const arg = args[i] ?? [];
    switch (code) {
      case OPS.save:
        stack.push(state);
        break;
      case OPS.restore:
        state = stack.pop()!;
        break;
      case OPS.transform:
        state = { ...state, matrix: times(state.matrix, arg as unknown as Matrix) };
        break;
      case OPS.paintFormXObjectBegin:
        stack.push(state);
        if (arg[0]) state = { ...state, matrix: times(state.matrix, arg[0] as Matrix) };
        state = { ...state, inForm: true };
        break;
      case OPS.paintFormXObjectEnd:
        state = stack.pop()!;
        break;
      case OPS.setLineWidth:
        state = { ...state, width: (arg[0] as number) * MM };
        break;
      case OPS.setDash:
        state = { ...state, dashed: (arg[0] as number[]).length > 0 };
        break;
      case OPS.clip:
      case OPS.eoClip:
        clipNext = true;
        break;
      case OPS.constructPath: {
        const [paint, [numbers]] = arg as [number, [Float32Array | null]];
        const found = subpaths(numbers ?? new Float32Array(), state.matrix);
        if (clipNext && paint === OPS.endPath) {
          const points = found.flat().flatMap(({ points: p }) => p);
          state = { ...state, clip: meet(state.clip, points) };
        }
        clipNext = false;
        if (paint === OPS.endPath) break;
        const filled = paint !== OPS.stroke && paint !== OPS.closeStroke;
        for (const run of found) {
          path++;
          for (const { points } of run) {
            pieces.push({
              points,
              path,
              inForm: state.inForm,
              filled,
              width: state.width,
              dashed: state.dashed,
              clip: state.clip,
            });
          }
        }
        break;
      }
      default:
    }
  }
  return pieces;
}

function meet(clip: Box | undefined, points: readonly Point[]): Box {
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const box = { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
  return clip
    ? {
        x0: Math.max(box.x0, clip.x0),
        y0: Math.max(box.y0, clip.y0),
        x1: Math.min(box.x1, clip.x1),
        y1: Math.min(box.y1, clip.y1),
      }
    : box;
}

/** pdf.js packs a path as 0 move, 1 line, 2 cubic, 3 quadratic, 4 close. */
function subpaths(numbers: Float32Array, [a, b, c, d, e, f]: Matrix): { points: Point[] }[][] {
  const at = (k: number): Point => {
    const [x, y] = [numbers[k]!, numbers[k + 1]!];
    return { x: (a * x + c * y + e) * MM, y: (b * x + d * y + f) * MM };
  };
  const runs: { points: Point[] }[][] = [];
  let start: Point = { x: 0, y: 0 };
  let here = start;
  for (let k = 0; k < numbers.length;) {
    const code = numbers[k++]!;
    const run = runs.at(-1);
    if (code === 0) {
      start = here = at(k);
      runs.push([]);
      k += 2;
    } else if (code === 1) {
      const to = at(k);
      run!.push({ points: [here, to] });
      here = to;
      k += 2;
    } else if (code === 2) {
      run!.push({ points: [here, at(k), at(k + 2), at(k + 4)] });
      here = at(k + 4);
      k += 6;
    } else if (code === 4) {
      if (Math.hypot(here.x - start.x, here.y - start.y) > 1e-6) run!.push({ points: [here, start] });
      here = start;
    } else throw new Error(`a path code ${code} was not expected`);
  }
  return runs;
}

export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** Straight pieces as pairs of ends. */
export const straight = (page: ReadPage, inForm: boolean): { a: Point; b: Point; piece: ReadPiece }[] =>
  page.pieces
    .filter((piece) => piece.inForm === inForm && piece.points.length === 2)
    .map((piece) => ({ a: piece.points[0]!, b: piece.points[1]!, piece }));
