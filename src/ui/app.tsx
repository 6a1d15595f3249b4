/** Everything on screen: the strip, the place that the address names, what lies on top, and what is said to those who do not see it. */
import { Suspense, useEffect, useLayoutEffect, useMemo, useRef, useState, type DragEvent, type ReactNode } from "react";
import { useStore } from "zustand";
import { isDirty } from "../store/design-store.ts";
import { showPart, unsay } from "../store/session-store.ts";
import { useBench, useSession } from "./bench.ts";
import { chooseDesignFile, saveDesignFile, takeFile } from "./files.ts";
import { keyDeeds, useKeys, type FrameDeeds } from "./frame/keys.ts";
import { hashOf, PAGE_NAMES, PAGES, PLACE_NAMES, useRoute, type Route } from "./frame/route.ts";
import { Fault } from "./frame/fault.tsx";
import { Strip } from "./frame/strip.tsx";
import { useSingleKeys } from "./frame/single-keys.ts";
import { tell } from "./kit/tell.tsx";
import { Button } from "./kit/button.tsx";
import { fetched, lacking, later, pictureStands, withEveryPart } from "./later.ts";
import { NumbersPlace } from "./screens/numbers-place.tsx";
import { PartsPlace } from "./screens/parts-place.tsx";
import "./app.css";

const StayingNotes = later(async () => (await import("./kit/notes.tsx")).StayingNotes);
const OrderPlace = withEveryPart(async () => (await import("./screens/order-place.tsx")).OrderPlace);
const FitPlace = withEveryPart(async () => (await import("./screens/fit-place.tsx")).FitPlace);
const SheetsPlace = withEveryPart(async () => (await import("./screens/sheets-place.tsx")).SheetsPlace);
const Dialogs = withEveryPart(async () => (await import("./dialogs/dialogs.tsx")).Dialogs);
const HelpPlace = fetched(async () => (await import("./help/help-place.tsx")).HelpPlace);
const FirstBoard = withEveryPart(async () => (await import("./screens/first-board.tsx")).FirstBoard);
const RepairPlace = withEveryPart(async () => (await import("./screens/repair-place.tsx")).RepairPlace);
const MeasurePlace = withEveryPart(async () => (await import("./screens/measure-place.tsx")).MeasurePlace);

export function App() {
  const bench = useBench();
  const route = useRoute();
  const main = useRef<HTMLElement>(null);
  const inner = "part" in route ? route.part : undefined;
  const shown = route.place === "parts" ? inner : undefined;
  const deeds = useMemo<FrameDeeds>(
    () => ({ openFile: () => void chooseDesignFile(bench), saveFile: () => void saveDesignFile(bench) }),
    [bench],
  );
  const keys = useMemo(() => keyDeeds(bench, deeds), [bench, deeds]);
  const asked = useSession((s) => s.dialog !== undefined);
  useKeys(keys, useSingleKeys().on);

  useEffect(() => {
    if (shown !== undefined) showPart(bench.session, shown);
  }, [bench, shown]);

  // Another place, or another design, is another try; the first board puts its own design on the bench, once each time it is gone to.
  const designId = useStore(bench.design, (state) => state.id);
  const faultKey = `${route.place} ${shown ?? ""} ${route.place === "first" ? "" : designId}`;
  const name = { ...PLACE_NAMES, ...PAGE_NAMES }[route.place];
  useEffect(() => {
    document.title = `${name} · Gramil`;
  }, [name]);

  useEffect(pictureStands, []);
  useTopOfPlace(route);

  return (
    <DropArea>
      <div className="app">
        <a
          className="skip"
          href="#main"
          onClick={(event) => {
            event.preventDefault();
            main.current?.focus();
          }}
        >
          To the work
        </a>
        <Strip deeds={deeds} />
        <Suspense fallback={null}>
          <StayingNotes />
        </Suspense>
        <NotWhole />
        <Welcome />
        <main className="app-place" id="main" ref={main} tabIndex={-1} aria-label={name}>
          <Fault key={faultKey} onSave={deeds.saveFile}>
            <Suspense fallback={<p className="busy">One moment.</p>}>
              {route.place === "order" ? <OrderPlace /> : null}
              {route.place === "numbers" ? <NumbersPlace /> : null}
              {route.place === "parts" ? <PartsPlace wanted={shown} /> : null}
              {route.place === "fit" ? <FitPlace page={inner} /> : null}
              {route.place === "sheets" ? <SheetsPlace /> : null}
              {route.place === "first" ? <FirstBoard /> : null}
              {route.place === "help" ? <HelpPlace wanted={inner} /> : null}
              {route.place === "measure" ? <MeasurePlace /> : null}
              {route.place === "repair" ? <RepairPlace /> : null}
            </Suspense>
          </Fault>
        </main>
      </div>
      {asked ? (
        <Suspense fallback={null}>
          <Dialogs keys={keys} />
        </Suspense>
      ) : null}
      <SessionNotes />
    </DropArea>
  );
}

/** A place that is gone to starts at its top, where the page itself scrolls; by back and forward it is found as it was left. */
function useTopOfPlace(route: Route): void {
  const before = useRef(route.place);
  useLayoutEffect(() => {
    const isNew = history.state === null;
    if (isNew && before.current !== route.place) scrollTo({ top: 0, behavior: "instant" });
    if (isNew) history.replaceState("seen", "");
    before.current = route.place;
  }, [route]);
}

/** Where part of the program has not come. */
function NotWhole() {
  const { lacks } = useStore(lacking);
  if (!lacks) return null;
  return (
    <aside className="welcome" role="alert">
      <p>Part of Gramil has not come or has broken, and what needs it does not work.</p>
      <Button onClick={() => location.reload()}>Load the page anew</Button>
    </aside>
  );
}

/** On a first visit: what this is, and the way to a sheet of one's own. Goes with the first change. */
function Welcome() {
  const bench = useBench();
  const route = useRoute();
  const untouched = useStore(bench.design, (state) => state.stored === undefined && !isDirty(state));
  if (!untouched || PAGES.some((page) => page === route.place)) return null;
  return (
    <aside className="welcome" aria-label="Welcome">
      <p>This is a live example: change any number and the drawing follows.</p>
      <a className="btn btn-main" href={hashOf({ place: "first" })}>
        My first fingerboard: five numbers
      </a>
    </aside>
  );
}

const hasFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes("Files");

/** Takes a design file that is dropped anywhere. */
function DropArea({ children }: { readonly children: ReactNode }) {
  const bench = useBench();
  const [over, setOver] = useState(0);
  return (
    <div
      onDragEnter={(event) => (hasFiles(event) ? setOver((n) => n + 1) : undefined)}
      onDragLeave={(event) => (hasFiles(event) ? setOver((n) => n - 1) : undefined)}
      onDragOver={(event) => (hasFiles(event) ? event.preventDefault() : undefined)}
      onDrop={(event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        setOver(0);
        const file = event.dataTransfer.files[0];
        if (file) void takeFile(bench, file);
      }}
    >
      {children}
      {over > 0 ? (
        <div className="drop-here">
          <p>Drop a design file here, or a photograph to lie under the part on the board</p>
        </div>
      ) : null}
    </div>
  );
}

/** What the session says, as notes. */
function SessionNotes() {
  const bench = useBench();
  const toasts = useSession((s) => s.toasts);
  useEffect(() => {
    for (const { id, tone, text } of toasts) {
      tell({ title: text, kind: tone === "trouble" ? "stop" : "plain" });
      unsay(bench.session, id);
    }
  }, [bench, toasts]);
  return null;
}
