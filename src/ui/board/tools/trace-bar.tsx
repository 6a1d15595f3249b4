/** Tracing in words and fields. */
import { useState } from "react";
import { vec } from "../../../geometry/vec.ts";
import { Button } from "../../kit/button.tsx";
import { Switch } from "../../kit/choice.tsx";
import { MeasureField } from "../../kit/measure-field.tsx";
import { say, type Notation } from "../../notation.ts";
import type { Tracing } from "./use-trace.ts";

interface TraceBarProps {
  /** What tracing leads to, and whether corners are told from other places. */
  readonly finishLabel: string;
  readonly corners: boolean;
  readonly tracing: Tracing;
  readonly units: Notation;
  readonly onLeave: () => void;
}

export function TraceBar({ tracing, units, onLeave, finishLabel, corners }: TraceBarProps) {
  const [typed, setTyped] = useState<{ readonly x?: number; readonly y?: number }>({});
  const { places, corner, finish } = tracing;
  const last = places.at(-1)?.at;
  const { x, y } = typed;
  return (
    <div className="points-bar" role="toolbar" aria-label="Trace">
      <span className="points-count">
        {places.length === 0 ? "Press along the edge, one place after the other." : `${places.length} places.`}
      </span>
      <output className="points-count num" aria-label="Last place">
        {last ? `x ${say(last.x, "length", units)}, y ${say(last.y, "length", units)}` : ""}
      </output>
      {corners ? (
        <span className="points-place">
          <span id="trace-corner">Corners</span>
          <Switch labelledBy="trace-corner" on={corner} onChange={tracing.setCorner} />
        </span>
      ) : null}
      <span className="points-field">
        {(["x", "y"] as const).map((axis) => (
          <MeasureField
            key={axis}
            label={axis}
            quantity="length"
            notation={units}
            value={typed[axis] === undefined ? "" : say(typed[axis], "length", units)}
            onSay={(mm) => setTyped((old) => ({ ...old, [axis]: mm }))}
          />
        ))}
        <Button
          size="small"
          disabled={x === undefined || y === undefined}
          onClick={() => {
            if (x === undefined || y === undefined) return;
            tracing.put(vec(x, y));
            setTyped({});
          }}
        >
          Put it
        </Button>
      </span>
      <Button size="small" disabled={places.length === 0} onClick={tracing.back}>
        Last one off
      </Button>
      <Button size="small" look="main" disabled={!finish} onClick={() => finish?.()}>
        {finishLabel}
      </Button>
      <Button
        size="small"
        onClick={() => {
          tracing.clear();
          onLeave();
        }}
      >
        Leave it
      </Button>
    </div>
  );
}
