/** The dividers in words and fields: what is measured, by press or by typing, and what is kept of it. */
import type { Span } from "../../../document/board.ts";
import { dropSpan, keepSpan } from "../../../store/commands/edit-board.ts";
import { useBench } from "../../bench.ts";
import { Button } from "../../kit/button.tsx";
import { ListChoice } from "../../kit/choice.tsx";
import { MeasureField } from "../../kit/measure-field.tsx";
import { Sign } from "../../kit/sign.tsx";
import { say, type Notation } from "../../notation.ts";
import { measureSpan, placeOfEnd, type Measured, type Shapes } from "./spans.ts";
import type { Dividers } from "./use-dividers.ts";
import "./tool-panel.css";

interface DividersPanelProps {
  readonly part: string;
  readonly dividers: Dividers;
  readonly spans: readonly Span[];
  readonly notation: Notation;
  readonly onClose: () => void;
}

export function DividersPanel({ part, dividers, spans, notation, onClose }: DividersPanelProps) {
  const bench = useBench();
  const { shapes, ends, measured, span, between } = dividers;
  const options = [{ value: "", label: "no line" }, ...[...shapes.values()].map(({ id, name }) => ({ value: id, label: name }))];
  const [a = "", b = ""] = between ?? [];
  return (
    <section className="tool-panel" aria-label="Dividers">
      <div className="tool-panel-head">
        <h2 className="tool-panel-title">Dividers</h2>
        <Button look="quiet" size="icon" label="Close" onClick={onClose}>
          <Sign name="close" />
        </Button>
      </div>
      <p className="note">Press two places. A leg keeps to a corner, to the middle of a hole, or to a line that is near.</p>
      <output className="dividers-found" aria-live="polite">
        {measured ? (
          <Found measured={measured} notation={notation} />
        ) : ends.length === 1 ? (
          <span className="note">Press the second place.</span>
        ) : null}
      </output>
      <h3 className="tool-panel-part">From and to</h3>
      {([0, 1] as const).map((index) => {
        const end = ends[index];
        const place = end && placeOfEnd(end, shapes);
        return (
          <div key={index} className="tool-fields">
            {(["x", "y"] as const).map((axis) => (
              <MeasureField
                key={axis}
                label={`${axis} of leg ${index + 1}`}
                quantity="length"
                notation={notation}
                value={place ? say(place[axis], "length", notation) : ""}
                onSay={(mm) => {
                  const { x, y } = place ?? { x: 0, y: 0 };
                  dividers.setEnd(index, { at: axis === "x" ? [mm, y] : [x, mm] });
                }}
              />
            ))}
          </div>
        );
      })}
      <h3 className="tool-panel-part">Or the shortest way between two lines</h3>
      <div className="tool-sheet">
        {([0, 1] as const).map((index) => (
          <ListChoice
            key={index}
            label={index === 0 ? "One line" : "The other line"}
            value={index === 0 ? a : b}
            options={options}
            onChoose={(id) => dividers.setBetween(index === 0 ? [id, b] : [a, id])}
          />
        ))}
      </div>
      <div className="tool-acts">
        <Button
          size="small"
          disabled={!span || !measured}
          onClick={() => (span && measured ? keepSpan(bench, part, span) : undefined)}
        >
          Keep as a dimension
        </Button>
        <Button size="small" disabled={ends.length === 0 && !between} onClick={dividers.clear}>
          Lift them
        </Button>
      </div>
      {spans.length > 0 ? (
        <>
          <h3 className="tool-panel-part">Kept on this board</h3>
          <ul className="dividers-kept">
            {spans.map((one, i) => (
              <li key={`${i + 1} ${JSON.stringify(one)}`}>
                <span>
                  {i + 1}: {wordsOf(one, shapes)} <span className="num">{lengthOf(one, shapes, notation)}</span>
                </span>
                <Button look="quiet" size="icon" label={`Take dimension ${i + 1} away`} onClick={() => dropSpan(bench, part, i)}>
                  <Sign name="bin" />
                </Button>
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </section>
  );
}

function Found({ measured, notation }: { readonly measured: Measured; readonly notation: Notation }) {
  const rows: (readonly [string, string])[] = [
    ["along", say(measured.along, "length", notation)],
    ["across", say(measured.across, "length", notation)],
    ["from the centre line", say(measured.angle, "angle", notation)],
    ...(measured.between === undefined ? [] : [["between the two lines", say(measured.between, "angle", notation)] as const]),
  ];
  return (
    <>
      <strong className="num">{say(measured.distance, "length", notation)}</strong>
      <dl>
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd className="num">{value}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

function wordsOf(span: Span, shapes: Shapes): string {
  const name = (id: string): string => shapes.get(id)?.name ?? "a line that is gone";
  if ("between" in span) return `${name(span.between[0])} to ${name(span.between[1])}`;
  const [from, to] = [span.from, span.to].map((end) =>
    "at" in end ? "a place" : "middleOf" in end ? `middle of ${name(end.middleOf)}` : name(end.shape),
  );
  return `${from} to ${to}`;
}

function lengthOf(span: Span, shapes: Shapes, notation: Notation): string {
  const found = measureSpan(span, shapes);
  return found ? say(found.distance, "length", notation) : "";
}
