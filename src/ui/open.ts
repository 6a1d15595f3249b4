/**
 * What is done before the app itself has come: the browser is asked for what it keeps, and the paper of last time is put on, so that the
 * window never shows the wrong one. The app's own scripts come meanwhile.
 */
import { openStorage } from "../document/storage.ts";
import { putOn, THEME } from "./look/theme.ts";
import "./look/fonts.css";
import "./look/tokens.css";
import "./look/base.css";

export async function open(root: HTMLElement): Promise<void> {
  const coming = import("./start.tsx");
  coming.catch(() => {
    root.textContent = "Gramil did not come whole. Load the page anew.";
  });
  const opened = await openStorage();
  const storage = opened.ok ? opened.value : undefined;
  const found = await storage?.settings();
  const settings = found?.ok ? found.value : {};
  putOn(settings[THEME]);
  const { start } = await coming;
  await start(root, { storage, settings });
}
