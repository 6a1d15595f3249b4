import type { BoardRecord, Photograph, Span } from "../../document/board.ts";
import { withBoard } from "../../document/edit-boards.ts";
import { commit, type Step } from "../design-store.ts";
import type { Workbench } from "../workbench.ts";

const change = (bench: Workbench, part: string, step: Step, to: (board: BoardRecord) => BoardRecord): void =>
  commit(bench.design, withBoard(bench.design.getState().design, part, to), step);

/** Lays a photograph under a part's board in place of the one before; undefined takes it away. */
export const setPhotograph = (bench: Workbench, part: string, photograph: Photograph | undefined): void =>
  change(bench, part, { label: photograph ? "photograph" : "photograph taken away" }, (board) => {
    const { photograph: _, ...others } = board;
    return photograph ? { ...others, photograph } : others;
  });

/** Changes what is said of a part's photograph, if it has one. Edits with the same gesture are one step of undo. */
export const editPhotograph = (
  bench: Workbench,
  part: string,
  given: { readonly [K in keyof Photograph]?: Photograph[K] | undefined },
  gesture?: string,
): void =>
  change(bench, part, { label: "photograph", ...(gesture === undefined ? {} : { gesture }) }, (board) => {
    if (!board.photograph) return board;
    const entries = Object.entries({ ...board.photograph, ...given }).filter(([, value]) => value !== undefined);
    return { ...board, photograph: Object.fromEntries(entries) as unknown as Photograph };
  });

/** Keeps a dimension on a part's board. */
export const keepSpan = (bench: Workbench, part: string, span: Span): void =>
  change(bench, part, { label: "dimension" }, ({ spans = [], ...board }) => ({ ...board, spans: [...spans, span] }));

export const dropSpan = (bench: Workbench, part: string, index: number): void =>
  change(bench, part, { label: "dimension taken away" }, ({ spans = [], ...board }) => ({
    ...board,
    spans: spans.filter((_, i) => i !== index),
  }));
