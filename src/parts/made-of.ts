/** What a part is made of: what the cutting list, the seasons and the offcut go by. Lengths mm. */
import type { Path } from "../geometry/path.ts";

/** How the board that a blank comes from was sawn. */
export type Sawn = "quartersawn" | "riftsawn" | "flatsawn";

/** A piece that a part is cut from, on axes whose x runs along the instrument; mm. The maker may change wood, grain and allowances. */
export interface Blank {
  /** Kebab-case, unique within the part, kept: `board`. */
  readonly name: string;
  /** "Fingerboard" */
  readonly title: string;
  /** Edge of the finished piece, seen on its broad face, and what is cut out of it. */
  readonly outline: Path;
  readonly holes?: readonly Path[];
  /** Of the finished piece. */
  readonly thickness: number;
  /** Of each, where several are alike. */
  readonly count?: number;
  /** A wood of the species table by id; absent for what is no wood and neither moves nor has grain. */
  readonly species?: string;
  /** What it is, where it is no wood: "bone". */
  readonly material?: string;
  readonly sawn?: Sawn;
  /** Direction of the grain, from the x axis. */
  readonly grain: number;
  /** Left on all round, and on the thickness, until it is fitted. */
  readonly allowance: number;
  readonly planing: number;
}

/** What is cut by length: binding, lining, wire. */
export interface Strip {
  /** Kebab-case, unique within the part, kept: `fret-wire`. */
  readonly name: string;
  readonly title: string;
  /** The finished lengths, mm, and what each is left longer by until it is fitted. */
  readonly lengths: readonly number[];
  readonly spare: number;
  /** Its section, mm. */
  readonly width: number;
  readonly height: number;
}

/** Holes of one kind that the part's own drawing does not show as drilled: those of its joints, or in an edge. */
export interface Holes {
  /** mm */
  readonly diameter: number;
  readonly count: number;
}

/** A cutter or what guides it, as the part's own numbers name it. */
export interface Cutter {
  readonly what: "bit" | "bearing" | "guide bush" | "saw";
  /** Cutting or outside diameter, or what a saw takes, mm. */
  readonly size: number;
  /** What it is for: "fret slots". */
  readonly for: string;
}
