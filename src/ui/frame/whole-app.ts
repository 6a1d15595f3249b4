/** The app as a whole: kept in the browser for work without a network, and exchanged for a newer one when the maker says so. */
import { save } from "../../store/commands/save.ts";
import { isDirty } from "../../store/design-store.ts";
import type { Workbench } from "../../store/workbench.ts";
import { tell } from "../kit/tell.tsx";

/** Keeps the whole app in this browser and says when a newer one is there. Does nothing where browsers do not allow it. */
export async function keepWholeApp(bench: Workbench): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  const { serviceWorker } = navigator;
  // The first worker takes over a page that had none: nothing changes for the maker then.
  let hadOne = serviceWorker.controller !== null;
  serviceWorker.addEventListener("controllerchange", () => {
    if (hadOne) void loadAnew(bench);
    hadOne = true;
  });
  // Private windows and pages without a secure address refuse it: the app works, with a network.
  const registration = await serviceWorker
    .register(new URL("service-worker.js", document.baseURI))
    .catch((): undefined => undefined);
  if (!registration) return;
  const offer = (worker: ServiceWorker | null): void => {
    if (worker?.state === "installed" && serviceWorker.controller) tellNewer(worker);
  };
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const coming = registration.installing;
    coming?.addEventListener("statechange", () => offer(coming));
  });
}

function tellNewer(worker: ServiceWorker): void {
  // A worker has no origin to name.
  // eslint-disable-next-line unicorn/require-post-message-target-origin
  const takeOver = (): void => worker.postMessage("take over");
  tell({
    title: "A newer Gramil is ready.",
    more: "Your designs stay as they are.",
    lasting: true,
    action: { label: "Use it now", onChoose: takeOver },
  });
}

/** Loads the page anew once the open design is kept; where it cannot be kept, the maker decides. */
async function loadAnew(bench: Workbench): Promise<void> {
  if (isDirty(bench.design.getState())) await save(bench);
  if (!isDirty(bench.design.getState())) return location.reload();
  tell({
    title: "A newer Gramil has taken over.",
    more: "The open design is not kept in this browser: save it as a file, then load the page anew.",
    kind: "stop",
  });
}

/** Lets the browser ask before the page is closed as long as something would be lost. */
export function askBeforeLeaving(bench: Workbench): void {
  addEventListener("beforeunload", (event) => {
    if (wouldLose(bench)) event.preventDefault();
  });
}

/** Whether closing the page now loses work: it could not be kept, or it waits for a choice between two tabs. */
export function wouldLose(bench: Workbench): boolean {
  const { state } = bench.session.getState().saving;
  return (state === "failed" || state === "conflict") && isDirty(bench.design.getState());
}
