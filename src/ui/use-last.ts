/** What was found last, for as long as something newer is being worked out. */
import { useState } from "react";

/** The value as it was when it last held for `key`, else as it is: what is in sight stays there while a number is dragged. */
export function useLast<T>(key: string, value: T, holds: boolean): T {
  const [last, setLast] = useState(holds ? { key, value } : undefined);
  // State that follows what is drawn, set while drawing, so that no picture without it is seen.
  if (holds && (last?.key !== key || last.value !== value)) setLast({ key, value });
  return holds || last?.key !== key ? value : last.value;
}
