/** Draws what stands on a sheet beside the template: plain lines and lettering in mm on the sheet as seen. */
import type { Drawing, LineType, Role, Shape, Text } from "../../drawing/drawing.ts";
import { circle, segmentPath, type Path } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";

export interface Furniture {
  readonly drawing: Drawing;
  /** Lettering in the bold face. */
  readonly strong: readonly Text[];
}

interface Lettering {
  readonly align?: Text["align"];
  /** Quarter turn to the left: read from the right. */
  readonly upward?: boolean;
  readonly strong?: boolean;
}

/** Heights of capitals, mm (ISO 3098-1 series 1.8, 2.5, 3.5, 5). */
export const SMALL = 1.8;
export const PLAIN = 2.5;
export const LARGE = 5;
/** From one baseline to the next over the height of a capital. */
export const LEADING = 1.75;

export class Pen {
  readonly #layers = new Map<string, { shapes: Shape[]; texts: Text[] }>();
  readonly #strong: Text[] = [];
  #layer = "sheet";

  /** What follows belongs to this layer. */
  layer(name: string): this {
    this.#layer = name;
    return this;
  }

  line(x0: number, y0: number, x1: number, y1: number, type: LineType = "narrow", name = "line"): void {
    this.path(segmentPath(vec(x0, y0), vec(x1, y1)), type, name);
  }

  circle(x: number, y: number, radius: number, name: string): void {
    this.path(circle(vec(x, y), radius), "narrow", name);
  }

  path(path: Path, type: LineType, name: string, role: Role = "mark"): void {
    const { shapes } = this.#current();
    shapes.push({ id: `${this.#layer}-${shapes.length + 1}`, role, line: type, path, name });
  }

  /** Lettering whose first capital stands on (x, y). */
  text(
    x: number,
    y: number,
    text: string,
    height: number,
    { align = "start", upward = false, strong = false }: Lettering = {},
  ): void {
    const { texts } = this.#current();
    const list = strong ? this.#strong : texts;
    list.push({
      id: `${this.#layer}-${strong ? "strong" : "text"}-${list.length + 1}`,
      at: vec(x, y),
      text,
      height,
      align,
      ...(upward ? { angle: Math.PI / 2 } : {}),
    });
  }

  /** Lines of lettering, the first with its capitals up to `top`. */
  lines(x: number, top: number, lines: readonly string[], height: number, how: Lettering = {}): void {
    for (const [i, line] of lines.entries()) this.text(x, top - height - i * height * LEADING, line, height, how);
  }

  finish(): Furniture {
    return {
      drawing: { layers: [...this.#layers].map(([name, { shapes, texts }]) => ({ name, shapes, texts })), dimensions: [] },
      strong: this.#strong,
    };
  }

  #current(): { shapes: Shape[]; texts: Text[] } {
    const found = this.#layers.get(this.#layer);
    if (found) return found;
    const fresh = { shapes: [], texts: [] };
    this.#layers.set(this.#layer, fresh);
    return fresh;
  }
}

/** Height of `count` lines of lettering, mm. */
export const linesHeight = (count: number, height: number): number => (count === 0 ? 0 : height * (1 + (count - 1) * LEADING));
