/**
 * What a part has read, noted while it reads: its own numbers and the measures of other parts, each number by itself at the top level. The
 * part stands as long as those that it has read are equal, whatever happens to the rest. Listing or spreading reads them all, and that there
 * is no such part is a reading too. What is read later, by a drawing or a check, is noted beside the rest.
 */
import type { AnyWork } from "./answers.ts";
import type { Answered } from "./contract.ts";
import type { Face } from "../lettering/face.ts";
import type { Trouble } from "../lettering/trouble.ts";
import type { Result } from "../units/result.ts";
import { same } from "./same.ts";

export type ReadFace = Result<Face, Trouble>;

/** All that a part read, at the time. */
export interface Reads {
  readonly own: Reading;
  /** By kind and id. */
  readonly measures: Map<string, Reading>;
  readonly faces: Map<string, { readonly wanted: string; readonly face: ReadFace | undefined }>;
  /** By the work's name. */
  readonly answers: Map<
    string,
    { readonly work: AnyWork; readonly question: unknown; readonly answered: Answered<unknown> | undefined }
  >;
}

/** The numbers of one part as it reads them itself, or as another reads its measures. */
export interface Reading {
  readonly numbers: object | undefined;
  /** The same numbers, which note what is taken from them. Not to be kept, nor sent to a worker; what is taken from it is plain. */
  readonly view: object | undefined;
  readonly noted: ReadonlySet<PropertyKey>;
}

/** Stands among the noted names for all of them. */
const ALL = Symbol("all");

/** @param before what has been read of earlier numbers that were equal in it */
export function readingOf(numbers: object | undefined, before: Iterable<PropertyKey> = []): Reading {
  const noted = new Set(before);
  const view =
    numbers &&
    new Proxy(numbers, {
      get(target, key): unknown {
        noted.add(key);
        return Reflect.get(target, key);
      },
      has(target, key) {
        noted.add(key);
        return Reflect.has(target, key);
      },
      getOwnPropertyDescriptor(target, key) {
        noted.add(key);
        return Reflect.getOwnPropertyDescriptor(target, key);
      },
      ownKeys(target) {
        noted.add(ALL);
        return Reflect.ownKeys(target);
      },
    });
  return { numbers, view, noted };
}

/** The same reading of what there is now; undefined where something that was read is another. */
export function readingNow(before: Reading, now: object | undefined): Reading | undefined {
  if (before.numbers === now) return before;
  return readsTheSame(before, now) ? readingOf(now, before.noted) : undefined;
}

function readsTheSame({ numbers, noted }: Reading, now: object | undefined): boolean {
  if (!numbers || !now) return false;
  if (noted.has(ALL)) return same(numbers, now);
  return [...noted].every((key) => key in numbers === key in now && same(Reflect.get(numbers, key), Reflect.get(now, key)));
}
