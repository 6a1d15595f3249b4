/**
 * How the built product starts, in a real Chromium with nothing kept: what is sent, compressed, until the live example stands and can be worked
 * with, and how long that takes on two cores. Beside the figures stand the budgets; a figure over its budget ends with exit code 1. Run by
 * `npm run bench`.
 */
import { createServer, type ServerResponse } from "node:http";
import { readFileSync, readdirSync } from "node:fs";
import { extname, join, resolve } from "node:path";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { openChromium } from "../browser/chromium.ts";
import { firstPicture } from "../browser/first-picture.ts";

const RUNS = 9;
/** All script without which the live example does not stand or cannot be worked with, kB compressed. */
const FIRST_SCRIPT_KB = 300;
/** From the request to the live example with its drawing, on two cores, nothing kept, ms. */
const START_MS = 1500;

const dist = resolve(import.meta.dirname, "../../dist");
const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json",
};

/** Every file as a plain host sends it: compressed where that helps, once for all runs. */
const packed = new Map<string, { readonly type: string; readonly gzip: Buffer | undefined; readonly plain: Buffer }>();
for (const entry of readdirSync(dist, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile()) continue;
  const file = join(entry.parentPath, entry.name);
  const plain = readFileSync(file);
  const type = TYPES[extname(file)];
  const path = file.slice(dist.length).replaceAll("\\", "/");
  packed.set(path, {
    type: type ?? "application/octet-stream",
    gzip: type ? gzipSync(plain, { level: 9 }) : undefined,
    plain,
  });
}

let asked: string[] = [];
function send(path: string, response: ServerResponse): void {
  const file = packed.get(path === "/" ? "/index.html" : path);
  asked.push(path);
  if (!file) return void response.writeHead(404).end();
  response
    .writeHead(200, { "content-type": file.type, ...(file.gzip ? { "content-encoding": "gzip" } : {}) })
    .end(file.gzip ?? file.plain);
}

const server = createServer((request, response) => send(new URL(request.url ?? "/", "http://x").pathname, response));
await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
const { port } = server.address() as { port: number };
const address = `http://127.0.0.1:${port}/`;

interface Run {
  /** First words or lines on screen. */
  readonly paint: number;
  /** The example stands, its drawing too. */
  readonly live: number;
  /** A number typed at that moment is on the drawing. */
  readonly followed: number;
}

/**
 * Marks the moment at which the drawing has stood for one picture: its numbers are on it then. At once a number is typed as by a keyboard, and the
 * moment marked at which the drawing says it.
 */
const MARK_LIVE = `(function look() {
  if (!document.querySelector(".board-dimension")) return requestAnimationFrame(look);
  requestAnimationFrame(() => {
    performance.mark("live");
    const field = [...document.querySelectorAll(".row")].find((row) => row.textContent.startsWith("Beyond the last fret")).querySelector("input");
    field.focus();
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set.call(field, "20 mm");
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
    (function follow() {
      if (![...document.querySelectorAll(".board-dimension")].some((one) => one.textContent.includes("0.787"))) return requestAnimationFrame(follow);
      requestAnimationFrame(() => performance.mark("followed"));
    })();
  });
})()`;

const browser = await openChromium();
const runs: Run[] = [];
let files: readonly string[] = [];
let needed: readonly string[] = [];
try {
  const first = await firstPicture(browser, address, "held");
  needed = [...first.came];
  await first.close();
  for (let i = 0; i < RUNS; i++) {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: "block" });
    const page = await context.newPage();
    asked = [];
    await page.addInitScript(MARK_LIVE);
    await page.goto(address);
    await page.waitForFunction(() => performance.getEntriesByName("followed").length > 0);
    await page.waitForLoadState("networkidle");
    files = [...asked];
    runs.push(
      await page.evaluate(() => ({
        paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0,
        live: performance.getEntriesByName("live")[0]!.startTime,
        followed: performance.getEntriesByName("followed")[0]!.startTime,
      })),
    );
    await context.close();
  }
} finally {
  await browser.close();
  server.close();
}

const kb = (bytes: number): number => Math.round(bytes / 100) / 10;
const sum = (paths: Iterable<string>, size: (plain: Buffer) => number): number => {
  let total = 0;
  for (const path of paths) total += size(packed.get(path === "/" ? "/index.html" : path)?.plain ?? Buffer.alloc(0));
  return kb(total);
};
const gzip = (plain: Buffer): number => gzipSync(plain, { level: 9 }).length;
const brotli = (plain: Buffer): number => brotliCompressSync(plain).length;

const isScript = (path: string): boolean => path.endsWith(".js");
const html = packed.get("/index.html")!.plain.toString();
const entry = new Set([...html.matchAll(/src="\.(\/assets\/[^"]+\.js)"/g)].map(([, path]) => path!));
const first = new Set(needed);
const seen = new Set(files.filter((path) => !isScript(path) || first.has(path)));
const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
const live = median(runs.map((run) => run.live));
const firstKb = sum(first, gzip);

const row = (paths: Iterable<string>) => ({ "gzip kB": sum(paths, gzip), "brotli kB": sum(paths, brotli) });
console.table({
  "script named in the page": row(entry),
  "all script until the example can be worked with": { ...row(first), budget: FIRST_SCRIPT_KB },
  "fetched by itself just after": row(new Set(files.filter((path) => isScript(path) && !first.has(path)))),
  "page, script, styles and faces of the first picture": row(seen),
  "all script there is": row([...packed.keys()].filter(isScript)),
});
console.table({
  "first words or lines, ms": { median: Math.round(median(runs.map((run) => run.paint))) },
  "live example, ms": {
    median: Math.round(live),
    worst: Math.round(Math.max(...runs.map((run) => run.live))),
    budget: START_MS,
  },
  "a number typed then is followed, ms": { median: Math.round(median(runs.map((run) => run.followed))) },
});
if (firstKb > FIRST_SCRIPT_KB || live > START_MS) {
  console.error("over its budget");
  process.exitCode = 1;
}
