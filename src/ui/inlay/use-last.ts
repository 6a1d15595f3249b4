/** What was found last, for as long as something newer is being worked out. */
import { useEffect, useState } from "react";
import type { DerivedPart } from "../../parts/derived.ts";
import type { InlayMeasures } from "./verdict.ts";

/** Whether not everything of a part is worked out yet. Only an inlay is worked out beside the page. */
export const isBusy = (part: DerivedPart): boolean =>
  part.kind === "inlay" && part.problems.length === 0 && (part.measures as InlayMeasures | undefined)?.state !== "final";

/** The value as it was when it last held for `key`, else as it is: what is in sight stays there while a number is dragged. */
export function useLast<T>(key: string, value: T, holds: boolean): T {
  const [last, setLast] = useState(holds ? { key, value } : undefined);
  // State that follows what is drawn, set while drawing, so that no picture without it is seen.
  if (holds && (last?.key !== key || last.value !== value)) setLast({ key, value });
  return holds || last?.key !== key ? value : last.value;
}

/** Shorter work is not spoken of, ms. */
const SPOKEN_OF_MS = 500;

/** Whole seconds since this was first drawn, once that is worth a word; undefined before. */
export function useLongSeconds(): number | undefined {
  const [seconds, setSeconds] = useState<number>();
  useEffect(() => {
    const began = performance.now();
    const tell = (): void => setSeconds(Math.floor((performance.now() - began) / 1000));
    const first = setTimeout(tell, SPOKEN_OF_MS);
    const ticking = setInterval(tell, 1000);
    return () => {
      clearTimeout(first);
      clearInterval(ticking);
    };
  }, []);
  return seconds;
}
