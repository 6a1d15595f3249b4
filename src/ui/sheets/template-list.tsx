/** The templates of the design: which are wanted on paper, how each is followed, and what cannot be made. */
import { useId, useState } from "react";
import type { SheetSet, Tiling } from "../../sheets/sheet.ts";
import { partName } from "../../parts/part-name.ts";
import type { Pattern } from "../../templates/patterns.ts";
import { partNamed, useDerived } from "../bench.ts";
import { useNarrow } from "../frame/use-narrow.ts";
import { Button } from "../kit/button.tsx";
import { TickBox } from "../kit/tick-box.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { useChangedCuts } from "./changed-cuts.ts";
import { sheetsSaid } from "./words.ts";
import "./template-list.css";

interface TemplateListProps {
  readonly patterns: readonly Pattern[];
  readonly leftOut: ReadonlySet<string>;
  readonly set: SheetSet | undefined;
  /** The one whose making is shown. */
  readonly shown: string | undefined;
  readonly onLeaveOut: (ids: readonly string[], out: boolean) => void;
  readonly onShow: (id: string) => void;
}

const tilingOf = (set: SheetSet | undefined, id: string): Tiling | undefined =>
  set?.tilings.find((tiling) => tiling.templateId === id);

export function TemplateList({ patterns, leftOut, set, shown, onLeaveOut, onShow }: TemplateListProps) {
  const derived = useDerived();
  const cuts = useChangedCuts();
  const parts = [...new Set(patterns.map(({ source }) => source.partId))];
  const ids = patterns.map(({ source }) => source.id);
  const chosenCount = ids.filter((id) => !leftOut.has(id)).length;
  const allIn = chosenCount === ids.length;
  const nameOf = (partId: string, first: Pattern | undefined): string => {
    const part = partNamed(derived, partId);
    return part ? partName(part) : (first?.source.partLabel ?? partId);
  };
  // Above the sheets a long list would keep them out of sight.
  const narrow = useNarrow();
  const [open, setOpen] = useState(false);
  return (
    <section className="side sheets-list" aria-labelledby="sheets-list-title">
      <div className="sheets-all">
        <h2 className="side-title" id="sheets-list-title">
          Templates
        </h2>
        <Button look="link" onClick={() => onLeaveOut(ids, allIn)}>
          {allIn ? "none" : "all"}
        </Button>
      </div>
      {narrow ? (
        <Button className="sheets-list-more" pressed={open} onClick={() => setOpen(!open)}>
          {`${chosenCount} of ${ids.length} chosen; show the list`}
        </Button>
      ) : null}
      <div className="sheets-list-parts" hidden={narrow && !open}>
        {parts.map((partId) => {
          const own = patterns.filter(({ source }) => source.partId === partId);
          return (
            <section key={partId}>
              <PartHead
                name={nameOf(partId, own[0])}
                ids={own.map(({ source }) => source.id)}
                leftOut={leftOut}
                onLeaveOut={onLeaveOut}
              />
              {own.map((pattern) => (
                <TemplateRow
                  key={pattern.source.id}
                  pattern={pattern}
                  chosen={!leftOut.has(pattern.source.id)}
                  shown={shown === pattern.source.id}
                  cut={cuts.find(({ partId: part, template }) => part === partId && template === nameAsMade(pattern))?.says}
                  tiling={tilingOf(set, pattern.source.id)}
                  onChoose={(on) => onLeaveOut([pattern.source.id], !on)}
                  onShow={() => onShow(pattern.source.id)}
                />
              ))}
            </section>
          );
        })}
      </div>
    </section>
  );
}

/** The name of a part over its templates, with a tick for all of them. */
function PartHead({
  name,
  ids,
  leftOut,
  onLeaveOut,
}: { readonly name: string; readonly ids: readonly string[] } & Pick<TemplateListProps, "leftOut" | "onLeaveOut">) {
  const id = useId();
  const out = ids.filter((one) => leftOut.has(one)).length;
  return (
    <div className="sheets-part">
      <TickBox labelledBy={id} on={out === 0} partly={out > 0 && out < ids.length} onChange={(on) => onLeaveOut(ids, !on)} />
      <h3 id={id}>{name}</h3>
    </div>
  );
}

interface TemplateRowProps {
  readonly pattern: Pattern;
  readonly chosen: boolean;
  readonly shown: boolean;
  /** How it differs from what was cut. */
  readonly cut: string | undefined;
  readonly tiling: Tiling | undefined;
  readonly onChoose: (on: boolean) => void;
  readonly onShow: () => void;
}

function TemplateRow({ pattern: { source, made }, chosen, shown, cut, tiling, onChoose, onShow }: TemplateRowProps) {
  const id = useId();
  const cautions = made.ok ? (made.value.cautions ?? []).length : 0;
  const how = made.ok && made.value !== source ? howSaid(made.value.title, source.title) : "as drawn";
  return (
    <div className="sheets-one" data-shown={shown ? "" : undefined}>
      <TickBox labelledBy={id} on={chosen} onChange={onChoose} />
      <div>
        <span className="sheets-one-name" id={id}>
          {source.title}
        </span>
        <p className="note sheets-one-says">
          {made.ok ? (
            <>
              <span>{!chosen ? "left out" : tiling ? shareSaid(tiling) : "not laid out yet"}</span>
              {cautions > 0 ? (
                <span className="sheets-one-look">
                  <FindingSign severity="look" /> look
                </span>
              ) : null}
            </>
          ) : (
            <span className="sheets-one-stop">
              <FindingSign severity="stop" /> not made
            </span>
          )}
          <Button
            look="link"
            size="small"
            className="sheets-one-how"
            onClick={onShow}
            label={`${how}: how ${source.title} is followed`}
          >
            {how}
          </Button>
        </p>
        {cut === undefined ? null : (
          <p className="note sheets-one-look">
            <FindingSign severity="look" /> {cut}
          </p>
        )}
      </div>
    </div>
  );
}

/** The name that a cut of it is entered under. */
const nameAsMade = ({ source, made }: Pattern): string => (made.ok ? made.value.name : source.name);

const shareSaid = ({ shared, sheets }: Tiling): string =>
  shared ? (sheets.length === 1 ? "shares a sheet" : `shares ${sheets.length} sheets`) : sheetsSaid(sheets.length);

/** "inside template, half": what stands behind the template's own title. */
const howSaid = (title: string, own: string): string => title.slice(own.length).replace(/^, /, "") || "made";
