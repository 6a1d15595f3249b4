/** Order: whose instrument this is and what was agreed, and the designs kept in this browser. */
import { useEffect, useId, useMemo, useState } from "react";
import { useStore } from "zustand";
import { ORDER_STATUSES, type Order, type OrderStatus } from "../../document/design.ts";
import { readDesign } from "../../document/read.ts";
import type { Kept } from "../../document/storage.ts";
import { createDeriver } from "../../parts/derive.ts";
import type { Derived } from "../../parts/derived.ts";
import { openDesign } from "../../store/commands/open-design.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { openDialog } from "../../store/session-store.ts";
import { useBench, useDerived, useDesign, useSession } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { chooseDesignFile, saveDesignFile, saveEverything, tellTrouble } from "../files.ts";
import { titleOf } from "../frame/title.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { Menu } from "../kit/menu.tsx";
import { Sign } from "../kit/sign.tsx";
import { TextField } from "../kit/text-field.tsx";
import { useEditing } from "../panels/editing.ts";
import { BuiltList } from "../built/built-list.tsx";
import { Cuts } from "./cuts.tsx";
import { Liked } from "./liked.tsx";
import "./order-place.css";

export function OrderPlace() {
  return (
    <div className="order">
      <KeptDesigns />
      <OrderSheet />
    </div>
  );
}

function KeptDesigns() {
  const bench = useBench();
  const derived = useDerived();
  const design = useDesign();
  const openId = useStore(bench.design, (s) => s.id);
  const { kept, again } = useKept();
  const [search, setSearch] = useState("");
  const wanted = search.trim().toLowerCase();
  const others = kept.filter((one) => one.id !== openId && `${one.number} ${one.title}`.toLowerCase().includes(wanted));

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
            ]}
          />
          <Button look="main" onClick={() => openDialog(bench.session, { kind: "new" })}>
            New instrument
          </Button>
        </div>
      </div>
      {kept.length > 6 ? (
        <div className="kept-search">
          <input
            className="textf"
            type="search"
            aria-label="Search the designs"
            placeholder="Number, name or player"
            value={search}
            onChange={(event) => setSearch(event.target.value)}
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
              <p className="note">on the bench now</p>
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
          <KeptCard key={one.id} kept={one} onChanged={again} />
        ))}
      </ul>
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

async function beginFrom(bench: ReturnType<typeof useBench>, design: ReturnType<typeof useDesign>): Promise<void> {
  const { cuts: _, order, measured: __, ...numbers } = design;
  const result = await startDesign(bench, { ...numbers, ...(order?.title ? { order: { title: order.title } } : {}) });
  if (!result.ok) tellTrouble("No new design was begun", result.error);
}

/** The list of what is kept, read again when the open design is saved or another tab changes something. */
function useKept(): { readonly kept: readonly Kept[]; readonly again: () => void } {
  const { storage } = useBench();
  const savedAt = useSession((s) => (s.saving.state === "saved" ? s.saving.at : 0));
  const [turn, setTurn] = useState(0);
  const [kept, setKept] = useState<readonly Kept[]>([]);
  useEffect(() => {
    let gone = false;
    void storage?.list().then((list) => (!gone && list.ok ? setKept(list.value) : undefined));
    return () => {
      gone = true;
    };
    // Read again after every save here, and when it is asked for.
    // eslint-disable-next-line react/exhaustive-effect-dependencies
  }, [storage, savedAt, turn]);
  useEffect(() => storage?.onForeignChange(() => setTurn((n) => n + 1)), [storage]);
  return { kept, again: () => setTurn((n) => n + 1) };
}

function KeptCard({ kept, onChanged }: { readonly kept: Kept; readonly onChanged: () => void }) {
  const bench = useBench();
  const derived = useKeptDerived(kept);
  const title = titleOf({ order: { title: kept.title, number: kept.number } });

  async function open(): Promise<void> {
    const result = await openDesign(bench, kept.id);
    if (!result.ok) return tellTrouble("It was not opened", result.error);
    if (result.value.length > 0) openDialog(bench.session, { kind: "repairs", name: title, repairs: result.value });
    go({ place: "parts" });
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
        void bench.storage?.remove(kept.id).then((result) => {
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
          <p className="note">{new Date(kept.savedAt).toLocaleDateString([], { dateStyle: "medium" })}</p>
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

/** What is derived from a kept design, for its picture. */
function useKeptDerived(kept: Kept): Derived | undefined {
  const { storage } = useBench();
  const [text, setText] = useState<string>();
  useEffect(() => {
    let gone = false;
    void storage?.load(kept.id).then((found) => (!gone && found.ok ? setText(found.value.text) : undefined));
    return () => {
      gone = true;
    };
    // Another revision is another text.
    // eslint-disable-next-line react/exhaustive-effect-dependencies
  }, [storage, kept.id, kept.revision]);
  return useMemo(() => {
    const read = text === undefined ? undefined : readDesign(text);
    return read?.ok ? createDeriver()(read.design) : undefined;
  }, [text]);
}

function Thumbnail({ derived }: { readonly derived: Derived }) {
  const part = derived.parts.find((one) => one.problems.length === 0) ?? derived.instrument;
  return part.problems.length > 0 ? null : <DrawingSvg drawing={part.drawing()} says="" small />;
}

/** The number after the greatest of the series; undefined where none is a plain number yet. */
function nextNumber(numbers: readonly string[]): number | undefined {
  const plain = numbers.filter((text) => /^\d{1,6}$/.test(text.trim())).map(Number);
  return plain.length > 0 ? Math.max(...plain) + 1 : undefined;
}

type OrderText = Exclude<keyof Order, "reference" | "status">;

function OrderSheet() {
  const { order } = useDesign();
  const editing = useEditing();
  const statusId = useId();
  const next = nextNumber(useKept().kept.map((one) => one.number));
  const field = (
    key: OrderText,
    label: string,
    more: {
      readonly wide?: boolean;
      readonly lines?: boolean;
      readonly type?: "date";
      readonly placeholder?: string;
      readonly number?: boolean;
    } = {},
  ) => (
    <OrderField
      key={key}
      label={label}
      value={order?.[key] ?? ""}
      onCommit={(text) => editing.sayValue(`order.${key}`, text.trim() === "" ? undefined : text.trim())}
      {...more}
    />
  );
  return (
    <aside className="side order-sheet" aria-label="Order sheet">
      <h2 className="side-title">Order sheet</h2>
      <div className="order-fields">
        {field("number", "Number", { number: true, ...(next === undefined ? {} : { placeholder: `next ${next}` }) })}
        {field("date", "Date", { type: "date" })}
        {field("title", "Instrument", { wide: true, placeholder: "tenor guitar" })}
        {field("player", "Player", { placeholder: "who it is for" })}
        {field("builtBy", "Built by")}
        <div className="order-field-wide">
          <span className="order-label" id={statusId}>
            Status
          </span>
          <ListChoice
            label="Status"
            value={order?.status ?? "in work"}
            follows={order?.status === undefined}
            options={ORDER_STATUSES.map((value) => ({ value, label: value.charAt(0).toUpperCase() + value.slice(1) }))}
            onChoose={(value: OrderStatus) => void editing.sayValue("order.status", value)}
          />
        </div>
        {field("notes", "What was agreed", {
          wide: true,
          lines: true,
          placeholder: "Wishes, wood, finish, case, price, date of delivery",
        })}
      </div>
      <Liked />
      <Cuts />
      <BuiltList />
    </aside>
  );
}

interface OrderFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onCommit: (text: string) => ReturnType<ReturnType<typeof useEditing>["sayValue"]>;
  readonly wide?: boolean;
  readonly lines?: boolean;
  readonly number?: boolean;
  readonly type?: "date";
  readonly placeholder?: string;
}

function OrderField({ label, value, onCommit, wide = false, lines = false, number = false, type, placeholder }: OrderFieldProps) {
  const id = useId();
  return (
    <div className={`${wide ? "order-field-wide" : ""} ${number ? "order-number" : ""}`}>
      <span className="order-label" id={id}>
        {label}
      </span>
      <TextField
        labelledBy={id}
        value={value}
        onCommit={onCommit}
        lines={lines}
        {...(type ? { type } : {})}
        {...(placeholder ? { placeholder } : {})}
      />
    </div>
  );
}
