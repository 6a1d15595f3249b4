/** What a list of designs shows and finds without opening them. A blank text where nothing is said. */
export interface Summary {
  readonly title: string;
  readonly number: string;
  readonly player: string;
  readonly builtBy: string;
  readonly date: string;
  readonly status: string;
  /** Every instrument number that it takes of the shop's series: its own and those of its copies. */
  readonly numbers: readonly string[];
  /** Fingerprints of the sheets that it is found by: of its cuts, and of its present numbers. */
  readonly signs: readonly string[];
}

/** A summary of which some may be missing, since a program before this one wrote it. */
export const wholeSummary = ({
  title = "",
  number = "",
  player = "",
  builtBy = "",
  date = "",
  status = "",
  numbers = number === "" ? [] : [number],
  signs = [],
}: Partial<Summary>): Summary => ({ title, number, player, builtBy, date, status, numbers, signs });
