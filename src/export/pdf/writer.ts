/**
 * Sheets as a PDF file. The only file that knows the PDF library; load it on demand, it is large. The same sheets give the same bytes on
 * every machine: dates come from the caller, the file carries no random name or id.
 */
import { PDFDocument, PDFName, PrintScaling, type PDFRef } from "@cantoo/pdf-lib";
import * as fontkit from "fontkit";
import { growBounds } from "../../geometry/bounds.ts";
import { rectangle } from "../../geometry/path.ts";
import { compose, scaling, type Affine } from "../../geometry/transform.ts";
import { vec } from "../../geometry/vec.ts";
import { inkBounds } from "../../sheets/ink.ts";
import { placementMap } from "../../sheets/placement.ts";
import type { Sheet, SheetSet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import { numberText } from "../number-text.ts";
import { pauser, type OnProgress } from "../pause.ts";
import { plainFont } from "./woff.ts";
import { layerOperators, pathOperators, points, POINTS_PER_MM, textOperators, wasteOperators, type PdfFont } from "./content.ts";

/** The two faces of the lettering as the bytes of their font files (WOFF, TrueType or OpenType). */
export interface FontBytes {
  readonly regular: Uint8Array;
  readonly strong: Uint8Array;
}

export interface PdfOptions {
  readonly fonts: FontBytes;
  readonly title: string;
  /** The instrument's number, may be empty. */
  readonly number: string;
  /** ISO 8601; a day alone means noon UTC; empty: the file carries no date. */
  readonly date: string;
  readonly onProgress?: OnProgress;
  readonly signal?: AbortSignal;
}

/**
 * The bytes of the PDF. Pages have the paper's exact size and ask for no scaling in print; all is vector; each template is written once
 * and clipped on every sheet. Rejects with the signal's reason when cancelled; throws on a date or a font that cannot be read.
 */
export async function pdfOf(set: SheetSet, options: PdfOptions): Promise<Uint8Array> {
  const pause = pauser(options.signal);
  const doc = await PDFDocument.create({ updateMetadata: false });
  describe(doc, options);
  doc.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  doc.registerFontkit(fontkit);
  const faces: Faces = {
    regular: await embed(doc, options.fonts.regular, "Regular"),
    strong: await embed(doc, options.fonts.strong, "Strong"),
  };

  const forms = new Map<string, PDFRef>();
  for (const [i, sheet] of set.sheets.entries()) {
    for (const { template } of sheet.placed) {
      await pause();
      if (!forms.has(template.id)) forms.set(template.id, writeTemplate(doc, template, set.waste === "grey", faces));
    }
    writeSheet(doc, sheet, forms, faces);
    options.onProgress?.((0.9 * (i + 1)) / set.sheets.length);
    await pause();
  }
  const bytes = await doc.save({ addDefaultPage: false, updateFieldAppearances: false });
  options.signal?.throwIfAborted();
  options.onProgress?.(1);
  return bytes;
}

interface Face extends PdfFont {
  readonly ref: PDFRef;
}
interface Faces {
  readonly regular: Face;
  readonly strong: Face;
}

const fontsOf = ({ regular, strong }: Faces): Record<string, PDFRef> => ({
  [regular.name]: regular.ref,
  [strong.name]: strong.ref,
});

function describe(doc: PDFDocument, { title, number, date }: PdfOptions): void {
  doc.setTitle(title, { showInWindowTitleBar: true });
  if (number !== "") {
    doc.setSubject(`Instrument ${number}`);
    doc.setKeywords([number]);
  }
  doc.setCreator("Gramil");
  doc.setProducer("Gramil");
  if (date === "") return;
  const when = new Date(/^\d{4}-\d\d-\d\d$/.test(date) ? `${date}T12:00:00Z` : date);
  if (Number.isNaN(when.getTime())) throw new RangeError(`pdfOf: ${date} is no date`);
  doc.setCreationDate(when);
  doc.setModificationDate(when);
}

/** One letter, one glyph: joined and alternate forms would break the fixed advance. */
const FEATURES = { liga: false, clig: false, calt: false, dlig: false, ccmp: false, kern: false };

async function embed(doc: PDFDocument, bytes: Uint8Array, name: string): Promise<Face> {
  // A subset's name starts with six capitals and a plus sign (ISO 32000-1, 9.6.4); a name of our own keeps it from being random.
  const font = await doc.embedFont(plainFont(bytes), {
    subset: true,
    customName: `GRAMIL+AtkinsonHyperlegibleMono-${name}`,
    features: FEATURES,
  });
  const known = new Set(font.getCharacterSet());
  // The same words stand on every sheet; laying out their glyphs is what takes time.
  const codes = new Map<string, string>();
  const encode = (text: string): string => {
    const code = codes.get(text) ?? font.encodeText(spelt(text, known)).toString();
    codes.set(text, code);
    return code;
  };
  return { name, ref: font.ref, encode };
}

/** `text` in characters that the face has: accents dropped where they are missing, a question mark for what is left. */
function spelt(text: string, known: ReadonlySet<number>): string {
  return [...text.normalize("NFC")]
    .map((letter) => {
      const plain = letter.normalize("NFD")[0] ?? "";
      return [letter, plain].find((l) => known.has(l.codePointAt(0) ?? 0)) ?? "?";
    })
    .join("");
}

/** Points from mm. */
const SCALE = scaling(POINTS_PER_MM);

/** White kept round a template in its form, mm: more than the lettering may reach and the waste band needs. */
const FORM_EDGE = 20;

/** Writes a template once, in points along its own axes. */
function writeTemplate(doc: PDFDocument, template: Template, grey: boolean, faces: Faces): PDFRef {
  const box = growBounds(inkBounds(template), FORM_EDGE);
  const content = [
    "1 j",
    ...(grey ? wasteOperators(template, box, SCALE) : []),
    layerOperators(template.drawing.layers, faces, SCALE),
  ].join("\n");
  return doc.context.register(
    doc.context.flateStream(content, {
      Type: "XObject",
      Subtype: "Form",
      BBox: [box.minX, box.minY, box.maxX, box.maxY].map((v) => Number(points(v * POINTS_PER_MM))),
      Resources: { Font: fontsOf(faces) },
    }),
  );
}

function writeSheet(doc: PDFDocument, sheet: Sheet, forms: ReadonlyMap<string, PDFRef>, faces: Faces): void {
  const [width, height] = sheet.turned ? [sheet.height, sheet.width] : [sheet.width, sheet.height];
  const page = doc.addPage([Number(points(width * POINTS_PER_MM)), Number(points(height * POINTS_PER_MM))]);
  if (sheet.turned) page.node.set(PDFName.of("Rotate"), doc.context.obj(90));
  const toPage = pageMap(sheet);
  const names = new Map<string, PDFRef>();
  const placed = sheet.placed.flatMap(({ template, at, clip }, i) => {
    const name = `T${i + 1}`;
    names.set(name, forms.get(template.id)!);
    const cm = compose(scaling(1 / POINTS_PER_MM), placementMap(at), toPage);
    return [
      "q",
      pathOperators(rectangle(clip.x0, clip.y0, clip.x1, clip.y1), toPage),
      "W n",
      `${matrixText(cm)} cm`,
      `/${name} Do`,
      "Q",
    ];
  });
  const content = [
    ...placed,
    "1 j",
    layerOperators(sheet.furniture.layers, faces, toPage),
    ...sheet.strong.map((text) => textOperators(text, faces.strong, toPage)),
  ].join("\n");
  page.node.set(PDFName.of("Contents"), doc.context.register(doc.context.flateStream(content)));
  page.node.set(
    PDFName.of("Resources"),
    doc.context.obj({
      Font: fontsOf(faces),
      XObject: Object.fromEntries(names),
    }),
  );
}

/** From mm on the sheet as seen to points on the page as stored, the printer's correction about the middle included. */
function pageMap(sheet: Sheet): Affine {
  const corrected = scaling(sheet.correction.x, sheet.correction.y, vec(sheet.width / 2, sheet.height / 2));
  // A page stored upright and shown turned clockwise: seen (x, y) is stored at (height - y, x).
  const stored: Affine = sheet.turned
    ? { a: 0, b: 1, c: -1, d: 0, e: sheet.height, f: 0 }
    : { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };
  return compose(corrected, stored, SCALE);
}

const matrixText = (m: Affine): string =>
  [...[m.a, m.b, m.c, m.d].map((v) => numberText(v, 9)), points(m.e), points(m.f)].join(" ");
