import type { BoardRecord } from "./board.ts";
import type { Design } from "./design.ts";

/** The design with what lies on a part's board changed; a board with nothing on it is left out. */
export function withBoard(design: Design, partId: string, change: (board: BoardRecord) => BoardRecord): Design {
  const { photograph, spans, ...others } = change(design.boards?.[partId] ?? {});
  const board: BoardRecord = {
    ...others,
    ...(photograph ? { photograph } : {}),
    ...(spans && spans.length > 0 ? { spans } : {}),
  };
  return withBoards(design, { ...design.boards, [partId]: board });
}

/** The design with a part's board under another id; undefined: without it. */
export function movedBoard(design: Design, from: string, to: string | undefined): Design {
  const board = design.boards?.[from];
  if (!board) return design;
  const { [from]: _, ...others } = design.boards ?? {};
  return withBoards(design, to === undefined ? others : { ...others, [to]: board });
}

function withBoards(design: Design, boards: NonNullable<Design["boards"]>): Design {
  const { boards: _, ...others } = design;
  const kept = Object.entries(boards).filter(([, board]) => Object.keys(board).length > 0);
  return kept.length > 0 ? { ...others, boards: Object.fromEntries(kept) } : others;
}
