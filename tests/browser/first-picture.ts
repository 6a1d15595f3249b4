import type { Browser, Route } from "playwright-core";
import { visit, type Visit } from "./visit.ts";

export interface FirstPicture extends Visit {
  /** Paths of the scripts that have come. */
  readonly came: readonly string[];
  /** Lets come what is asked for from now on, and what was held back. */
  readonly release: () => Promise<void>;
}

/** A first visit for which no script comes that is asked for after the first picture stands: it is held back, or each request for it fails. */
export async function firstPicture(browser: Browser, address: string, late: "held" | "failing"): Promise<FirstPicture> {
  const came: string[] = [];
  const held: Route[] = [];
  let isShut = true;
  const here = await visit(browser, address, { serviceWorkers: "block" }, (page) =>
    page.route("**/*.js", async (route) => {
      const stands = (await page.locator(".board-dimension").count()) > 0;
      if (!stands || !isShut) {
        came.push(new URL(route.request().url()).pathname);
        await route.continue();
      } else if (late === "held") held.push(route);
      else await route.abort();
    }),
  );
  await here.page.locator(".board-dimension").first().waitFor();
  return {
    ...here,
    came,
    release: async () => {
      isShut = false;
      await Promise.all(held.splice(0).map((route) => route.continue()));
    },
    // A worker may still be asking for its script.
    close: async () => {
      await here.page.unrouteAll({ behavior: "ignoreErrors" });
      await here.close();
    },
  };
}
