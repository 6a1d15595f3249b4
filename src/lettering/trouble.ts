/** Why a font file cannot be read, or why letters cannot be set. Something the maker can act on; our own bugs throw. */
export interface Trouble {
  /** `file`: the font's bytes; `time`: reading took too long; `text`: what was typed; `glyph`: the face lacks a character; `size`: the numbers do not go together; `outline`: what was drawn encloses nothing. */
  readonly kind: "file" | "time" | "text" | "glyph" | "size" | "outline";
  /** What is wrong, a sentence without its stop. */
  readonly message: string;
  /** What to do, one sentence with its stop. */
  readonly mend: string;
  /** The characters that the face lacks, in the order typed, each once. */
  readonly missing?: readonly string[];
}

export const trouble = (
  kind: Trouble["kind"],
  message: string,
  mend: string,
): { readonly ok: false; readonly error: Trouble } => ({
  ok: false,
  error: { kind, message, mend },
});

/** Thrown inside this room where a file turns out to be damaged, and caught in `readFace`, which gives it as a result. */
export class Damage extends Error {
  override readonly name = "Damage";
}
