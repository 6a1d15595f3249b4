/** The font library ships no types; the PDF library says what it wants of it. */
declare module "fontkit" {
  import type { PDFDocument } from "@cantoo/pdf-lib";
  type Fontkit = Parameters<PDFDocument["registerFontkit"]>[0];
  export const create: Fontkit["create"];
}
