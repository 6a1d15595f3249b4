/** Follows a page of the help in the running app, step by step, as its reader would. */
import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import type { Page } from "playwright-core";
import type { Deed, Topic } from "../../src/ui/help/topics.ts";
import { goTo } from "./visit.ts";

const EXAMPLE = "showpiece-tenor-guitar.json";

/** Drops a file on the page, as from a file manager. */
export async function drop(page: Page, name: string, text: string): Promise<void> {
  const data = await page.evaluateHandle(
    ([file, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content!], file!));
      return transfer;
    },
    [name, text],
  );
  for (const event of ["dragenter", "dragover", "drop"]) await page.dispatchEvent("main", event, { dataTransfer: data });
}

/** Puts the example that the pictures show on the bench. */
export async function openExample(page: Page): Promise<void> {
  await drop(page, EXAMPLE, await readFile(resolve(import.meta.dirname, "../../examples", EXAMPLE), "utf8"));
  await page.getByText(`${EXAMPLE} is open`).waitFor();
  await page.getByRole("button", { name: "Close this note" }).first().click();
  await page.locator(".tell").first().waitFor({ state: "detached" });
}

/** Does what a step says. Fails where a name is not on the screen, so that the help cannot differ from it. */
export async function follow(page: Page, deed: Deed): Promise<void> {
  if ("go" in deed) {
    await goTo(page, deed.go);
    // Sheets come a moment after their place.
    return page.getByText("Laying out the sheets").waitFor({ state: "detached", timeout: 120_000 });
  }
  if ("type" in deed) {
    const field = page.getByRole("textbox", { name: deed.into, exact: true }).first();
    await field.fill(deed.type);
    await field.press("Enter");
    return;
  }
  if ("choose" in deed) {
    await page.getByRole("combobox", { name: deed.under, exact: true }).first().click();
    return page.getByRole("option", { name: deed.choose }).first().click();
  }
  if ("press" in deed)
    return page
      .getByRole(deed.as ?? "button", { name: deed.press })
      .first()
      .click();
  await page.getByText(deed.see).first().waitFor();
}

/** Follows a whole page of the help, and does something after one of its steps. */
export async function followTopic(page: Page, topic: Topic, atPicture: () => Promise<void>): Promise<void> {
  for (const [i, { does = [] }] of topic.steps.entries()) {
    for (const deed of does) await follow(page, deed);
    if (i === topic.picture.after) await atPicture();
  }
}
