/** What jsdom lacks of a page for the board: a canvas, a layout, media queries. */
import { vi } from "vitest";

/** Every call on any canvas, as its name and arguments; texts and fills are looked for in it. */
export const calls: { readonly name: string; readonly args: readonly unknown[] }[] = [];

/** A canvas that draws nothing and answers every call; text is 0.6 of its size wide a character. */
function canvas2d(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const state: Record<string | symbol, unknown> = { canvas, font: "10px sans-serif" };
  return new Proxy(state, {
    get: (held, name) => {
      if (name in held) return held[name];
      return (...args: unknown[]): unknown => {
        calls.push({ name: String(name), args });
        if (name === "measureText")
          return { width: String(args[0]).length * 0.6 * Number(/([0-9.]+)px/.exec(String(held["font"]))?.[1] ?? 10) };
        if (name === "getImageData") return { data: new Uint8ClampedArray(4) };
        return undefined;
      };
    },
    set: (held, name, value) => {
      held[name] = value;
      return true;
    },
  }) as unknown as CanvasRenderingContext2D;
}

export function stubPage(width: number, height: number): void {
  const kept = new WeakMap<HTMLCanvasElement, CanvasRenderingContext2D>();
  vi.spyOn(HTMLCanvasElement.prototype, "getContext").mockImplementation(function (this: HTMLCanvasElement) {
    const context = kept.get(this) ?? canvas2d(this);
    kept.set(this, context);
    return context as never;
  });
  vi.spyOn(Element.prototype, "clientWidth", "get").mockReturnValue(width);
  vi.spyOn(Element.prototype, "clientHeight", "get").mockReturnValue(height);
  vi.stubGlobal(
    "ResizeObserver",
    class {
      observe(): void {}
      unobserve(): void {}
      disconnect(): void {}
    },
  );
  vi.stubGlobal("matchMedia", () => ({ matches: false, addEventListener: () => {}, removeEventListener: () => {} }));
  (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
}
