import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import react from "@vitejs/plugin-react";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";

/** What the built page may load and ask: its own files and nothing else. Photographs that the maker chooses come as blobs or data. */
const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "form-action 'none'",
  "base-uri 'none'",
].join("; ");

/** Puts into the page the content policy and what the first picture needs, so that it is fetched at once; and into the service worker the names of all files and a sign of what is in them. */
function offline(): Plugin {
  let folder = "";
  return {
    name: "gramil-offline",
    apply: "build",
    configResolved: ({ build, root }) => {
      folder = resolve(root, build.outDir);
    },
    transformIndexHtml: (_, { bundle = {} }) => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: CONTENT_POLICY },
        injectTo: "head-prepend",
      },
      ...Object.values(bundle)
        .filter((file) => file.type === "chunk" && file.name === FIRST)
        .map((file) => ({
          tag: "link",
          attrs: { rel: "modulepreload", crossorigin: true, href: `./${file.fileName}` },
          injectTo: "head" as const,
        })),
    ],
    writeBundle() {
      const worker = join(folder, WORKER);
      const files = readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name !== WORKER && !entry.name.startsWith("LICENSE"))
        .map((entry) => join(entry.parentPath, entry.name))
        .toSorted();
      const hash = createHash("sha256");
      for (const file of files) hash.update(readFileSync(file));
      const app = {
        version: hash.digest("hex").slice(0, 12),
        files: files.map((file) =>
          file
            .slice(folder.length + 1)
            .replaceAll("\\", "/")
            .replace(/^index\.html$/, "./"),
        ),
      };
      writeFileSync(worker, `const APP=${JSON.stringify(app)};\n${readFileSync(worker, "utf8")}`);
    },
  };
}
const WORKER = "service-worker.js";
const FIRST = "first";

export default defineConfig({
  root: "src",
  publicDir: "../public",
  base: "./",
  plugins: [react(), offline()],
  build: {
    outDir: "../dist",
    emptyOutDir: true,
    target: "es2022",
    sourcemap: false,
    rolldownOptions: {
      input: { index: "src/index.html", "service-worker": "src/service-worker.ts" },
      output: {
        entryFileNames: ({ name }) => (name === "service-worker" ? WORKER : "assets/[name]-[hash].js"),
        // What runs before the app has come is one file, and all that the first picture needs is another.
        codeSplitting: {
          groups: [
            { name: "open", test: /src\/ui\/open\.ts$/, priority: 2 },
            { name: FIRST, test: /src\/ui\/start\.tsx$/, priority: 1 },
          ],
        },
      },
    },
  },
  worker: { format: "es" },
  server: { host: "127.0.0.1" },
  preview: { host: "127.0.0.1" },
  test: {
    root: ".",
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          root: ".",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: ["tests/browser/**"],
          environment: "node",
          setupFiles: ["tests/cases.ts", "tests/every-part.ts"],
          testTimeout: 60_000,
          // Both of two cores; the browser tests come after, with the machine to themselves.
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          root: ".",
          include: ["tests/browser/**/*.test.ts"],
          environment: "node",
          globalSetup: ["tests/browser/serve.ts"],
          setupFiles: ["tests/every-part.ts"],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // What is waited for on a page may take a while where the machine has other work.
          expect: { poll: { timeout: 30_000 } },
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
