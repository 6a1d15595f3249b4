/** What an auditor finds wrong with a page for those who see, hear or move otherwise. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

/** WCAG 2.2 up to level AA and the auditor's own good practice. */
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

interface Found {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}

/** Of the page, and of what lies on top of it where that is open. */
export async function violations(page: Page, onTop = false): Promise<string[]> {
  // A colour half way from one state to the next is none that anybody reads.
  await page.emulateMedia({ reducedMotion: "reduce" });
  await page.evaluate(() => Promise.allSettled(document.getAnimations().map(({ finished }) => finished)));
  await page.evaluate(await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
  // The kit's guards send the focus back into what is open and never keep it; what lies on top is no region of the page.
  const exceptions = onTop
    ? { exclude: [["[data-base-ui-focus-guard]"]], rules: { region: { enabled: false } } }
    : { exclude: [], rules: {} };
  const found = await page.evaluate(
    ({ runOnly, exclude, rules }) => {
      const auditor = (globalThis as unknown as { axe: { run: (root: object, options: object) => Promise<Found> } }).axe;
      return auditor.run({ include: [["html"]], exclude }, { runOnly, rules });
    },
    { runOnly: RULES, ...exceptions },
  );
  return found.violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 200)}`));
}
