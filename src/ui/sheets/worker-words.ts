/** What the page and its worker say to each other about sheets. */
import type { FontBytes } from "../../export/pdf/writer.ts";
import type { SheetOptions, SheetSet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import { lengthInFull } from "../../units/format.ts";
import type { Notation } from "../notation.ts";

/** The options without their function, which cannot be sent: it is made again from the notation. */
export interface PlainOptions extends Omit<SheetOptions, "say"> {
  readonly notation: Notation;
}

export const withSay = ({ notation, ...options }: PlainOptions): SheetOptions => ({
  ...options,
  say: (mm) => lengthInFull(mm, notation),
});

interface Asked {
  readonly templates: readonly Template[];
  readonly options: PlainOptions;
}
export type Question = (Asked & { readonly kind: "lay-out" }) | (Asked & { readonly kind: "pdf"; readonly fonts: FontBytes });

export type Answer =
  | { readonly kind: "sheets"; readonly set: SheetSet }
  | { readonly kind: "progress"; readonly done: number }
  | { readonly kind: "pdf"; readonly bytes: Uint8Array }
  | { readonly kind: "fault"; readonly message: string };
