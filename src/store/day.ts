import type { Design } from "../document/design.ts";

/** The day of a moment (milliseconds since 1970) by this computer's calendar, as 2025-03-31. */
export function dayOf(moment: number): string {
  const date = new Date(moment);
  return [date.getFullYear(), String(date.getMonth() + 1).padStart(2, "0"), String(date.getDate()).padStart(2, "0")].join("-");
}

/** The design with the day on which it was begun, unless its order has one. No clock enters later, so that its files stay the same. */
export const dated = (design: Design, moment: number): Design =>
  design.order?.date === undefined ? { ...design, order: { ...design.order, date: dayOf(moment) } } : design;
