/** Why a number could not be settled, on its way to where that is told. */

/** Thrown when a number is read that could not be settled; the problem stands at the number that caused it. */
export class Unsettled extends Error {
  readonly path: string;
  constructor(path: string) {
    super(`not settled: ${path}`);
    this.path = path;
  }
}

/** The path that a set of numbers runs round in. */
export class Circle extends Error {
  constructor(paths: readonly string[]) {
    super(
      `these numbers need each other: ${paths.map((path) => path.replace(/^(parts|instrument)\./, "")).join(", which needs ")}`,
    );
  }
}
export const CIRCLE_MEND = "Type a plain number into one of them.";
