import { tell } from "./kit/tell.tsx";

/** Puts a text on the clipboard and says so; says what to do where the browser does not allow it. */
export async function copyText(text: string, done: string): Promise<void> {
  try {
    await navigator.clipboard.writeText(text);
    tell({ title: done, kind: "fine" });
  } catch {
    tell({ title: "This browser does not let us copy.", more: "Select the text and copy it by hand.", kind: "stop" });
  }
}
