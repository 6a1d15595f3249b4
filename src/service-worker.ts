/**
 * Keeps the whole app in the browser after the first load, so that it opens and prints without a network. The build writes before this
 * file what the app consists of (see `vite.config.ts`); another build is another version, and takes over only when the maker says so.
 */
declare const APP: { readonly version: string; readonly files: readonly string[] };

interface Waiting extends Event {
  readonly waitUntil: (work: Promise<unknown>) => void;
}
interface Fetching extends Waiting {
  readonly request: Request;
  readonly respondWith: (answer: Promise<Response>) => void;
}
interface WorkerScope {
  readonly skipWaiting: () => Promise<void>;
  readonly clients: { readonly claim: () => Promise<void> };
}

const scope = globalThis as unknown as WorkerScope;
const FAMILY = "gramil-app-";
const CACHE = FAMILY + APP.version;

async function takeIn(): Promise<void> {
  const cache = await caches.open(CACHE);
  // What the page has just loaded is asked for again only as "is it still the same?".
  await cache.addAll(APP.files.map((file) => new Request(file, { cache: "no-cache" })));
}

async function takeOver(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(FAMILY) && name !== CACHE).map((name) => caches.delete(name)));
  await scope.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept) return kept;
  // Whatever address within the app is opened, the page is the same; its place stands after the #.
  const page = request.mode === "navigate" ? await cache.match("./") : undefined;
  return page ?? fetch(request);
}

addEventListener("install", (event) => (event as Waiting).waitUntil(takeIn()));
addEventListener("activate", (event) => (event as Waiting).waitUntil(takeOver()));
addEventListener("message", (event) => {
  if (event.data === "take over") void scope.skipWaiting();
});
addEventListener("fetch", (event) => {
  const { request, respondWith } = event as Fetching;
  if (request.method === "GET" && new URL(request.url).origin === location.origin) respondWith.call(event, answer(request));
});
