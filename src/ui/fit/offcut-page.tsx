/** Offcut: wood at hand, and blanks laid on it by hand or by a search. */
import { useMemo, useState } from "react";
import { freeWood, laidOn, leastApart, soundWood, wantedOf, type LaidPiece, type Pose } from "../../checks/offcut.ts";
import type { MeasuresByKind } from "../../parts/contract.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { blanksOf, type PlacedBlank } from "../../parts/wood.ts";
import { newPart } from "../../store/commands/edit-parts.ts";
import { editValue } from "../../store/commands/edit-value.ts";
import { addRecord, takeRecord } from "../../store/commands/edit-records.ts";
import type { Workbench } from "../../store/workbench.ts";
import { useBench, useDerived, useDesign, useNotation } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { hashOf } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { FindingSign, Sign } from "../kit/sign.tsx";
import { tell } from "../kit/tell.tsx";
import { say } from "../notation.ts";
import { useEditing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import { NumbersPanel } from "../panels/numbers-panel.tsx";
import { partName } from "../../parts/part-name.ts";
import { useSheetSaving } from "../sheets/use-saving.ts";
import { usePaperSettings } from "../sheets/paper-settings.ts";
import { sheetOptions } from "../sheets/options.ts";
import { pdfOfJob } from "../sheets/save-sheets.ts";
import { placementTemplate } from "../../checks/placement.ts";
import { OffcutBoard } from "./offcut-board.tsx";
import { useSearching } from "./offcut-client.ts";
import "./fit-pages.css";
import "./offcut-page.css";

type Offcut = MeasuresByKind["offcut"];

export function OffcutPage() {
  const bench = useBench();
  const derived = useDerived();
  const offcuts = derived.parts.filter(({ kind }) => kind === "offcut");
  const [wanted, setWanted] = useState<string>();
  const part = offcuts.find(({ id }) => id === wanted) ?? offcuts[0];
  const enter = (): void => {
    const added = newPart(bench, "offcut");
    if (added.ok) setWanted(added.value);
    else tellTrouble("No offcut was entered", added.error);
  };
  if (!part)
    return (
      <div className="fitp fitp-single">
        <section className="fitp-main">
          <div className="offcut-none">
            <h2>Will it come out of the wood at hand?</h2>
            <p className="fitp-lead">
              Enter the piece of wood: a rectangle, or an outline drawn or traced from a photograph, with its knots and cracks.
              Then lay the blanks of this design on it, or have a place found.
            </p>
            <Button look="main" onClick={enter}>
              Enter an offcut
            </Button>
          </div>
        </section>
      </div>
    );
  return <OneOffcut key={part.id} part={part} offcuts={offcuts} onShow={setWanted} onEnter={enter} />;
}

interface OneProps {
  readonly part: DerivedPart;
  readonly offcuts: readonly DerivedPart[];
  readonly onShow: (id: string) => void;
  readonly onEnter: () => void;
}

function OneOffcut({ part, offcuts, onShow, onEnter }: OneProps) {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const [picked, setPicked] = useState<number>();
  const offcut = part.problems.length === 0 ? (part.measures as Offcut) : undefined;
  const blanks = useMemo(() => blanksOf(design, derived), [design, derived]);
  const wood = useMemo(() => offcut && soundWood(offcut), [offcut]);
  const laid = useMemo(() => (offcut ? laidOn(offcut, blanks, wood) : []), [offcut, blanks, wood]);
  const panel = { ...part, fields: part.fields.filter(({ key }) => key !== "pieces") };
  return (
    <div className="fitp offcut">
      <section className="offcut-middle" aria-label="The offcut with what is laid on it">
        {offcut && wood ? (
          <OffcutBoard part={part} offcut={offcut} laid={laid} picked={picked} onPick={setPicked} />
        ) : (
          <p className="note offcut-none">
            {part.problems[0]
              ? `${part.problems[0].message}. ${part.problems[0].mend}`
              : "No sound wood is left within the outline."}
          </p>
        )}
        {offcut && wood ? (
          <PieceList bench={bench} part={part} offcut={offcut} blanks={blanks} laid={laid} picked={picked} onPick={setPicked} />
        ) : null}
      </section>
      <aside className="fitp-side" aria-label="Numbers of the offcut">
        <div className="offcut-head">
          {offcuts.length > 1 ? (
            <ListChoice
              label="Offcut"
              value={part.id}
              options={offcuts.map((one) => ({ value: one.id, label: partName(one) }))}
              onChoose={onShow}
            />
          ) : (
            <h2 className="side-title">{partName(part)}</h2>
          )}
          <Button size="small" look="quiet" onClick={onEnter}>
            <Sign name="plus" /> Another
          </Button>
        </div>
        <p className="note offcut-trace">
          To draw its outline or trace it over a photograph, choose Points and go to{" "}
          <a href={hashOf({ place: "parts", part: part.id })}>its board</a>.
        </p>
        <NumbersPanel part={panel} />
      </aside>
    </div>
  );
}

interface ListProps {
  readonly bench: Workbench;
  readonly part: DerivedPart;
  readonly offcut: Offcut;
  readonly blanks: readonly PlacedBlank[];
  readonly laid: readonly LaidPiece[];
  readonly picked: number | undefined;
  readonly onPick: (index: number | undefined) => void;
}

const titleOf = ({ blank, partLabel }: PlacedBlank): string =>
  partLabel === blank.title ? blank.title : `${blank.title} (${partLabel.toLowerCase()})`;

/** A pose as the offcut's table keeps it: mm, and degrees from the wood's grain. */
const recordOf = (blank: string, pose: Pose, offcut: Offcut) => ({
  blank,
  x: round(pose.x, 3),
  y: round(pose.y, 3),
  turn: `${round(degrees(pose.turn - offcut.grain), 4)} deg`,
  flipped: pose.flipped,
});

const round = (value: number, digits: number): number => Number(value.toFixed(digits)) + 0;

/** Within half a turn either way. */
function degrees(radians: number): number {
  const turn = (radians * 180) / Math.PI;
  return turn - 360 * Math.round(turn / 360);
}

function PieceList({ bench, part, offcut, blanks, laid, picked, onPick }: ListProps) {
  const design = useDesign();
  const notation = useNotation();
  const searching = useSearching();
  const saving = useSheetSaving();
  const settings = usePaperSettings(notation);
  const [blankId, setBlank] = useState(blanks[0]?.id ?? "");
  const chosen = blanks.find(({ id }) => id === blankId) ?? blanks[0];
  const path = `${part.path}.pieces`;
  const wood = soundWood(offcut);
  const apart = leastApart(laid);

  function lay(): void {
    if (!chosen) return;
    const box = part.drawing().dimensions;
    const [x, y] = ["length", "width"].map((id) => (box.find((one) => one.id === id)?.value ?? 0) / 2);
    const result = addRecord(bench, path, laid.length, { blank: chosen.id, x, y });
    if (result.ok) onPick(laid.length);
    else tellTrouble("It was not laid", result.error);
  }

  /** Looks for a place for one piece on what the others leave. */
  async function find(index: number): Promise<void> {
    const piece = laid[index];
    const wanted = piece?.placed && wantedOf(piece.placed, offcut);
    if (!wood || !piece?.placed || !wanted) return;
    const free = freeWood(
      wood,
      laid.filter((other) => other.index !== index),
      offcut.kerf,
    );
    const reply = await searching.ask({ kind: "place", wood: free, wanted });
    if (reply?.kind !== "place") return;
    const { answer } = reply;
    const name = piece.placed.blank.title;
    if (answer.answer === "fits") {
      editValue(bench, `${path}[${index}]`, recordOf(piece.blankId, answer.pose, offcut));
      tell({ title: `${name}: it fits.`, more: `${say(answer.spare, "length", notation)} to spare all round.`, kind: "fine" });
    } else if (answer.answer === "does-not-fit")
      tell({
        title: `${name}: it does not fit.`,
        more: Number.isFinite(answer.spare)
          ? `Its best place is about ${say(-answer.spare, "length", notation)} short.`
          : "It is larger than the wood that is free.",
        kind: "stop",
      });
    else
      tell({
        title: `${name}: too close to call.`,
        more: "It may go in within a few hundredths, or not. Try it with a paper template, or take off allowance.",
      });
  }

  async function findAll(): Promise<void> {
    const wanted = laid.flatMap(({ placed }) => (placed ? (wantedOf(placed, offcut) ?? []) : []));
    if (!wood || wanted.length !== laid.length) return;
    const reply = await searching.ask({ kind: "sequence", wood, wanted, kerf: offcut.kerf });
    if (reply?.kind !== "sequence") return;
    const { sequence } = reply;
    if (sequence.answer === "fits") {
      editValue(
        bench,
        path,
        sequence.laid.map(({ pose }, i) => recordOf(laid[i]!.blankId, pose, offcut)),
      );
      tell({ title: "All fit, one after another along the wood.", kind: "fine" });
      return;
    }
    const stuck = laid[sequence.stuck?.index ?? 0]?.placed?.blank.title ?? "A piece";
    if (sequence.answer === "does-not-fit") tell({ title: `${stuck}: it does not fit, not even alone.`, kind: "stop" });
    else
      tell({
        title: `${stuck}: no place was found behind the others.`,
        more: "Another order, or laying by hand, may still bring it in.",
      });
  }

  const save = (): void => {
    if (!settings.chosen) return;
    const template = placementTemplate(part, offcut, laid);
    const options = { ...sheetOptions(design, settings.chosen), joints: {} };
    void saving.save({ design, templates: [template], options }, pdfOfJob);
  };

  const busy = searching.progress !== undefined;
  return (
    <div className="offcut-list">
      <div className="fitp-bar offcut-bar">
        {blanks.length === 0 ? (
          <p className="note">No part of this design says yet what it is cut from.</p>
        ) : (
          <>
            <ListChoice
              label="Blank to lay"
              value={chosen?.id ?? ""}
              options={blanks.map((placed) => ({ value: placed.id, label: titleOf(placed) }))}
              onChoose={setBlank}
            />
            <Button onClick={lay}>Lay it on</Button>
          </>
        )}
        <span className="offcut-gap" />
        {busy ? (
          <>
            <progress aria-label="Looking for a place" max={1} value={searching.progress} />
            <Button onClick={searching.cancel}>Cancel</Button>
          </>
        ) : laid.length > 1 ? (
          <Button onClick={() => void findAll().catch(tellFault)}>Lay all in sequence</Button>
        ) : null}
        {saving.progress === undefined ? (
          <Button disabled={laid.length === 0 || !settings.chosen} onClick={save}>
            Placement sheet
          </Button>
        ) : (
          <Button onClick={saving.cancel}>Cancel the sheet</Button>
        )}
      </div>
      {laid.length === 0 ? (
        <p className="note">
          Nothing is laid on it yet. Choose a blank and lay it on, then drag it, type its place, or have one found.
        </p>
      ) : null}
      <ul className="fitp-list">
        {laid.map((piece) => (
          <PieceItem
            key={piece.index}
            part={part}
            piece={piece}
            picked={picked === piece.index}
            busy={busy}
            onPick={() => onPick(picked === piece.index ? undefined : piece.index)}
            onFind={() => void find(piece.index).catch(tellFault)}
            onTake={() => {
              takeRecord(bench, path, piece.index);
              onPick(undefined);
            }}
          />
        ))}
      </ul>
      {apart ? (
        <p className={`offcut-apart ${apart.between >= offcut.kerf ? "note" : "says-stop"}`}>
          {apart.between < 0
            ? "Two blanks lie over each other."
            : `${say(apart.between, "length", notation)} between the nearest blanks; the saw takes ${say(offcut.kerf, "length", notation)}.`}
        </p>
      ) : null}
    </div>
  );
}

const tellFault = (error: unknown): number | void =>
  tell({ title: "No place was looked for.", more: error instanceof Error ? error.message : String(error), kind: "stop" });

function PieceItem({
  part,
  piece,
  picked,
  busy,
  onPick,
  onFind,
  onTake,
}: {
  readonly part: DerivedPart;
  readonly piece: LaidPiece;
  readonly picked: boolean;
  readonly busy: boolean;
  readonly onPick: () => void;
  readonly onFind: () => void;
  readonly onTake: () => void;
}) {
  const notation = useNotation();
  const editing = useEditing();
  const fields = part.fields.find(({ key }) => key === "pieces")?.records?.[piece.index] ?? [];
  const { severity, words } = stateOf(piece, (mm) => say(mm, "length", notation));
  const name = piece.placed?.blank.title ?? piece.blankId;
  return (
    <li className="fitp-item" data-picked={picked ? "" : undefined}>
      <div className="offcut-item">
        <span className={`says-${severity}`}>
          <FindingSign severity={severity} />
        </span>
        <div>
          <strong>
            {piece.index + 1}. {name}
          </strong>
          <p className={severity === "fine" ? "note" : `says-${severity}`}>{words}</p>
        </div>
        <Button size="small" disabled={busy || !piece.placed} label={`Find a place for ${name}`} onClick={onFind}>
          Find a place
        </Button>
        <Button size="small" look="quiet" pressed={picked} label={`Place of ${name} in numbers`} onClick={onPick}>
          Numbers
        </Button>
        <Button size="icon" look="quiet" label={`Take ${name} off`} onClick={onTake}>
          <Sign name="bin" />
        </Button>
      </div>
      {picked ? (
        <div className="fitp-fields">
          {fields
            .filter(({ key, idle }) => key !== "blank" && !idle)
            .map((field) => (
              <FieldRow key={field.path} field={field} notation={notation} editing={editing} />
            ))}
        </div>
      ) : null}
    </li>
  );
}

function stateOf(
  { placed, spare, lie }: LaidPiece,
  show: (mm: number) => string,
): { readonly severity: "stop" | "look" | "fine"; readonly words: string } {
  if (!placed) return { severity: "look", words: "the design has no such blank" };
  if (spare === undefined || !lie) return { severity: "look", words: "its numbers cannot be read" };
  const allowance = placed.wood.value?.allowance ?? 0;
  const behind = allowance > 0 ? ` beyond its allowance of ${show(allowance)}` : "";
  if (spare >= 0) return { severity: "fine", words: `lies in the wood, ${show(spare)} to spare${behind}` };
  if (lie.spare > 0) return { severity: "look", words: `lies in the wood, but its allowance is ${show(-spare)} short` };
  return { severity: "stop", words: `reaches out of the sound wood by ${show(-lie.spare)}` };
}
