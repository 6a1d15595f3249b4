/** A visit to the product in a fresh browser profile. */
import type { Browser, BrowserContextOptions, FileChooser, Page } from "playwright-core";

export interface Visit {
  readonly page: Page;
  /** What the page complained about: errors on the console and faults. */
  readonly complaints: readonly string[];
  /** Addresses asked for outside of the product's own. */
  readonly strangers: readonly string[];
  readonly close: () => Promise<void>;
}

/**
 * Opens the product as somebody who was never here. Files are saved as downloads, since no one answers a file dialog here. `before`: what is done
 * to the page before it goes there.
 */
export async function visit(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
  before?: (page: Page) => Promise<unknown>,
): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true, ...options });
  await context.addInitScript("delete window.showSaveFilePicker; delete window.showOpenFilePicker;");
  const page = await context.newPage();
  const complaints: string[] = [];
  const strangers: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (/^https?:$/.test(url.protocol) && url.origin !== new URL(address).origin) strangers.push(request.url());
  });
  // Files are asked for here from the start: a press can overtake the word that its file dialog is to be taken over.
  page.on("filechooser", () => undefined);
  await before?.(page);
  await page.goto(address);
  await page.locator(".strip").waitFor();
  return { page, complaints, strangers, close: () => context.close() };
}

/** Goes to a place by its address and waits until it stands. */
export async function goTo(page: Page, place: string): Promise<void> {
  await page.evaluate((hash) => {
    location.hash = hash;
  }, `#/${place}`);
  await page.locator("main h1").first().waitFor();
  await page.locator(".busy").waitFor({ state: "detached" });
}

/** The bytes of what `act` saves. */
export async function savedBy(
  page: Page,
  act: () => Promise<void>,
): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
  const [download] = await Promise.all([page.waitForEvent("download"), act()]);
  const chunks: Buffer[] = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer);
  return { name: download.suggestedFilename(), bytes: new Uint8Array(Buffer.concat(chunks)) };
}

type Chosen = Parameters<FileChooser["setFiles"]>[0];

/** Opens a file by the key for it. */
export async function openFile(page: Page, file: Chosen): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
  await chooser.setFiles(file);
}
