/**
 * Takes the pictures that the README and the help show, from the built product itself: `npm run pictures`. Sizes and theme are fixed, so that
 * a picture changes only when the product does.
 */
import { mkdir, readFile } from "node:fs/promises";
import { resolve } from "node:path";
import type { Page } from "playwright-core";
import { preview } from "vite";
import { openChromium } from "./chromium.ts";

const root = resolve(import.meta.dirname, "../..");
const folder = resolve(root, "public/help");

const PICTURES: readonly { readonly name: string; readonly route: string; readonly ready: string }[] = [
  { name: "parts", route: "#/parts/fingerboard", ready: ".board-dimension" },
  { name: "sheets", route: "#/sheets", ready: ".sheets-page, .sheet-svg, svg" },
];

async function drop(page: Page, name: string, text: string): Promise<void> {
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

const server = await preview({
  configFile: resolve(root, "vite.config.ts"),
  preview: { host: "127.0.0.1", port: 0 },
  logLevel: "warn",
});
const address = server.resolvedUrls!.local[0]!;
const browser = await openChromium();
try {
  await mkdir(folder, { recursive: true });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme: "light", reducedMotion: "reduce" });
  await page.goto(address);
  await drop(page, "showpiece-tenor-guitar.json", await readFile(resolve(root, "examples/showpiece-tenor-guitar.json"), "utf8"));
  await page.getByText("showpiece-tenor-guitar.json is open").waitFor();
  await page.waitForTimeout(7000);
  for (const { name, route, ready } of PICTURES) {
    await page.goto(`${address}${route}`);
    await page.locator(ready).first().waitFor();
    await page.waitForTimeout(2500);
    await page.screenshot({ path: resolve(folder, `${name}.png`) });
  }
} finally {
  await browser.close();
  await server.close();
}
