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

export interface Asked {
  readonly templates: readonly Template[];
  readonly options: PlainOptions;
}

/** A file to be written: all sheets, or the whole job in one archive. */
export interface FileWish extends Asked {
  readonly as: "pdf" | "archive";
  readonly fonts: FontBytes;
  /** Where the templates are laid out already. */
  readonly set?: SheetSet | undefined;
  /** The design's file, for the archive. */
  readonly design: { readonly stem: string; readonly text: string };
}
export type Question = (Asked & { readonly kind: "lay-out" }) | (FileWish & { readonly kind: "file" });

export type Answer =
  | { readonly kind: "sheets"; readonly set: SheetSet }
  | { readonly kind: "progress"; readonly done: number }
  | { readonly kind: "file"; readonly bytes: Uint8Array }
  | { readonly kind: "fault"; readonly message: string };
