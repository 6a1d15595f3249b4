/** The colours and faces of the board, as the look gives them. */
export interface Colours {
  readonly board: string;
  readonly sheet: string;
  readonly ink: string;
  readonly soft: string;
  readonly rule: string;
  readonly edge: string;
  readonly pen: string;
  readonly wash: string;
  readonly wood: string;
  readonly inlay: string;
  readonly waste: string;
  readonly lost: string;
  readonly added: string;
  readonly addedWash: string;
  /** Families, for words and for numbers. */
  readonly words: string;
  readonly numbers: string;
}

/** Reads them from the style sheet. The only place where the canvas gets a colour from. */
export function readColours(): Colours {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  return {
    board: of("board"),
    sheet: of("sheet"),
    ink: of("ink"),
    soft: of("soft"),
    rule: of("rule"),
    edge: of("edge"),
    pen: of("pen"),
    wash: of("wash"),
    wood: of("wood"),
    inlay: of("wood-inlay"),
    waste: of("waste"),
    lost: of("stop"),
    added: of("look"),
    addedWash: of("look-wash"),
    words: of("words"),
    numbers: of("numbers"),
  };
}
