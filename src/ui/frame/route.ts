/** Where in the product we are, kept in the address after the `#`, so that reload, back and forward work. */
import { useSyncExternalStore } from "react";

export const PLACES = ["order", "numbers", "parts", "fit", "sheets"] as const;
export type Place = (typeof PLACES)[number];

export const PLACE_NAMES: Readonly<Record<Place, string>> = {
  order: "Order",
  numbers: "Numbers",
  parts: "Parts",
  fit: "Fit",
  sheets: "Sheets",
};

/** Guided pages beside the five places. */
export const PAGES = ["first", "measure", "repair", "help"] as const;
export type Page = (typeof PAGES)[number];

export const PAGE_NAMES: Readonly<Record<Page, string>> = {
  first: "My first fingerboard",
  measure: "Measuring an instrument",
  repair: "A repair",
  help: "Help",
};

/** `part` is the part on the board, or the page of Fit or of the help. */
export type Route = { readonly place: Place | "help"; readonly part?: string } | { readonly place: Page };

/** Stands for the whole instrument where parts have their ids; no part can have it. */
export const WHOLE = "(whole)";

/** Where an address without a known place leads. */
const HOME: Route = { place: "parts" };

/** Reads `#/parts/fingerboard`; whatever is not understood leads home. */
export function readRoute(hash: string): Route {
  const [place = "", part = ""] = hash.replace(/^#\/?/, "").split("/");
  const page = PAGES.find((name) => name === place);
  if (page) return page === "help" && part !== "" ? { place: page, part: decoded(part) } : { place: page };
  const known = PLACES.find((name) => name === place);
  if (!known) return HOME;
  return (known === "parts" || known === "fit") && part !== "" ? { place: known, part: decoded(part) } : { place: known };
}

export const hashOf = (route: Route): string =>
  `#/${route.place}${"part" in route && route.part ? `/${encodeURIComponent(route.part)}` : ""}`;

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function go(route: Route): void {
  if (location.hash !== hashOf(route)) location.hash = hashOf(route);
}

const watch = (listener: () => void): (() => void) => {
  addEventListener("hashchange", listener);
  return () => removeEventListener("hashchange", listener);
};

let last: { readonly hash: string; readonly route: Route } | undefined;
function current(): Route {
  if (last?.hash !== location.hash) last = { hash: location.hash, route: readRoute(location.hash) };
  return last.route;
}

export const useRoute = (): Route => useSyncExternalStore(watch, current);
