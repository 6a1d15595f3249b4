/**
 * The frequency of a note by name in equal temperament: 440 Hz · 2^(k/12), k semitones above the A over middle C.
 * Source: ISO 16:1975 for 440 Hz; scientific octave numbers, middle C = C4.
 */
const SEMITONES_ABOVE_C: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const NOTE = /^([A-G])(##|#|bb|b|♯|♭)?(-1|[0-9])$/u;
const ALTERED: Readonly<Record<string, number>> = { "##": 2, "#": 1, "♯": 1, b: -1, "♭": -1, bb: -2 };

/** Hz of a note such as "E4", "F#3" or "Bb2", octaves -1 to 9; undefined where the text names no note. */
export function noteFrequencyHz(text: string): number | undefined {
  const match = NOTE.exec(text.trim());
  const [, letter = "", accidental, octave] = match ?? [];
  const step = SEMITONES_ABOVE_C[letter];
  if (step === undefined || octave === undefined) return undefined;
  const semitone = step + (accidental ? (ALTERED[accidental] ?? 0) : 0) + 12 * Number(octave);
  return 440 * 2 ** ((semitone - 57) / 12);
}
