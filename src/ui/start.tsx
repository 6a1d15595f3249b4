/** Opens the product: what this browser kept, the workbench, and the first picture. */
import { createRoot } from "react-dom/client";
import type { DesignStorage } from "../document/storage.ts";
import { startAutosave } from "../store/autosave.ts";
import { openDesign } from "../store/commands/open-design.ts";
import { openDialog, setTheme, type Theme } from "../store/session-store.ts";
import { createBeside } from "../store/beside.ts";
import { createWorkbench, type Workbench } from "../store/workbench.ts";
import { App } from "./app.tsx";
import { BenchProvider } from "./bench.ts";
import { tellTrouble } from "./files.ts";
import { keepSingleKeys, SINGLE_KEYS } from "./frame/single-keys.ts";
import { askBeforeLeaving, keepWholeApp } from "./frame/whole-app.ts";
import { THEME } from "./look/theme.ts";
import { onFailure } from "./later.ts";
import { wearTheme } from "./look/wear-theme.ts";
import { keepPaperSettings, PAPER_SETTINGS } from "./sheets/paper-settings.ts";
import { keepScreens, SCREENS_SETTING } from "./screen-scale.ts";
import { keepPrinters, PRINTERS_SETTING } from "./sheets/printers.ts";

/** What this browser keeps: nothing where it does not allow it. */
export interface Kept {
  readonly storage: DesignStorage | undefined;
  readonly settings: Readonly<Record<string, unknown>>;
}

/** Starts the product inside `root`. On a first visit that is a live example; afterwards the design that was worked on last. */
export async function start(root: HTMLElement, { storage, settings }: Kept): Promise<void> {
  const bench = createWorkbench({ storage, beside: createBeside({ onFailure }), besideOthers: createBeside({ onFailure }) });
  takeSettings(bench, { storage, settings });
  wearTheme(bench.session);
  await openLast(bench);
  startAutosave(bench, { page: window });
  askBeforeLeaving(bench);
  createRoot(root).render(
    <BenchProvider value={bench}>
      <App />
    </BenchProvider>,
  );
  if (import.meta.env.PROD) whenIdle(() => void keepWholeApp(bench));
}

/** Runs what can wait until the first picture stands. */
function whenIdle(work: () => void): void {
  const wait = (): void => void setTimeout(work, 1500);
  if (document.readyState === "complete") wait();
  else addEventListener("load", wait, { once: true });
}

function takeSettings(bench: Workbench, { storage, settings: kept }: Kept): void {
  const keep = (name: string, value: unknown): void => void storage?.setSetting(name, value);
  keepSingleKeys(kept[SINGLE_KEYS], keep);
  keepPaperSettings(kept[PAPER_SETTINGS], keep);
  keepScreens(kept[SCREENS_SETTING], keep);
  keepPrinters(kept[PRINTERS_SETTING], keep);
  const theme = kept[THEME];
  if (theme === "paper" || theme === "slate") setTheme(bench.session, theme satisfies Theme);
  bench.session.subscribe((now, before) => {
    if (now.theme !== before.theme) keep(THEME, now.theme);
  });
}

/** Puts the design that was saved last on the bench, if there is one. */
async function openLast(bench: Workbench): Promise<void> {
  const list = await bench.storage?.list();
  const last = list?.ok ? list.value[0] : undefined;
  if (!last) return;
  const result = await openDesign(bench, last.id);
  if (!result.ok) tellTrouble(`${last.title || "The last design"} was not opened`, result.error);
  else if (result.value.length > 0)
    openDialog(bench.session, { kind: "repairs", name: last.title || "The design", repairs: result.value });
}
