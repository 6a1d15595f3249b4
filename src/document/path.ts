/** Paths into a design: `parts.fingerboard.binding[0].thickness`. */
import type { Result } from "../units/result.ts";
import type { Trouble } from "./design.ts";

/** Whether a part can have this id: ids are steps of paths, and `instrument` is the name of what all parts share. */
export const isPartId = (id: string): boolean => /^[\p{L}_][\p{L}\p{N}_-]*$/u.test(id) && id !== "instrument";

/** A key of a record, or an index of a list. */
export type Step = string | number;

const STEP = /([^.[\]]+)|\[([0-9]{1,6})\]/y;

/** The steps of a path; refused where it is none. */
export function readPath(path: string): Result<readonly Step[], Trouble> {
  const steps: Step[] = [];
  let at = 0;
  while (at < path.length) {
    if (at > 0 && path[at] === ".") at++;
    else if (at > 0 && path[at] !== "[") break;
    STEP.lastIndex = at;
    const [found, key, index] = STEP.exec(path) ?? [];
    if (found === undefined) break;
    steps.push(key ?? Number(index));
    at += found.length;
  }
  if (steps.length > 0 && at >= path.length && !path.endsWith(".")) return { ok: true, value: steps };
  return {
    ok: false,
    error: {
      path,
      message: `${path === "" ? "an empty text" : path} is no path`,
      mend: "Write it as parts.fingerboard.binding[0].thickness.",
    },
  };
}
