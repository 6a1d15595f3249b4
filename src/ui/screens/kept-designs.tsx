/** The designs kept in this browser as cards: pictures, whose they are, how far they are, and what can be done with each. */
import { useMemo, useState } from "react";
import { useStore } from "zustand";
import { ORDER_STATUSES } from "../../document/design.ts";
import { readDesign } from "../../document/read.ts";
import type { Kept } from "../../document/storage.ts";
import { summaryOf } from "../../document/summary-of.ts";
import { openDesign } from "../../store/commands/open-design.ts";
import { removeDesign } from "../../store/commands/remove-design.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { isFoundBy, signOn } from "../../store/series.ts";
import { openDialog } from "../../store/session-store.ts";
import type { Workbench } from "../../store/workbench.ts";
import { useBench, useDerived, useDesign } from "../bench.ts";
import { copyText } from "../copy-text.ts";
import { chooseDesignFile, saveDesignFile, saveEverything, tellTrouble } from "../files.ts";
import { titleOf } from "../frame/title.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { Menu } from "../kit/menu.tsx";
import { Sign } from "../kit/sign.tsx";
import { Thumbnail } from "../thumbnail.tsx";
import { useKeptDerived, type KeptList } from "./use-kept.ts";

/** So few are seen at a glance. */
const SEARCHED_FROM = 4;
const ANY = "any";
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export function KeptDesigns({ kept, again }: KeptList) {
  const bench = useBench();
  const derived = useDerived();
  const design = useDesign();
  const openId = useStore(bench.design, (s) => s.id);
  const [search, setSearch] = useState("");
  const [status, setStatus] = useState<string>(ANY);
  const others = kept.filter(
    (one) => one.id !== openId && isFoundBy(one, search) && (status === ANY || (one.status || "in work") === status),
  );
  const summary = useMemo(() => summaryOf(design), [design]);

  return (
    <section className="kept" aria-labelledby="kept-title">
      <div className="kept-head">
        <h1 className="title" id="kept-title">
          Designs in this browser
        </h1>
        <div className="kept-acts">
          <Menu
            trigger={
              <Button>
                Files <Sign name="down" />
              </Button>
            }
            entries={[
              { label: "Open a design file", keys: "Ctrl O", onChoose: () => void chooseDesignFile(bench) },
              { label: "Save this design as a file", keys: "Ctrl S", onChoose: () => void saveDesignFile(bench) },
              {
                label: "Save all designs in one archive",
                about: "for safety, or for another computer",
                apart: true,
                disabled: bench.storage === undefined,
                onChoose: () => void saveEverything(bench),
              },
              {
                label: "Take in the designs of an archive",
                about: "nothing that is here is overwritten",
                disabled: bench.storage === undefined,
                onChoose: () => void chooseDesignFile(bench),
              },
              {
                label: "Copy the list of orders",
                about: "as a table for a spreadsheet",
                apart: true,
                disabled: kept.length === 0,
                onChoose: () => void copyText(listOf(kept), "The list of orders is copied."),
              },
            ]}
          />
          <Button look="main" onClick={() => openDialog(bench.session, { kind: "new" })}>
            New instrument
          </Button>
        </div>
      </div>
      {kept.length >= SEARCHED_FROM ? (
        <div className="kept-search">
          <input
            className="textf"
            type="search"
            aria-label="Search the designs"
            placeholder="Number, name, player, sign"
            value={search}
            onChange={(event) => setSearch(event.target.value)}
          />
          <ListChoice
            label="Status"
            value={status}
            follows={status === ANY}
            options={[
              { value: ANY, label: "Any status" },
              ...ORDER_STATUSES.map((value) => ({ value: value as string, label: capital(value) })),
            ]}
            onChoose={setStatus}
          />
        </div>
      ) : null}
      <ul className="kept-cards">
        <li className="kept-card" data-open="">
          <div className="kept-picture">
            <Thumbnail derived={derived} />
          </div>
          <div className="kept-foot">
            <div>
              <button type="button" className="kept-open" onClick={() => go({ place: "parts" })}>
                {titleOf(design)}
              </button>
              <p className="note">{["on the bench now", ...stateOf(summary)].join(", ")}</p>
            </div>
            <Menu
              trigger={
                <Button look="quiet" size="icon" label={`More about ${titleOf(design)}`}>
                  <Sign name="menu" />
                </Button>
              }
              entries={[
                {
                  label: "Begin another from this one",
                  about: "same numbers, an order of its own",
                  onChoose: () => void beginFrom(bench, design),
                },
                { label: "Recent versions", onChoose: () => openDialog(bench.session, { kind: "versions" }) },
              ]}
            />
          </div>
        </li>
        {others.map((one) => (
          <KeptCard key={one.id} kept={one} sign={signOn(one, search)} onChanged={again} />
        ))}
      </ul>
      {others.length === 0 && (search !== "" || status !== ANY) ? (
        <p className="kept-nothing">
          No other design is found so.{" "}
          <Button
            look="link"
            onClick={() => {
              setSearch("");
              setStatus(ANY);
            }}
          >
            Show all
          </Button>
        </p>
      ) : null}
      {bench.storage === undefined ? (
        <div className="kept-none">
          <p>
            <strong>This browser keeps nothing.</strong> Save your work as a file, from the menu at the top right, before you
            close the page.
          </p>
        </div>
      ) : null}
    </section>
  );
}

/** How far it is and who builds it, where that is said. */
const stateOf = ({ status, builtBy }: Pick<Kept, "status" | "builtBy">): string[] =>
  [status, builtBy === "" ? "" : `by ${builtBy}`].filter((text) => text !== "");

/** The orders as rows of a table, the highest number first. */
function listOf(kept: readonly Kept[]): string {
  const byNumber = kept.toSorted((a, b) => b.number.localeCompare(a.number, undefined, { numeric: true }));
  return [
    ["Number", "Instrument", "Player", "Built by", "Date", "Status"],
    ...byNumber.map((one) => [one.number, one.title, one.player, one.builtBy, one.date, one.status]),
  ]
    .map((row) => row.map((cell) => cell.replace(/\s+/g, " ")).join("\t"))
    .join("\n");
}

async function beginFrom(bench: Workbench, design: ReturnType<typeof useDesign>): Promise<void> {
  const { cuts: _cuts, copies: _copies, order, measured: _measured, ...numbers } = design;
  const result = await startDesign(bench, { ...numbers, ...(order?.title ? { order: { title: order.title } } : {}) });
  if (!result.ok) tellTrouble("No new design was begun", result.error);
}

interface KeptCardProps {
  readonly kept: Kept;
  /** The sign by which it was found. */
  readonly sign: string | undefined;
  readonly onChanged: () => void;
}

function KeptCard({ kept, sign, onChanged }: KeptCardProps) {
  const bench = useBench();
  const derived = useKeptDerived(kept);
  const title = titleOf({ order: { title: kept.title, number: kept.number, player: kept.player } });

  async function open(): Promise<void> {
    const result = await openDesign(bench, kept.id);
    if (!result.ok) return tellTrouble("It was not opened", result.error);
    if (result.value.length > 0) openDialog(bench.session, { kind: "repairs", name: title, repairs: result.value });
    if (sign === undefined) go({ place: "parts" });
  }
  async function beginFromKept(): Promise<void> {
    const found = await bench.storage?.load(kept.id);
    const read = found?.ok ? readDesign(found.value.text) : undefined;
    if (read?.ok) await beginFrom(bench, read.design);
    else
      tellTrouble(
        "No new design was begun",
        found && !found.ok ? found.error : { message: "the kept design cannot be read", mend: "Open it to see what is wrong." },
      );
  }
  function remove(): void {
    openDialog(bench.session, {
      kind: "confirm",
      question: `Remove ${title} from this browser?`,
      action: "Remove it",
      // eslint-disable-next-line unicorn/no-thenable
      then: () =>
        void removeDesign(bench, kept).then((result) => {
          if (!result.ok) tellTrouble("It was not removed", result.error);
          onChanged();
        }),
    });
  }

  return (
    <li className="kept-card">
      <div className="kept-picture">{derived ? <Thumbnail derived={derived} /> : null}</div>
      <div className="kept-foot">
        <div>
          <button type="button" className="kept-open" onClick={() => void open()}>
            {title}
          </button>
          <p className="note">
            {sign === undefined
              ? [...stateOf(kept), new Date(kept.savedAt).toLocaleDateString([], { dateStyle: "medium" })].join(", ")
              : `the sheet with the sign ${sign} is of this one`}
          </p>
        </div>
        <Menu
          trigger={
            <Button look="quiet" size="icon" label={`More about ${title}`}>
              <Sign name="menu" />
            </Button>
          }
          entries={[
            {
              label: "Begin another from this one",
              about: "same numbers, an order of its own",
              onChoose: () => void beginFromKept(),
            },
            { label: "Remove", apart: true, onChoose: remove },
          ]}
        />
      </div>
    </li>
  );
}
