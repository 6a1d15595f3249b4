/** The little that is used of the font library. Its published types would bring the browser's into this room. */
declare module "opentype.js/dist/opentype.mjs" {
  export type Command =
    | { readonly type: "M"; readonly x: number; readonly y: number }
    | { readonly type: "L"; readonly x: number; readonly y: number }
    | { readonly type: "Q"; readonly x1: number; readonly y1: number; readonly x: number; readonly y: number }
    | {
        readonly type: "C";
        readonly x1: number;
        readonly y1: number;
        readonly x2: number;
        readonly y2: number;
        readonly x: number;
        readonly y: number;
      }
    | { readonly type: "Z" };
  export function parse(
    buffer: ArrayBuffer,
    options: { readonly lowMemory: true },
  ): { readonly glyphs: { get(index: number): { readonly path: { readonly commands: readonly Command[] } } } };
}
