import type { Trouble } from "../../document/design.ts";
import type { Result } from "../../units/result.ts";
import type { Workbench } from "../workbench.ts";

/** Everything that this browser keeps, as one zip file. */
export async function packEverything(
  bench: Workbench,
): Promise<Result<{ readonly name: string; readonly bytes: Uint8Array }, Trouble>> {
  throw new Error("follows");
}

/** What came of each design in an archive. */
export interface Arrival {
  readonly title: string;
  readonly outcome: "added" | "already here" | "refused";
  /** Repairs, or why it was refused. */
  readonly says: readonly string[];
}

/** Takes the designs of an archive in beside those that are here; none is overwritten. */
export async function unpackEverything(bench: Workbench, bytes: Uint8Array): Promise<Result<readonly Arrival[], Trouble>> {
  throw new Error("follows");
}
