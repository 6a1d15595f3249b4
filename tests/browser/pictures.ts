/**
 * Takes the pictures that the README and the help show, and draws the app's icons, from the product itself: `npm run pictures`. Every page
 * of the help is followed step by step; a step that cannot be done ends the script. Sizes, theme and day are fixed, so that a picture
 * changes only when the product does. `npm run pictures -- inlay` follows and takes only the pages of the ids given.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { resolve } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import { preview } from "vite";
import { TOPICS } from "../../src/ui/help/topics.ts";
import { openChromium } from "./chromium.ts";
import { followTopic, openExample } from "./follow-help.ts";

const root = resolve(import.meta.dirname, "../..");
const folder = resolve(root, "public/help");
const SIZE = { width: 1200, height: 750 };
const DAY = new Date("2025-06-03T12:00:00");

const ids = process.argv.slice(2);
const stray = ids.find((id) => !TOPICS.some((topic) => topic.id === id));
if (stray !== undefined) throw new Error(`The help has no page “${stray}”.`);

const server = await preview({
  configFile: resolve(root, "vite.config.ts"),
  preview: { host: "127.0.0.1", port: 0 },
  logLevel: "warn",
});
const address = server.resolvedUrls!.local[0]!;
const browser = await openChromium();
try {
  await mkdir(folder, { recursive: true });
  for (const topic of TOPICS.filter(({ id }) => ids.length === 0 || ids.includes(id))) {
    const context = await browser.newContext({
      viewport: SIZE,
      colorScheme: "light",
      reducedMotion: "reduce",
      locale: "en-GB",
      serviceWorkers: "block",
    });
    const page = await context.newPage();
    await page.clock.setFixedTime(DAY);
    await page.goto(address);
    await page.locator(".strip").waitFor();
    if (topic.place !== "first") await openExample(page);
    await followTopic(page, topic, async () => {
      // Pictures of parts come a moment after their place, and the board takes its room when they have.
      await page.locator(".busy").waitFor({ state: "detached" });
      await new Promise((done) => setTimeout(done, 2500));
      const { of } = topic.picture;
      await (of === undefined ? page : page.locator(of)).screenshot({ path: resolve(folder, `${topic.id}.png`) });
    });
    await context.close();
  }
} finally {
  await browser.close();
  await server.close();
}

const icon = readFileSync(resolve(root, "public/icon.svg"), "utf8");
const square = icon.replace('rx="12" ', "");
/** The mark within the middle four fifths, which no mask of a system cuts into (W3C, Web Application Manifest, 1.10). */
const maskable = square
  .replace('viewBox="0 0 64 64"', 'viewBox="-10 -10 84 84"')
  .replace('<rect width="64" height="64"', '<rect x="-10" y="-10" width="84" height="84"');
for (const [name, svg, width] of [
  ["icon-180", square, 180],
  ["icon-192", icon, 192],
  ["icon-512", icon, 512],
  ["icon-512-maskable", maskable, 512],
] as const)
  writeFileSync(
    resolve(root, "public/icons", `${name}.png`),
    new Resvg(svg, { fitTo: { mode: "width", value: width } }).render().asPng(),
  );
