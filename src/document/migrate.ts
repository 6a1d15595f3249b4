/**
 * Older files and older parts, brought up to this version by named steps of one. A file or a part of a later version is refused: what
 * this version does not understand it would spoil.
 */
import type { Migration } from "../parts/contract.ts";
import type { RawRecord } from "../parts/derived.ts";
import type { AnyPart } from "../parts/registry.ts";
import type { Result } from "../units/result.ts";
import { VERSION } from "./design.ts";

/** Steps of the file itself, from version 1 on; each keeps the keys that it does not know. */
export const FILE_MIGRATIONS: readonly Migration[] = [];

export interface VersionTrouble {
  readonly message: string;
  readonly mend: string;
}

const NEWER_MEND = "Open it in a newer Gramil; nothing in it was changed.";

/** The record after every step from its `version` (1 if it has none) to `to`. */
export function upgrade(
  raw: RawRecord,
  what: string,
  to: number,
  steps: readonly Migration[],
): Result<RawRecord, VersionTrouble> {
  const { version: from = 1 } = raw;
  if (typeof from !== "number" || !Number.isInteger(from) || from < 1) {
    return {
      ok: false,
      error: {
        message: `the version of ${what} is no whole number from 1 on`,
        mend: "Mend it in a text editor, or open an older copy.",
      },
    };
  }
  if (from > to) {
    return {
      ok: false,
      error: { message: `${what} is of version ${from}, and this Gramil knows versions up to ${to}`, mend: NEWER_MEND },
    };
  }
  let record: RawRecord = raw;
  for (let version = from; version < to; version++) {
    const step = steps.find((migration) => migration.from === version);
    if (!step) throw new Error(`no step leads ${what} from version ${version} to ${version + 1}`);
    record = { ...step.apply(record), version: version + 1 };
  }
  return { ok: true, value: record };
}

export const upgradeFile = (raw: RawRecord): Result<RawRecord, VersionTrouble> =>
  upgrade(raw, "the file", VERSION, FILE_MIGRATIONS);

export const upgradePart = (raw: RawRecord, id: string, part: AnyPart): Result<RawRecord, VersionTrouble> =>
  upgrade(raw, `the part ${id}`, part.version, part.migrations);
