/** What a file is that is no design, told by its first bytes. */

interface Signature {
  readonly what: string;
  readonly mend: string;
  /** Bytes from the start; null stands for any. */
  readonly bytes: readonly (number | null)[];
}

const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
const any = (count: number): null[] => Array.from({ length: count }, () => null);

const PICTURE_MEND = "Choose a design file; a photograph is laid under a part's drawing instead.";
const TEXT_MEND = "Save it as UTF-8 text and open it again.";

/** From the formats' own specifications. */
const SIGNATURES: readonly Signature[] = [
  { what: "a picture (PNG)", mend: PICTURE_MEND, bytes: [0x89, ...ascii("PNG\r\n\u001a\n")] },
  { what: "a picture (JPEG)", mend: PICTURE_MEND, bytes: [0xff, 0xd8, 0xff] },
  { what: "a picture (GIF)", mend: PICTURE_MEND, bytes: ascii("GIF8") },
  { what: "a picture (WebP)", mend: PICTURE_MEND, bytes: [...ascii("RIFF"), ...any(4), ...ascii("WEBP")] },
  { what: "a picture (TIFF)", mend: PICTURE_MEND, bytes: [...ascii("II"), 42, 0] },
  { what: "a picture (TIFF)", mend: PICTURE_MEND, bytes: [...ascii("MM"), 0, 42] },
  { what: "a picture or a film (ISO media)", mend: PICTURE_MEND, bytes: [...any(4), ...ascii("ftyp")] },
  { what: "a PDF", mend: "Choose the design file that it was printed from.", bytes: ascii("%PDF-") },
  { what: "a zip archive", mend: "Take an archive in from the list of designs.", bytes: [...ascii("PK"), 3, 4] },
  { what: "a zip archive without content", mend: "Choose a design file.", bytes: [...ascii("PK"), 5, 6] },
  { what: "a gzip archive", mend: "Unpack it first.", bytes: [0x1f, 0x8b] },
  { what: "text in UTF-16", mend: TEXT_MEND, bytes: [0xff, 0xfe] },
  { what: "text in UTF-16", mend: TEXT_MEND, bytes: [0xfe, 0xff] },
];

/** What the bytes are, if they are one of the usual kinds of file that get mistaken for a design. */
export const sniff = (bytes: Uint8Array): { readonly what: string; readonly mend: string } | undefined =>
  SIGNATURES.find(
    (signature) =>
      signature.bytes.every((byte, i) => byte === null || byte === bytes[i]) && bytes.length >= signature.bytes.length,
  );
