/** Lettering on paper: one typeface of fixed advance, so that widths follow from counts. */

/** Advance of every letter over the height of a capital: 632 over 668 units of Atkinson Hyperlegible Mono. */
export const ADVANCE = 632 / 668;
/** Type size over the height of a capital: 1000 over 668 units. */
export const TYPE_SIZE = 1000 / 668;
/** How far a descender reaches below the baseline over the height of a capital (g, p, q, y: 212 of 668 units). */
export const DESCENT = 0.32;

/** Width of `text` whose capitals are `height` mm high, mm; the last letter's side bearing included. */
export const textWidth = (text: string, height: number): number => [...text].length * height * ADVANCE;

/**
 * `text` in lines of at most `width` mm, broken at blanks; a word longer than a line is broken where it must be. A blank text gives no
 * line.
 */
export function wrap(text: string, width: number, height: number): string[] {
  const most = Math.max(1, Math.floor(width / (height * ADVANCE) + 1e-9));
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter((w) => w !== "")) {
    let rest = [...word];
    const joined = line === "" ? word : `${line} ${word}`;
    if ([...joined].length <= most) {
      line = joined;
      continue;
    }
    if (line !== "") lines.push(line);
    while (rest.length > most) {
      lines.push(rest.slice(0, most).join(""));
      rest = rest.slice(most);
    }
    line = rest.join("");
  }
  if (line !== "") lines.push(line);
  return lines;
}
