/** Words that several panels of the Sheets place say. */
export const sheetsSaid = (count: number): string => (count === 1 ? "1 sheet" : `${count} sheets`);

/** With a capital and a stop. */
export const sentence = (words: string): string =>
  words === "" ? "" : `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;
