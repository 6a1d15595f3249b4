import { useMemo, useState } from "react";
import type { Span, SpanEnd } from "../../../document/board.ts";
import type { Drawing } from "../../../drawing/drawing.ts";
import type { Vec } from "../../../geometry/vec.ts";
import { endAt, measureSpan, placeOfEnd, shapesOf, type Measured, type Shapes } from "./spans.ts";

export interface Dividers {
  readonly shapes: Shapes;
  readonly ends: readonly SpanEnd[];
  /** What is measured now. */
  readonly span: Span | undefined;
  readonly measured: Measured | undefined;
  /** Where a leg would come to stand under the pointer. */
  readonly hover: Vec | undefined;
  readonly press: (at: Vec, pxPerMm: number) => void;
  readonly over: (at: Vec | undefined, pxPerMm: number) => void;
  readonly setEnd: (index: 0 | 1, end: SpanEnd) => void;
  /** Ids of two lines, for the shortest way between them. */
  readonly between: readonly [string, string] | undefined;
  readonly setBetween: (ids: readonly [string, string] | undefined) => void;
  readonly clear: () => void;
}

const REACH_PX = 10;

export function useDividers(drawing: Drawing): Dividers {
  const [ends, setEnds] = useState<readonly SpanEnd[]>([]);
  const [between, setBetween] = useState<readonly [string, string]>();
  const [hover, setHover] = useState<Vec>();
  const shapes = useMemo(() => shapesOf(drawing), [drawing]);
  const [from, to] = ends;
  const span = useMemo<Span | undefined>(
    () => (between ? { between } : from && to ? { from, to } : undefined),
    [between, from, to],
  );
  const measured = useMemo(() => span && measureSpan(span, shapes), [span, shapes]);
  return {
    shapes,
    ends,
    span,
    measured,
    hover,
    press: (at, pxPerMm) => {
      const end = endAt(shapes, at, REACH_PX / pxPerMm);
      setBetween(undefined);
      setEnds((old) => (old.length === 1 ? [...old, end] : [end]));
    },
    over: (at, pxPerMm) => setHover(at && placeOfEnd(endAt(shapes, at, REACH_PX / pxPerMm), shapes)),
    setEnd: (index, end) => {
      setBetween(undefined);
      setEnds((old) => (index === 0 ? [end, ...old.slice(1)] : [old[0] ?? end, end]));
    },
    between,
    setBetween: (ids) => {
      setEnds([]);
      setBetween(ids);
    },
    clear: () => {
      setEnds([]);
      setBetween(undefined);
    },
  };
}
