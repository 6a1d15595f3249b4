import type { Arguments } from "./arguments.ts";

/** Where a command writes. */
export interface Out {
  readonly line: (text: string) => void;
  readonly note: (text: string) => void;
}

/** One command of the program. */
export interface Command {
  readonly name: string;
  /** "DESIGN [--json]" */
  readonly usage: string;
  readonly about: string;
  readonly valued: Readonly<Record<string, "once" | "many">>;
  readonly flags: readonly string[];
  /** @returns the exit code */
  readonly run: (args: Arguments, out: Out) => Promise<number>;
}

/** Options of every command that opens a design. */
export const COMMON = { valued: { set: "many", copy: "once" }, flags: ["json"] } as const;
