/** What a reading gives: the value, or why there is none. Wrong text is a result; only our own bugs throw. */
export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

/** Why a text cannot be read, where in it, and what to do. */
export interface TextError {
  /** Index of the first wrong character in the text as it was given; the text's length where something is missing at the end. */
  readonly at: number;
  /** Count of wrong characters, 0 where something is missing. */
  readonly length: number;
  /** What is wrong, a clause without a stop: "the bottom of the fraction is 0". */
  readonly message: string;
  /** What to do, one sentence: "Write a bottom number of 1 or more." */
  readonly mend: string;
}

/** A result as the readers of text give it. */
export type Reading<T> = Result<T, TextError>;

/** A run of characters in the text. */
export interface Span {
  readonly at: number;
  readonly length: number;
}

export const done = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

export const refuse = (place: Span, message: string, mend: string): { readonly ok: false; readonly error: TextError } => ({
  ok: false,
  error: { at: place.at, length: place.length, message, mend },
});

/** The span from the start of one to the end of another. */
export const spanOf = (from: Span, to: Span): Span => ({ at: from.at, length: to.at + to.length - from.at });

/** A piece of typed text as it stands in a message, cut where it is long. */
export const quoted = (text: string): string => `“${text.length > 24 ? `${text.slice(0, 24)}…` : text}”`;
