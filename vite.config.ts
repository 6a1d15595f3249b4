import { defineConfig } from "vitest/config";
import react from "@vitejs/plugin-react";

export default defineConfig({
  root: "src",
  publicDir: "../public",
  base: "./",
  plugins: [react()],
  build: { outDir: "../dist", emptyOutDir: true, target: "es2022", sourcemap: false },
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
          testTimeout: 60_000,
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
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
