/** Order: whose instrument this is and what was agreed, and the designs kept in this browser. */
import { useId, useState } from "react";
import { useStore } from "zustand";
import { ORDER_STATUSES, type Order, type OrderStatus } from "../../document/design.ts";
import type { Problem } from "../../parts/derived.ts";
import { holderOf, nextNumber } from "../../store/series.ts";
import { useBench, useDesign } from "../bench.ts";
import { BuiltList } from "../built/built-list.tsx";
import { Copies } from "../copies/copies.tsx";
import { titleOf } from "../frame/title.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { tell } from "../kit/tell.tsx";
import { TextField } from "../kit/text-field.tsx";
import { useEditing } from "../panels/editing.ts";
import { Cuts } from "./cuts.tsx";
import { KeptDesigns } from "./kept-designs.tsx";
import { Liked } from "./liked.tsx";
import { saveReport } from "./save-report.ts";
import { useKept, type KeptList } from "./use-kept.ts";
import "./order-place.css";

export function OrderPlace() {
  const list = useKept();
  return (
    <div className="order">
      <KeptDesigns {...list} />
      <OrderSheet {...list} />
    </div>
  );
}

type OrderText = Exclude<keyof Order, "reference" | "status">;

function OrderSheet({ kept, given }: KeptList) {
  const bench = useBench();
  const design = useDesign();
  const { order } = design;
  const editing = useEditing();
  const statusId = useId();
  const id = useStore(bench.design, (s) => s.id);
  const next = nextNumber([...kept.flatMap(({ numbers }) => numbers), ...given]);

  /** A number that another instrument has is refused: on paper the two could not be told apart. */
  function sayNumber(text: string): Problem | undefined {
    const number = text.trim();
    const holder = number === "" ? undefined : holderOf(number, id, kept, given);
    if (!holder) return editing.sayValue("order.number", number === "" ? undefined : number);
    return {
      path: "order.number",
      label: "Number",
      message: `Number ${number} is ${holder === "removed" ? "that of a design which was removed" : `taken by ${titleOf({ order: { title: holder.title, number: holder.number, player: holder.player } })}`}`,
      mend: next === undefined ? "Give another." : `The next free one is ${next}.`,
    };
  }
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
      onCommit={(text) =>
        key === "number" ? sayNumber(text) : editing.sayValue(`order.${key}`, text.trim() === "" ? undefined : text.trim())
      }
      {...more}
    />
  );
  return (
    <aside className="side order-sheet" aria-label="Order sheet">
      <div className="order-head">
        <h2 className="side-title">Order sheet</h2>
        <ReportButton />
      </div>
      <div className="order-fields">
        {field("number", "Number", { number: true, ...(next === undefined ? {} : { placeholder: `next ${next}` }) })}
        {field("date", "Date", { type: "date" })}
        {next !== undefined && !order?.number ? (
          <Button look="link" size="small" className="order-field-wide order-next" onClick={() => void sayNumber(next)}>
            take the next number, {next}
          </Button>
        ) : null}
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
      <Copies />
    </aside>
  );
}

/** Saves the whole order on paper, and lets go of it while it is being written. */
function ReportButton() {
  const bench = useBench();
  const [writing, setWriting] = useState<AbortController>();
  async function save(): Promise<void> {
    const controller = new AbortController();
    setWriting(controller);
    try {
      await saveReport(bench, controller.signal);
    } catch (error) {
      if (!controller.signal.aborted)
        tell({ title: "It was not saved.", more: error instanceof Error ? error.message : String(error), kind: "stop" });
    } finally {
      setWriting(undefined);
    }
  }
  return writing ? (
    <Button size="small" onClick={() => writing.abort()}>
      Writing. Cancel
    </Button>
  ) : (
    <Button size="small" onClick={() => void save()}>
      Save the report
    </Button>
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
