/**
 * Notes to the maker. A short one stands for a moment over the design's name in the strip; one that has to be read or answered stands in a
 * bar of its own under the strip until it is closed. So neither covers the work.
 */

export interface Tell {
  readonly title: string;
  readonly more?: string | undefined;
  readonly kind?: "stop" | "fine" | "plain";
  /** One thing that can be done about it. */
  readonly action?: { readonly label: string; readonly onChoose: () => void };
  /** Stays until it is closed, as those of kind "stop" and long ones do. */
  readonly lasting?: boolean;
}

/** As many letters are read in passing, and have room in the strip of a tablet. */
const MOST_PASSING = 80;

interface Desk {
  show?: (note: Tell) => void;
  /** Those told before there was anything to show them. */
  readonly waiting: Tell[];
}
const desks: Readonly<Record<"passing" | "staying", Desk>> = { passing: { waiting: [] }, staying: { waiting: [] } };

/** Shows a note; those of kind "stop" and long ones stay until they are closed. */
export function tell(note: Tell): void {
  const { title, more = "", kind, lasting } = note;
  const stays = lasting || kind === "stop" || title.length + more.length > MOST_PASSING;
  const desk = desks[stays ? "staying" : "passing"];
  if (desk.show) desk.show(note);
  else desk.waiting.push(note);
}

/** Says what shows notes from now on. */
export function showNotesBy(name: keyof typeof desks, show: (note: Tell) => void): void {
  const desk = desks[name];
  desk.show = show;
  desk.waiting.splice(0).forEach(show);
}
