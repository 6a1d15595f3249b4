/** What can be done with the points of an outline, for those who do not drag: every entry has its key. */
import type { ReactNode } from "react";
import { vec } from "../../../geometry/vec.ts";
import type { DerivedPart } from "../../../parts/derived.ts";
import { lengthInFull, type LengthStyle } from "../../../units/format.ts";
import { Button } from "../../kit/button.tsx";
import { MeasureField } from "../../kit/measure-field.tsx";
import { Menu } from "../../kit/menu.tsx";
import { NumberField } from "../../kit/number-field.tsx";
import { tell } from "../../kit/tell.tsx";
import { useEditing } from "../../panels/editing.ts";
import {
  aligned,
  arcThroughThree,
  boxOf,
  faired,
  inserted,
  joined,
  moved,
  ofKind,
  removed,
  scaled,
  split,
  withSide,
  type Edit,
} from "./actions.ts";
import { SNAP_WORDS, SNAPS } from "./snap.ts";
import type { OutlineEditor } from "./use-outline-editor.ts";
import "./toolbar.css";

/** Deviations that a run may be faired within, mm. */
const DEVIATIONS = [0.1, 0.25, 0.5, 1];
const SPLIT_MM = 10;

interface ToolbarProps {
  /** Undefined where there are no points to work on now. */
  readonly editor: OutlineEditor | undefined;
  readonly part: DerivedPart;
  readonly units: LengthStyle;
  /** Tools beside those for points. */
  readonly more: ReactNode;
}

export const OutlineToolbar = ({ editor, part, units, more }: ToolbarProps) => (
  <div className="points-bar" role="toolbar" aria-label={editor ? `Points: ${editor.outline.title}` : "Tools"}>
    {editor ? <PointTools editor={editor} part={part} units={units} /> : null}
    {more}
  </div>
);

function PointTools({
  editor,
  part,
  units,
}: {
  readonly editor: OutlineEditor;
  readonly part: DerivedPart;
  readonly units: LengthStyle;
}) {
  const { outline, chosen } = editor;
  const editing = useEditing();
  const none = chosen.size === 0;
  const one = chosen.size === 1 ? [...chosen][0]! : undefined;
  const point = one === undefined ? undefined : outline.points[one];
  const records = part.fields.find(({ key }) => key === outline.key)?.records;
  const act = (work: (edit: Edit) => Edit | undefined) => () => editor.say(work(editor.now()));
  const say = (mm: number): string => lengthInFull(mm, units);

  const { loose } = outline;
  const keyOf = (axis: "x" | "y"): string => loose?.[axis].key ?? axis;
  const kinds = [
    { label: "Corner", keys: "C", checked: point?.kind === "corner", onChoose: act((e) => ofKind(e, "corner")) },
    {
      label: "Fair",
      about: "Its sides meet in one direction",
      keys: "V",
      checked: point?.kind === "fair",
      onChoose: act((e) => ofKind(e, "fair")),
    },
    {
      label: "Even",
      about: "In one direction and with equal handles",
      keys: "E",
      checked: point?.kind === "even",
      onChoose: act((e) => ofKind(e, "even")),
    },
  ];
  const joins = [
    { label: "Join with the next", about: "One point half way between the two", onChoose: act(joined) },
    {
      label: "Draw apart",
      about: `Two points ${say(SPLIT_MM)} from each other`,
      onChoose: act((e: Edit) => split(outline, e, SPLIT_MM)),
    },
  ];
  return (
    <>
      {editor.titles.length > 1 ? (
        <Menu
          align="start"
          trigger={<Button size="small">{outline.title}</Button>}
          entries={editor.titles.map((title) => ({
            label: title,
            checked: title === outline.title,
            onChoose: () => editor.take(title),
          }))}
        />
      ) : null}
      <Menu
        align="start"
        trigger={
          <Button size="small" disabled={none}>
            Point
          </Button>
        }
        entries={[
          ...(loose ? [] : kinds),
          { label: "Put one in after it", keys: "I", apart: !loose, onChoose: act((e) => inserted(outline, e)) },
          { label: "Take out", keys: "Del", onChoose: act(removed) },
          ...(loose ? [] : joins),
        ]}
      />
      {loose ? null : <OutlineTools editor={editor} units={units} />}
      {one !== undefined && point ? (
        <span className="points-place">
          <span className="points-count">
            {one + 1} of {outline.points.length}
          </span>
          {(["x", "y"] as const).map((key) => {
            const field = records?.[one]?.find((f) => f.key === keyOf(key));
            return field ? (
              <span key={key} className="points-field">
                {keyOf(key)}
                <NumberField
                  field={field}
                  notation={units}
                  label={`${keyOf(key)} of point ${one + 1}`}
                  bare
                  onTry={(text) => editing.tryValue(field.path, text)}
                  onCommit={(text, gesture) => editing.sayValue(field.path, text, gesture)}
                  onDrop={editing.drop}
                />
              </span>
            ) : (
              <span key={key} className="points-field num">
                {key} {say(point[key])}
              </span>
            );
          })}
        </span>
      ) : (
        <span className="points-count">
          {none && outline.points.length === 0
            ? "No points yet: trace them."
            : none
              ? `${outline.points.length} points; press one`
              : `${chosen.size} points chosen`}
          {none && outline.points.length > 0 ? <span className="points-keys">, or . and ,</span> : null}
        </span>
      )}
      {chosen.size > 1 ? <Together editor={editor} units={units} /> : null}
      <output className="unseen">
        {one !== undefined && point
          ? `Point ${one + 1} of ${outline.points.length}, ${loose ? "" : `${point.kind}, `}x ${say(point.x)}, y ${say(point.y)}`
          : none
            ? ""
            : `${chosen.size} points chosen`}
      </output>
    </>
  );
}

/** What is done to the sides of an outline and to several of its points, and what they keep to. */
function OutlineTools({ editor, units }: { readonly editor: OutlineEditor; readonly units: LengthStyle }) {
  const { outline, chosen } = editor;
  const none = chosen.size === 0;
  const point = chosen.size === 1 ? outline.points[[...chosen][0]!] : undefined;
  const act = (work: (edit: Edit) => Edit | undefined) => () => editor.say(work(editor.now()));
  const say = (mm: number): string => lengthInFull(mm, units);

  function fair(deviation: number): void {
    const edit = faired(editor.now(), deviation);
    editor.say(edit);
    tell({
      title:
        edit.moved > 0
          ? `Made fair; the greatest move is ${say(edit.moved)}.`
          : "Nothing to make fair: four points in a run are needed.",
    });
  }

  return (
    <>
      <Menu
        align="start"
        trigger={
          <Button size="small" disabled={none}>
            Side
          </Button>
        }
        entries={[
          { label: "Straight", checked: point?.side === "straight", onChoose: act((e) => withSide(e, "straight")) },
          { label: "Curve", checked: point?.side === "curve", onChoose: act((e) => withSide(e, "curve")) },
          {
            label: "Arc",
            about: "Tangent to its neighbour; by its handle, or by a radius typed at the right",
            checked: point?.side === "arc",
            onChoose: act((e) => withSide(e, "arc")),
          },
          {
            label: "Arc through three points",
            about: "Three in a row are chosen: the middle one gives way to the arc",
            disabled: chosen.size !== 3,
            apart: true,
            onChoose: act(arcThroughThree),
          },
        ]}
      />
      <Menu
        align="start"
        trigger={
          <Button size="small" disabled={chosen.size < 2}>
            Arrange
          </Button>
        }
        entries={[
          { label: "Level with each other", onChoose: act((e) => aligned(e, "y")) },
          { label: "Straight across from each other", onChoose: act((e) => aligned(e, "x")) },
          ...[1.1, 1.01, 0.99, 0.9].map((k, i) => ({
            label: `Scale to ${Math.round(k * 100)} %`,
            apart: i === 0,
            onChoose: act((e: Edit) => scaled(e, k)),
          })),
        ]}
      />
      <Menu
        align="start"
        trigger={<Button size="small">Fair</Button>}
        entries={[
          {
            label: "Fairness lines",
            about: "Spikes as long as the outline is bent",
            keys: "B",
            checked: editor.fairness,
            onChoose: () => editor.setFairness(!editor.fairness),
          },
          ...DEVIATIONS.map((deviation, i) => ({
            label: `Make fair within ${say(deviation)}`,
            ...(deviation === 0.25 ? { keys: "W" } : {}),
            apart: i === 0,
            onChoose: () => fair(deviation),
          })),
        ]}
      />
      <Menu
        align="start"
        trigger={<Button size="small">Keep to</Button>}
        entries={SNAPS.map((snap) => ({
          label: SNAP_WORDS[snap].label,
          about: SNAP_WORDS[snap].about,
          checked: editor.snaps.has(snap),
          onChoose: () => editor.toggleSnap(snap),
        }))}
      />
    </>
  );
}

/** Several points moved by typing where their middle goes, and scaled by typing how long and how wide they lie. */
function Together({ editor, units }: { readonly editor: OutlineEditor; readonly units: LengthStyle }) {
  const edit = editor.now();
  const box = boxOf(edit);
  const middle = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const [long, wide] = [box.maxX - box.minX, box.maxY - box.minY];
  const fields: readonly (readonly [string, number, ((mm: number) => Edit) | undefined])[] = [
    ["x", middle.x, (mm) => moved(edit, vec(mm - middle.x, 0))],
    ["y", middle.y, (mm) => moved(edit, vec(0, mm - middle.y))],
    ["long", long, long > 0 ? (mm) => scaled(edit, mm / long, 1) : undefined],
    ["wide", wide, wide > 0 ? (mm) => scaled(edit, 1, mm / wide) : undefined],
  ];
  return (
    <span className="points-place">
      {fields.map(([label, value, to]) =>
        to ? (
          <MeasureField
            key={label}
            label={label}
            quantity="length"
            notation={units}
            positive={label === "long" || label === "wide"}
            value={lengthInFull(value, units)}
            onSay={(mm) => editor.say(to(mm))}
          />
        ) : null,
      )}
    </span>
  );
}
