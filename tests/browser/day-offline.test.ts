/** The app as a whole: nothing from any other host, all of it without a network after the first load, exchanged only when its maker says so. */
import { createServer, type Server } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, resolve } from "node:path";
import type { AddressInfo } from "node:net";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";
import { goTo, savedBy, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const PLACES = ["order", "numbers", "parts/fingerboard", "fit", "sheets", "first", "help/sheets"];

/** Waits until the worker has taken the whole app in and this page over. */
const wholeApp = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    const [name = ""] = await caches.keys();
    return (await (await caches.open(name)).keys()).length;
  });

async function listening(server: Server): Promise<string> {
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
}

describe("the content policy", () => {
  it("lets the page ask no other host, whatever a script would try", async () => {
    const asked: string[] = [];
    const stranger = createServer((request, response) => {
      asked.push(request.url ?? "");
      response.writeHead(200, { "access-control-allow-origin": "*" }).end("x");
    });
    const other = await listening(stranger);
    const here = await visit(browser, inject("address"), { serviceWorkers: "block" });
    const refused = await here.page.evaluate(async (host) => {
      const told: string[] = [];
      document.addEventListener("securitypolicyviolation", (event) => told.push(event.effectiveDirective));
      await fetch(`${host}fetch`).catch(() => undefined);
      const image = new Image();
      image.src = `${host}image`;
      const script = document.createElement("script");
      script.src = `${host}script`;
      const frame = document.createElement("iframe");
      frame.src = `${host}frame`;
      const style = document.createElement("style");
      style.textContent = `@import "${host}style";`;
      document.body.append(image, script, frame, style);
      navigator.sendBeacon(`${host}beacon`);
      await new Promise((done) => setTimeout(done, 500));
      return told;
    }, other);
    expect(asked).toEqual([]);
    expect(new Set(refused)).toEqual(new Set(["connect-src", "img-src", "script-src-elem", "frame-src", "style-src-elem"]));
    await here.close();
    stranger.close();
  });

  it("is kept by every place, the files and the printing: nothing is refused, nobody else is asked", async () => {
    const here = await visit(browser, inject("address"), { serviceWorkers: "block" });
    for (const place of PLACES) await goTo(here.page, place);
    await goTo(here.page, "sheets");
    await savedBy(here.page, () => here.page.getByRole("button", { name: "Save PDF" }).click());
    expect(here.complaints).toEqual([]);
    expect(here.strangers).toEqual([]);
    await here.close();
  });
});

describe("without a network, after the first load", () => {
  it("every place opens, and sheets and report are printed", async () => {
    const here = await visit(browser, inject("address"));
    expect(await wholeApp(here.page)).toBeGreaterThan(30);
    const context: BrowserContext = here.page.context();
    await context.setOffline(true);
    const page = await context.newPage();
    const faults: string[] = [];
    page.on("pageerror", (error) => faults.push(error.message));
    await page.goto(inject("address"));
    for (const place of PLACES) await goTo(page, place);
    const picture = page.locator(".helps-picture");
    await expect.poll(() => picture.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(300);
    await goTo(page, "sheets");
    const sheets = await savedBy(page, () => page.getByRole("button", { name: "Save PDF" }).click());
    await goTo(page, "order");
    const report = await savedBy(page, () => page.getByRole("button", { name: "Save the report" }).click());
    for (const { bytes } of [sheets, report]) expect(Buffer.from(bytes.subarray(0, 5)).toString()).toBe("%PDF-");
    expect(faults).toEqual([]);
    await here.close();
  });

  it("the faces for lettering are there", async () => {
    const here = await visit(browser, inject("address"));
    await wholeApp(here.page);
    await here.page.context().setOffline(true);
    const sizes = await here.page.evaluate(() =>
      Promise.all(
        ["faces/cinzel-latin-600-normal.woff", "fonts/atkinson-hyperlegible-mono-latin-600-normal.woff"].map(async (file) => {
          const answer = await fetch(new URL(file, document.baseURI));
          return (await answer.arrayBuffer()).byteLength;
        }),
      ),
    );
    for (const size of sizes) expect(size).toBeGreaterThan(5000);
    await here.close();
  });
});

describe("the app", () => {
  it("can be installed: the browser finds nothing wrong with it", async () => {
    const here = await visit(browser, inject("address"));
    await wholeApp(here.page);
    const cdp = await here.page.context().newCDPSession(here.page);
    const { errors, data } = (await cdp.send("Page.getAppManifest")) as { errors: unknown[]; data?: string };
    expect(errors).toEqual([]);
    const manifest = JSON.parse(data ?? "{}") as { icons: { src: string; sizes: string; type: string }[] };
    for (const { src, sizes, type } of manifest.icons.filter((icon) => icon.type === "image/png")) {
      const size = await here.page.evaluate(async (file) => {
        const image = new Image();
        image.src = file;
        await image.decode();
        return `${image.naturalWidth}x${image.naturalHeight}`;
      }, src);
      expect({ src, size, type }).toEqual({ src, size: sizes, type: "image/png" });
    }
    const { installabilityErrors } = (await cdp.send("Page.getInstallabilityErrors")) as {
      installabilityErrors: { errorId: string }[];
    };
    // A private window, as every test has, can install nothing; that is the only thing in the way.
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== "in-incognito")).toEqual([]);
    await here.close();
  });

  it("tells of a newer one, takes it when it is told to, and loses nothing", async () => {
    const dist = resolve(import.meta.dirname, "../../dist");
    const types: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css" };
    let newer = false;
    const server = createServer((request, response) => {
      const path = new URL(request.url ?? "/", "http://x").pathname;
      const file = join(dist, path === "/" ? "index.html" : path);
      readFile(file).then(
        (bytes) => {
          const text = newer && path.endsWith("service-worker.js");
          response
            .writeHead(200, { "content-type": types[extname(file)] ?? "application/octet-stream" })
            .end(text ? bytes.toString().replace(/"version":"[^"]*"/, '"version":"newer"') : bytes);
        },
        () => response.writeHead(404).end(),
      );
    });
    const address = await listening(server);
    const here = await visit(browser, address);
    const { page } = here;
    await wholeApp(page);
    await goTo(page, "numbers");
    const scale = page.getByRole("textbox", { name: "Scale", exact: true }).first();
    newer = true;
    await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
    await page.getByText("A newer Gramil is ready.").waitFor();
    await scale.fill("24.75");
    await scale.press("Enter");
    const loaded = page.waitForEvent("load");
    await page.getByRole("button", { name: "Use it now" }).click();
    await loaded;
    await expect.poll(() => scale.inputValue()).toBe("24.75");
    await expect.poll(() => page.evaluate(() => caches.keys())).toEqual(["gramil-app-newer"]);
    await here.close();
    server.close();
  });
});
