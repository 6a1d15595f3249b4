/** What this browser keeps. The only file that touches the browser's storage. */
import type { Trouble } from "./design.ts";
import type { Result } from "../units/result.ts";

/** Why the browser did not keep or give something. */
export interface StorageTrouble extends Trouble {
  readonly reason: "forbidden" | "full" | "conflict" | "missing" | "broken";
}

/** A design in a list. */
export interface Kept {
  readonly id: string;
  readonly title: string;
  readonly number: string;
  /** Milliseconds since 1970. */
  readonly savedAt: number;
  readonly revision: number;
}

export interface KeptDesign extends Kept {
  /** The design file. */
  readonly text: string;
}

/** An older text of a design. */
export interface Version {
  /** Revision that it had. */
  readonly revision: number;
  readonly savedAt: number;
}

export interface SaveRequest {
  readonly id: string;
  readonly title: string;
  readonly number: string;
  readonly text: string;
  /** Revision that the text grew from, 0 for a new design. Another one kept now is a conflict. */
  readonly baseRevision: number;
  readonly savedAt: number;
  /** Plain data kept beside the design: the steps of undo. */
  readonly history?: unknown;
  /** Replaces whatever is kept; what is replaced stays among the versions. */
  readonly force?: boolean;
}

export interface DesignStorage {
  readonly list: () => Promise<Result<readonly Kept[], StorageTrouble>>;
  readonly load: (id: string) => Promise<Result<KeptDesign & { readonly history: unknown }, StorageTrouble>>;
  /** @returns the new revision */
  readonly save: (request: SaveRequest) => Promise<Result<number, StorageTrouble>>;
  readonly remove: (id: string) => Promise<Result<void, StorageTrouble>>;
  /** The newest first. */
  readonly versions: (id: string) => Promise<Result<readonly Version[], StorageTrouble>>;
  readonly loadVersion: (id: string, revision: number) => Promise<Result<string, StorageTrouble>>;
  readonly setting: (name: string) => Promise<Result<unknown, StorageTrouble>>;
  readonly setSetting: (name: string, value: unknown) => Promise<Result<void, StorageTrouble>>;
  /** Hears of saves and removals by other tabs. @returns stops it */
  readonly onForeignChange: (
    listener: (change: { readonly id: string; readonly revision: number | undefined }) => void,
  ) => () => void;
  readonly close: () => void;
}

export async function openStorage(): Promise<Result<DesignStorage, StorageTrouble>> {
  throw new Error("follows");
}
