import { useEffect, useState } from "react";

/** Shorter work is not spoken of, ms. */
export const SPOKEN_OF_MS = 500;

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
