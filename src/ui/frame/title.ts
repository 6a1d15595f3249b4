import type { Design } from "../../document/design.ts";

/** "No. 14, tenor guitar for H. Rowan" */
export function titleOf({ order }: Pick<Design, "order">): string {
  const { number, title, player } = order ?? {};
  const words = [title || undefined, player ? `for ${player}` : undefined].filter(Boolean).join(" ");
  return [number ? `No. ${number}` : undefined, words || undefined].filter(Boolean).join(", ") || "A design without a name";
}
