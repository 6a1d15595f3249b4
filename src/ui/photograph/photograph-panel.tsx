/** All about the photograph under a board, for the keyboard too: where it comes from, its scale, its place, how it is seen. */
import { bytesOf, type Pair, type Photograph } from "../../document/board.ts";
import { editPhotograph, setPhotograph } from "../../store/commands/edit-board.ts";
import { useBench } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice, Switch } from "../kit/choice.tsx";
import { MeasureField } from "../kit/measure-field.tsx";
import { FindingSign, Sign } from "../kit/sign.tsx";
import { say, type Notation } from "../notation.ts";
import { residualOf, SHEETS } from "./photograph-plane.ts";
import { marksIn, type Scaling } from "./use-scaling.ts";
import "../board/tools/tool-panel.css";

interface PhotographPanelProps {
  readonly part: string;
  readonly photograph: Photograph | undefined;
  readonly state: "none" | "busy" | "broken" | "shown";
  readonly scaling: Scaling;
  readonly notation: Notation;
  readonly onChoose: () => void;
  readonly onClose: () => void;
}

export function PhotographPanel(props: PhotographPanelProps) {
  const { photograph, scaling, onChoose, onClose, state } = props;
  return (
    <section className="tool-panel" aria-label="Photograph">
      <div className="tool-panel-head">
        <h2 className="tool-panel-title">Photograph</h2>
        <Button look="quiet" size="icon" label="Close" onClick={onClose}>
          <Sign name="close" />
        </Button>
      </div>
      {state === "busy" ? <p className="note">The photograph is being read.</p> : null}
      {state === "broken" ? (
        <p className="tool-says" role="alert">
          <FindingSign severity="stop" /> <span>The picture that is kept here cannot be shown. Choose it anew.</span>
        </p>
      ) : null}
      {photograph ? (
        scaling.draft ? (
          <ScaleIt {...props} photograph={photograph} />
        ) : (
          <Laid {...props} photograph={photograph} />
        )
      ) : (
        <>
          <p className="note">
            Lay a photograph under the board and draw over it. PNG, JPEG or WebP; drop it on the board, or choose it. It is kept
            in this design, on this computer, and goes nowhere else.
          </p>
          <Button look="main" onClick={onChoose}>
            Choose a photograph
          </Button>
        </>
      )}
    </section>
  );
}

type With = PhotographPanelProps & { readonly photograph: Photograph };

function Laid({ part, photograph, scaling, notation, onChoose }: With) {
  const bench = useBench();
  const edit = (given: Parameters<typeof editPhotograph>[2], gesture?: string): void =>
    editPhotograph(bench, part, given, gesture);
  const { scale, at, turn, locked = false, hidden = false, opacity = 1 } = photograph;
  const residual = residualOf(photograph);
  const mark = scale ? "first mark" : "middle";
  return (
    <>
      <p className="note">
        {photograph.name}: {photograph.width} × {photograph.height} pixels, {sizeText(bytesOf(photograph))} in this design.
      </p>
      <p className="tool-says">
        <FindingSign severity={scale ? "fine" : "look"} />{" "}
        <span>
          {!scale
            ? "Not to scale yet: nothing that is drawn over it is true."
            : scale.by === "points"
              ? `To scale by two points ${scale.length} apart; it must have been taken square to the outline.`
              : `Flattened by a rectangle of ${scale.across} by ${scale.down}.`}
        </span>
      </p>
      {scale?.by === "rectangle" ? (
        residual ? (
          <p className="tool-says">
            <FindingSign severity={Math.abs(residual.share) > 0.005 ? "look" : "fine"} />{" "}
            <span>
              A known {say(residual.known, "length", notation)} comes out as {say(residual.measured, "length", notation)}:{" "}
              {Math.abs(residual.share * 100).toFixed(2)} % {residual.share < 0 ? "short" : "long"}.
            </span>
          </p>
        ) : (
          <p className="note">Four corners fit any picture. A further known length shows how true it is.</p>
        )
      ) : null}
      <div className="tool-acts">
        <Button size="small" onClick={() => scaling.begin("points")}>
          Scale by two points
        </Button>
        <Button size="small" onClick={() => scaling.begin("rectangle")}>
          Flatten by four corners
        </Button>
      </div>
      <h3 className="tool-panel-part">Place of its {mark}</h3>
      <div className="tool-fields">
        {([0, 1] as const).map((axis) => (
          <MeasureField
            key={axis}
            label={axis === 0 ? "x" : "y"}
            quantity="length"
            notation={notation}
            value={say(at[axis], "length", notation)}
            onSay={(mm) => edit({ at: axis === 0 ? [mm, at[1]] : [at[0], mm] })}
          />
        ))}
        <MeasureField
          label="Turned"
          quantity="angle"
          notation={notation}
          value={`${Number(turn.toFixed(3))}°`}
          onSay={(angle) => edit({ turn: Math.round((angle * 180e5) / Math.PI) / 1e5 })}
        />
      </div>
      <div className="tool-acts">
        <Button size="small" onClick={() => edit({ turn: (turn + 90) % 360 })}>
          Turn by 90°
        </Button>
        <Button size="small" onClick={() => edit({ turn: (Math.round(turn / 90) * 90) % 360 })}>
          {scale?.by === "points" ? "Lay its points square" : "Lay it square"}
        </Button>
      </div>
      <label className="tool-range">
        <span>Seen through</span>
        <input
          type="range"
          min={0}
          max={90}
          step={5}
          value={Math.round((1 - opacity) * 100)}
          aria-label="Seen through, percent"
          onChange={(e) => edit({ opacity: 1 - Number(e.target.value) / 100 }, "photograph opacity")}
        />
        <span className="num">{Math.round((1 - opacity) * 100)} %</span>
      </label>
      <div className="tool-switch">
        <span id="photograph-locked">Locked in its place</span>
        <Switch labelledBy="photograph-locked" on={locked} onChange={(on) => edit({ locked: on ? true : undefined })} />
      </div>
      <div className="tool-switch">
        <span id="photograph-hidden">Hidden</span>
        <Switch labelledBy="photograph-hidden" on={hidden} onChange={(on) => edit({ hidden: on ? true : undefined })} />
      </div>
      <p className="note">{locked ? "" : "Drag it, or press the arrow keys on the board; Shift for 10 mm, Alt for 0.1 mm."}</p>
      <div className="tool-acts">
        <Button size="small" onClick={onChoose}>
          Choose another
        </Button>
        <Button size="small" onClick={() => setPhotograph(bench, part, undefined)}>
          Take it away
        </Button>
      </div>
    </>
  );
}

const sizeText = (bytes: number): string =>
  bytes >= 1e6 ? `${(bytes / 1e6).toFixed(1)} MB` : `${Math.max(1, Math.round(bytes / 1e3))} kB`;

function ScaleIt({ photograph, scaling, notation }: With) {
  const draft = scaling.draft!;
  const rectangle = draft.by === "rectangle";
  const known = SHEETS.find(({ sides }) => [...sides].toSorted().join() === [draft.across, draft.down].toSorted().join());
  const [x, y] = draft.marks[draft.chosen] ?? [0, 0];
  const put = (axis: 0 | 1) => (value: number) => scaling.put(draft.chosen, axis === 0 ? [value, y] : [x, value]);
  return (
    <>
      <p className="note">
        {rectangle
          ? "Put marks 1 to 4 on the corners of a rectangle that you know, one after the other, all round. Mark 1 to 2 is the first side."
          : "Put marks 1 and 2 on two places whose distance you know, as far apart as can be."}{" "}
        Press the place, drag a mark, or choose it with . and , and push it with the arrow keys (Shift for 10 pixels, Alt for a
        tenth).
      </p>
      {rectangle ? (
        <p className="tool-says">
          <FindingSign severity="look" />{" "}
          <span>
            The rectangle must lie in the plane of the outline, on the wood itself. From 1.5 m away, a sheet that lies 100 mm
            lower makes all of it 7 % wrong.
          </span>
        </p>
      ) : null}
      <div className="tool-fields">
        <span className="tool-mark">Mark {draft.chosen + 1}</span>
        {(["x", "y"] as const).map((name, axis) => (
          <MeasureField
            key={`${name}${draft.chosen}`}
            label={`${name}, pixels`}
            quantity="number"
            notation={notation}
            value={`${axis === 0 ? x : y}`}
            onSay={put(axis as 0 | 1)}
          />
        ))}
      </div>
      {rectangle ? (
        <>
          <div className="tool-sheet">
            <ListChoice
              label="Rectangle"
              value={known?.name ?? "other"}
              options={[
                ...SHEETS.map(({ name }) => ({ value: name, label: `Sheet of ${name}` })),
                { value: "other", label: "Another rectangle" },
              ]}
              onChoose={(name) => {
                const sheet = SHEETS.find((one) => one.name === name);
                if (sheet) scaling.change({ across: sheet.sides[0], down: sheet.sides[1] });
                else scaling.change({ across: "", down: "" });
              }}
            />
            <Button size="small" onClick={() => scaling.change({ across: draft.down, down: draft.across })}>
              Swap its sides
            </Button>
          </div>
          <div className="tool-fields">
            <MeasureField
              label="1 to 2"
              quantity="length"
              positive
              notation={notation}
              value={draft.across}
              onSay={(_, text) => scaling.change({ across: text })}
            />
            <MeasureField
              label="2 to 3"
              quantity="length"
              positive
              notation={notation}
              value={draft.down}
              onSay={(_, text) => scaling.change({ down: text })}
            />
          </div>
          {draft.check === "" ? (
            <Button size="small" onClick={() => scaling.change({ check: "100 mm", chosen: 4 })}>
              Check by a further length
            </Button>
          ) : (
            <div className="tool-fields">
              <MeasureField
                label="5 to 6"
                quantity="length"
                positive
                notation={notation}
                value={draft.check}
                onSay={(_, text) => scaling.change({ check: text })}
              />
              <Button size="small" onClick={() => scaling.change({ check: "", chosen: 0 })}>
                Without it
              </Button>
            </div>
          )}
          <Check photograph={photograph} scaling={scaling} notation={notation} />
        </>
      ) : (
        <div className="tool-fields">
          <MeasureField
            label="Length from 1 to 2"
            quantity="length"
            positive
            notation={notation}
            value={draft.length}
            placeholder={notation.unit === "in" ? "6 in" : "150 mm"}
            onSay={(_, text) => scaling.change({ length: text })}
          />
        </div>
      )}
      {scaling.missing ? <p className="note">{scaling.missing}</p> : null}
      <div className="tool-acts">
        <Button look="main" disabled={scaling.missing !== undefined} onClick={scaling.take}>
          {rectangle ? "Flatten it" : "Scale it"}
        </Button>
        <Button onClick={scaling.leave}>Leave it</Button>
      </div>
    </>
  );
}

/** What the further length comes out as with the marks as they stand. */
function Check({ photograph, scaling, notation }: Pick<With, "photograph" | "scaling" | "notation">) {
  const draft = scaling.draft!;
  if (marksIn(draft) < 6 || scaling.missing) return null;
  const [a, b, c, d, e, f] = draft.marks as readonly [Pair, Pair, Pair, Pair, Pair, Pair];
  const found = residualOf({
    ...photograph,
    scale: {
      by: "rectangle",
      corners: [a, b, c, d],
      across: draft.across,
      down: draft.down,
      check: { points: [e, f], length: draft.check },
    },
  });
  return found ? (
    <p className="note">
      It comes out as {say(found.measured, "length", notation)}: {Math.abs(found.share * 100).toFixed(2)} %{" "}
      {found.share < 0 ? "short" : "long"}.
    </p>
  ) : null;
}
