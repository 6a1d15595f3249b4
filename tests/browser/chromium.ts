/**
 * Opens a Chromium for the browser tests and the picture scripts.
 *
 * On Linux x64 it comes out of an installed package, so `npm ci` is all that is needed. Elsewhere, or by choice, an installed browser
 * is used: its path in GRAMIL_CHROME, or whatever Playwright finds as `chrome`, `msedge` or its own download.
 */
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, rename, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Browser } from "playwright-core";

/** Named after the pinned package version and what is added here, so that another one unpacks afresh. */
const UNPACKED = "gramil-chromium-147.0.0-with-fonts";

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--font-render-hinting=none",
];

const FONT_LIST = "gramil-fonts.conf";

/** The package's own list of fonts names folders that only a cloud service has; without any font the browser dies at the first input. */
const fontList = (home: string): string => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${join(home, "fonts", "fonts")}</dir>
  <dir>/usr/share/fonts</dir>
  <cachedir>${join(home, "fonts-cache")}</cachedir>
</fontconfig>
`;

/** Runs `work` with process.env.TMPDIR set, since the package unpacks wherever that points. */
async function withTmpdir<T>(dir: string, work: () => Promise<T>): Promise<T> {
  const before = process.env["TMPDIR"];
  process.env["TMPDIR"] = dir;
  try {
    return await work();
  } finally {
    if (before === undefined) delete process.env["TMPDIR"];
    else process.env["TMPDIR"] = before;
  }
}

/** The folder with the unpacked browser. Unpacked beside and renamed, so that two test runs at once never see half a browser. */
async function unpacked(): Promise<string> {
  const home = join(tmpdir(), UNPACKED);
  if (existsSync(join(home, "chromium"))) return home;
  await mkdir(tmpdir(), { recursive: true });
  const fresh = await mkdtemp(join(tmpdir(), `${UNPACKED}-`));
  await withTmpdir(fresh, async () => {
    // With this set the package also unpacks the NSS libraries that a bare Linux lacks.
    process.env["AWS_LAMBDA_JS_RUNTIME"] = "nodejs20.x";
    const { default: pack } = await import("@sparticuz/chromium");
    await pack.executablePath();
  });
  await writeFile(join(fresh, FONT_LIST), fontList(home));
  try {
    await rename(fresh, home);
  } catch {
    await rm(fresh, { recursive: true, force: true });
    if (!existsSync(join(home, "chromium"))) throw new Error(`no browser in ${home}: remove that folder and try again`);
  }
  return home;
}

async function installed(): Promise<Browser> {
  for (const channel of ["chrome", "msedge", undefined]) {
    try {
      return await chromium.launch({ headless: true, ...(channel ? { channel } : {}) });
    } catch {
      continue;
    }
  }
  throw new Error("no Chromium found: install Chrome, or set GRAMIL_CHROME to the path of one");
}

/** A headless Chromium; the caller closes it. Fails with what to do where no browser can be had. */
export async function openChromium(): Promise<Browser> {
  const chosen = process.env["GRAMIL_CHROME"];
  if (chosen) return chromium.launch({ executablePath: chosen, args: FLAGS, headless: true });
  if (process.platform !== "linux" || process.arch !== "x64") return installed();
  const home = await unpacked();
  return chromium.launch({
    executablePath: join(home, "chromium"),
    args: FLAGS,
    headless: true,
    env: {
      ...(process.env as Record<string, string>),
      LD_LIBRARY_PATH: [join(home, "al2023", "lib"), process.env["LD_LIBRARY_PATH"]].filter(Boolean).join(":"),
      FONTCONFIG_FILE: join(home, FONT_LIST),
    },
  });
}
