/** The general arrangement: all parts in place, each to be gone to by a press, the distances between them, and the sheet for the wall. */
import { useMemo, useState } from "react";
import { fileNameOf } from "../../document/file-name.ts";
import { overviewFile } from "../../export/overview-job.ts";
import { arrange, ownerOf } from "../../parts/general-arrangement.ts";
import { partName } from "../../parts/part-name.ts";
import { OVERVIEW_SCALES } from "../../sheets/overview.ts";
import { PAPERS } from "../../sheets/paper.ts";
import { SHEET_DEFAULTS } from "../../sheets/sheet.ts";
import { fingerprintOf } from "../../document/fingerprint.ts";
import { lookAt } from "../../store/session-store.ts";
import { formatLength, inFull, lengthInShort } from "../../units/format.ts";
import { useBench, useDerived, useDesign, useNotation, useSession } from "../bench.ts";
import { Board } from "../board/board.tsx";
import { NO_EDGES } from "../board/viewport.ts";
import { saveBytes, tellTrouble } from "../files.ts";
import { useNarrow } from "../frame/use-narrow.ts";
import { go, WHOLE } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { useTheme } from "../look/use-theme.ts";
import { useEditing } from "../panels/editing.ts";
import { useTrueScale } from "../screen-scale.ts";
import { fontBytes } from "../sheets/save-sheets.ts";
import "./whole-instrument.css";

/** Height of the heading over the board. */
const HEAD_PX = 84;

export function WholeInstrument() {
  const bench = useBench();
  const derived = useDerived();
  const editing = useEditing();
  const notation = useNotation();
  const theme = useTheme();
  const narrow = useNarrow();
  const trueScale = useTrueScale();
  const camera = useSession((s) => s.cameras[WHOLE]);
  const { drawing, distances } = useMemo(() => arrange(derived), [derived]);

  return (
    <>
      <section className="parts-middle" aria-label="Whole instrument">
        <div className="parts-head">
          <h1 className="title">Whole instrument</h1>
          <p className="parts-summary">Press a part to work on it. An overview, not for cutting.</p>
        </div>
        <div className="parts-board">
          <h2 className="unseen">Drawing</h2>
          {drawing.layers.length === 0 ? (
            <div className="board-waits" role="alert">
              <p className="board-waits-head">Nothing to draw until the numbers are mended</p>
            </div>
          ) : (
            <Board
              drawing={drawing}
              name="Whole instrument"
              theme={theme}
              units={notation}
              onSelect={(shape) => {
                const part = shape === undefined ? undefined : ownerOf(derived, shape);
                if (part) go(part.id === "instrument" ? { place: "numbers" } : { place: "parts", part: part.id });
              }}
              textOf={() => undefined}
              onEdit={(path, text) => {
                const problem = editing.sayValue(path, text.trim() === "" ? undefined : text);
                return problem ? { ok: false, error: problem } : { ok: true, value: undefined };
              }}
              covered={{ ...NO_EDGES, top: narrow ? 0 : HEAD_PX }}
              camera={camera}
              trueScale={trueScale}
              onCamera={(next) => lookAt(bench.session, WHOLE, next)}
            />
          )}
        </div>
      </section>
      <aside className="side parts-panel" aria-label="Distances and overview">
        <h2 className="side-title">Between the parts</h2>
        <dl className="whole-distances">
          {distances.map(({ id, label, value }) => (
            <div key={id}>
              <dt>{label.charAt(0).toUpperCase() + label.slice(1)}</dt>
              <dd>{inFull(formatLength(value, notation))}</dd>
            </div>
          ))}
        </dl>
        <OverviewSheet />
        <h2 className="side-title whole-parts-title">Parts in place</h2>
        <ul className="whole-parts">
          {derived.parts
            .filter((part) => Object.keys(part.inPlace()).length > 0)
            .map((part) => (
              <li key={part.id}>
                <Button look="link" size="small" onClick={() => go({ place: "parts", part: part.id })}>
                  {partName(part)}
                </Button>
              </li>
            ))}
        </ul>
      </aside>
    </>
  );
}

const SCALES = [
  { value: "fit", label: "Largest that fits" },
  ...OVERVIEW_SCALES.map((n) => ({ value: `${n}`, label: `1:${n}` })),
];
const SHEETS = ["a4", "a3", "a2", "letter", "tabloid"].map((value) => ({ value, label: PAPERS[value]!.label }));

/** One sheet with the overview, at a scale of the maker's. */
function OverviewSheet() {
  const derived = useDerived();
  const design = useDesign();
  const notation = useNotation();
  const [paper, setPaper] = useState(notation.unit === "mm" ? "a3" : "tabloid");
  const [scale, setScale] = useState("fit");

  async function save(): Promise<void> {
    const { number = "", title = "", player = "", date = "" } = design.order ?? {};
    const content = fontBytes(new AbortController().signal)
      .then((fonts) =>
        overviewFile(
          arrange(derived).dimensioned,
          {
            paper: PAPERS[paper]!,
            margin: SHEET_DEFAULTS.margin,
            order: { number, title, player },
            date,
            fingerprint: fingerprintOf(design),
            say: (mm) => lengthInShort(mm, notation),
            ...(scale === "fit" ? {} : { reduction: Number(scale) }),
          },
          fonts,
        ),
      )
      .then((made) => {
        if (!made.ok) throw new Refused(made.error.message, made.error.mend);
        return made.bytes;
      });
    try {
      await saveBytes(`${fileNameOf(design.order ?? {}).replace(/\.json$/, "")}-arrangement.pdf`, content, "application/pdf");
    } catch (error) {
      tellTrouble("The overview was not saved", {
        message: error instanceof Error ? error.message : String(error),
        mend: error instanceof Refused ? error.mend : "Try again.",
      });
    }
  }

  return (
    <section className="whole-sheet" aria-label="Overview sheet">
      <h2 className="side-title">Overview sheet</h2>
      <p className="note">All parts on one sheet for the wall. It is not true size and not for cutting.</p>
      <div className="whole-choices">
        <ListChoice label="Paper" value={paper} options={SHEETS} onChoose={setPaper} />
        <ListChoice label="Scale" value={scale} options={SCALES} onChoose={setScale} />
      </div>
      <Button size="small" onClick={() => void save()}>
        Save the overview
      </Button>
    </section>
  );
}

class Refused extends Error {
  readonly mend: string;
  constructor(message: string, mend: string) {
    super(message);
    this.mend = mend;
  }
}
