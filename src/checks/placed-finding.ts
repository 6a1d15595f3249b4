import type { Finding } from "../parts/contract.ts";

/** A finding with the part it stands on. */
export type PlacedFinding = Finding & {
  readonly partId: string;
  readonly partLabel: string;
  /** What stands on another part already, told here from this part's side. */
  readonly again?: true;
};
