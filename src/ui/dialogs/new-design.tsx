/** Beginning an instrument: from the nearest kind, from a worked example, or from a file. */
import { useEffect, useMemo, useState } from "react";
import type { Design } from "../../document/design.ts";
import { NEW_KINDS, newDesign } from "../../document/new-design.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { useBench, useDeriveOther } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { chooseDesignFile, tellTrouble } from "../files.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { notationOf, sayWords } from "../notation.ts";
import { loadExamples } from "./examples.ts";
import "./new-design.css";

const KINDS: readonly Design[] = NEW_KINDS.map(newDesign);

export function NewDesign({ onClose }: { readonly onClose: () => void }) {
  const bench = useBench();
  const [examples, setExamples] = useState<readonly Design[]>([]);
  useEffect(() => {
    let gone = false;
    void loadExamples().then((loaded) => (gone ? undefined : setExamples(loaded)));
    return () => {
      gone = true;
    };
  }, []);

  async function begin(design: Design): Promise<void> {
    const result = await startDesign(bench, design);
    onClose();
    if (!result.ok) return tellTrouble("No new design was begun", result.error);
    go({ place: "numbers" });
  }

  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title="A new instrument"
      about="Begin with the nearest one. Every number can be changed afterwards."
      foot={
        <>
          <Button
            onClick={() => {
              onClose();
              void chooseDesignFile(bench);
            }}
          >
            Open a design file
          </Button>
          <Button
            onClick={() => {
              onClose();
              go({ place: "repair" });
            }}
          >
            A repair
          </Button>
          <Button
            onClick={() => {
              onClose();
              go({ place: "first" });
            }}
          >
            My first fingerboard: five numbers
          </Button>
        </>
      }
    >
      <Starts title="Usual numbers" designs={KINDS} onBegin={(design) => void begin(design)} />
      {examples.length > 0 ? (
        <Starts title="Worked examples" designs={examples} onBegin={(design) => void begin(design)} />
      ) : null}
    </Dialog>
  );
}

interface StartsProps {
  readonly title: string;
  readonly designs: readonly Design[];
  readonly onBegin: (design: Design) => void;
}

function Starts({ title, designs, onBegin }: StartsProps) {
  return (
    <section>
      <h3 className="kinds-title">{title}</h3>
      <ul className="kinds">
        {designs.map((design) => (
          <li key={design.order?.title}>
            <Start design={design} onBegin={() => onBegin(design)} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Start({ design, onBegin }: { readonly design: Design; readonly onBegin: () => void }) {
  const deriveOther = useDeriveOther();
  const { instrument, parts } = useMemo(() => deriveOther(`start ${design.order?.title}`, design), [deriveOther, design]);
  const part = parts.find((one) => one.problems.length === 0) ?? instrument;
  return (
    <button type="button" className="kind" onClick={onBegin}>
      <DrawingSvg drawing={part.drawing()} says="" small />
      <span className="kind-name">{design.order?.title}</span>
      <span className="note">{sayWords(instrument.summary, notationOf(design))}</span>
    </button>
  );
}
