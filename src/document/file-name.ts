/** What a design's file is called: its instrument number and title, "27-tenor-guitar.json". */
export function fileNameOf({ number = "", title = "" }: { readonly number?: string; readonly title?: string }): string {
  const words = `${number} ${title}`
    .normalize("NFC")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "");
  return `${words === "" ? "design" : words.slice(0, 80)}.json`;
}
