/**
 * Notes to the maker. A short one stands for a moment over the design's name in the strip; a longer one, and any where there is little room or
 * fingers point, stands in a bar of its own under the strip. So neither covers the work. Trouble and what asks for an answer stays until it is
 * closed.
 */

export interface Tell {
  readonly title: string;
  readonly more?: string | undefined;
  readonly kind?: "stop" | "look" | "fine" | "plain";
  /** One thing that can be done about it. */
  readonly action?: { readonly label: string; readonly onChoose: () => void };
  /** Stays until it is closed, as those of kind "stop" and those with an action do. */
  readonly lasting?: boolean;
  /** Says when the note no longer holds, and is to go. */
  readonly until?: (close: () => void) => void;
}

/** As many letters are read in passing, and have room in the strip of a tablet. */
const MOST_PASSING = 80;

interface Desk {
  show?: (note: Tell) => void;
  /** Those told before there was anything to show them. */
  readonly waiting: Tell[];
}
const desks: Readonly<Record<"passing" | "staying", Desk>> = { passing: { waiting: [] }, staying: { waiting: [] } };

export const stays = ({ kind, action, lasting = false }: Tell): boolean => lasting || kind === "stop" || action !== undefined;

/** Shows a note, in place of one that is headed the same. */
export function tell(note: Tell): void {
  const { title, more = "" } = note;
  const small = matchMedia("(max-width: 900px), (pointer: coarse)").matches;
  const desk = desks[small || stays(note) || title.length + more.length > MOST_PASSING ? "staying" : "passing"];
  if (desk.show) desk.show(note);
  else desk.waiting.push(note);
}

/** Says what shows notes from now on. */
export function showNotesBy(name: keyof typeof desks, show: (note: Tell) => void): void {
  const desk = desks[name];
  desk.show = show;
  desk.waiting.splice(0).forEach(show);
}
