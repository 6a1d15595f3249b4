/** How a measured number is told beside its plan. */
import { say, type Notation } from "../notation.ts";
import { USUAL_FACES, type Built } from "./built.ts";

/** Nearer than a rule or a calliper shows, mm. */
const SAME = 0.005;

/** "0.3 mm less than planned; 0.2 mm of it was to come off two faces, 0.1 mm is left unexplained" */
export function offSaid({ off, explained, quantity, entry }: Built, notation: Notation): string {
  if (off === undefined) return "";
  const length = (value: number): string => say(Math.abs(value), quantity, notation);
  const way = (value: number): string => (value < 0 ? "less" : "more");
  if (Math.abs(off) < SAME) return "as planned";
  const first = `${length(off)} ${way(off)} than planned`;
  if (Math.abs(explained) < SAME) return first;
  const faces = (entry.faces ?? USUAL_FACES) === 1 ? "one face" : "two faces";
  const said = `${length(explained)} was to ${explained < 0 ? "come off" : "come onto"} ${faces}`;
  const left = off - explained;
  return `${first}; ${said}, ${Math.abs(left) < SAME ? "which explains it" : `${length(left)} ${way(left)} is not explained by that`}`;
}

/** "0.26 mm less than it was cut to on 2026-03-02" */
export function cutSaid({ cut, quantity }: Built, notation: Notation): string {
  if (!cut) return "";
  if (Math.abs(cut.off) < SAME) return `as it was cut on ${cut.date}`;
  return `${say(Math.abs(cut.off), quantity, notation)} ${cut.off < 0 ? "less" : "more"} than it was cut to on ${cut.date}`;
}
