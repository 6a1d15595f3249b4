/**
 * How the built product starts, in a real Chromium with nothing kept: what is sent, compressed, until the live example stands, and how long
 * that takes on two cores. Beside the figures stand the budgets; a figure over its budget ends with exit code 1. Run by `npm run bench`.
 */
import { createServer, type ServerResponse } from "node:http";
import { readFileSync, readdirSync } from "node:fs";
import { extname, join, resolve } from "node:path";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { openChromium } from "../browser/chromium.ts";

const RUNS = 9;
/** The page's own script and all that it imports before it runs, kB compressed. */
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
}

/** Marks the moment at which the drawing has stood for one picture: its numbers are on it then. */
const MARK_LIVE = `(function look() {
  if (!document.querySelector(".board-dimension")) return requestAnimationFrame(look);
  requestAnimationFrame(() => performance.mark("live"));
})()`;

const browser = await openChromium();
const runs: Run[] = [];
let files: readonly string[] = [];
try {
  for (let i = 0; i < RUNS; i++) {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: "block" });
    const page = await context.newPage();
    asked = [];
    await page.addInitScript(MARK_LIVE);
    await page.goto(address);
    await page.locator(".board-dimension").first().waitFor();
    await page.evaluate(() => new Promise((done) => setTimeout(done, 100)));
    files = [...asked];
    runs.push(
      await page.evaluate(() => ({
        paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0,
        live: performance.getEntriesByName("live")[0]!.startTime,
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

const html = packed.get("/index.html")!.plain.toString();
const first = new Set([...html.matchAll(/(?:src|href)="\.(\/assets\/[^"]+\.js)"/g)].map(([, path]) => path!));
const scripts = new Set(files.filter((path) => path.endsWith(".js")));
const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
const live = median(runs.map((run) => run.live));
const firstKb = sum(first, gzip);

console.table({
  "first script": { "gzip kB": firstKb, "brotli kB": sum(first, brotli), budget: FIRST_SCRIPT_KB },
  "all scripts until the example stands": { "gzip kB": sum(scripts, gzip), "brotli kB": sum(scripts, brotli) },
  "everything until the example stands": { "gzip kB": sum(new Set(files), gzip), "brotli kB": sum(new Set(files), brotli) },
});
console.table({
  "first picture, ms": { median: Math.round(median(runs.map((run) => run.paint))) },
  "live example, ms": {
    median: Math.round(live),
    worst: Math.round(Math.max(...runs.map((run) => run.live))),
    budget: START_MS,
  },
});
if (firstKb > FIRST_SCRIPT_KB || live > START_MS) {
  console.error("over its budget");
  process.exitCode = 1;
}
