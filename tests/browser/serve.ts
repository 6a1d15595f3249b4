import { existsSync } from "node:fs";
import { resolve } from "node:path";
import type { TestProject } from "vitest/node";
import { preview } from "vite";

declare module "vitest" {
  interface ProvidedContext {
    address: string;
  }
}

/** Serves the built product on 127.0.0.1 for the browser tests. */
export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const root = resolve(import.meta.dirname, "../..");
  if (!existsSync(resolve(root, "dist/index.html"))) throw new Error("nothing is built: run `npx vite build` first");
  const server = await preview({
    configFile: resolve(root, "vite.config.ts"),
    preview: { host: "127.0.0.1", port: 0 },
    logLevel: "warn",
  });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error("the server did not start");
  project.provide("address", address);
  return () => server.close();
}
