/** Beginning an instrument: from the nearest kind, from a worked example, or from a file. */
import { useEffect, useMemo, useState } from "react";
import type { Design } from "../../document/design.ts";
import { NEW_KINDS, newDesign } from "../../document/new-design.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { useBench, useDeriveOther } from "../bench.ts";
import { chooseDesignFile, tellTrouble } from "../files.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { notationOf, sayWords } from "../notation.ts";
import { Thumbnail } from "../thumbnail.tsx";
import { loadExamples } from "./examples.ts";
import "./new-design.css";

const KINDS: readonly Design[] = NEW_KINDS.map(newDesign);

export function NewDesign({ onClose }: { readonly onClose: () => void }) {
  const bench = useBench();
  const [examples, setExamples] = useState<readonly Design[]>([]);
  const drawn = useOneByOne(KINDS.length + examples.length);
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
      <Starts title="Usual numbers" designs={KINDS} drawn={drawn} low onBegin={(design) => void begin(design)} />
      {examples.length > 0 ? (
        <Starts
          title="Worked examples"
          designs={examples}
          drawn={drawn - KINDS.length}
          onBegin={(design) => void begin(design)}
        />
      ) : null}
    </Dialog>
  );
}

/** Counts up to `all` with a pause after each, in which the page answers. */
function useOneByOne(all: number): number {
  const [count, setCount] = useState(0);
  useEffect(() => {
    if (count >= all) return undefined;
    const timer = setTimeout(() => setCount(count + 1), 30);
    return () => clearTimeout(timer);
  }, [count, all]);
  return count;
}

interface StartsProps {
  readonly title: string;
  readonly designs: readonly Design[];
  /** How many have their picture already. */
  readonly drawn: number;
  /** Pictures of a neck without a body are low. */
  readonly low?: boolean;
  readonly onBegin: (design: Design) => void;
}

function Starts({ title, designs, drawn, low = false, onBegin }: StartsProps) {
  return (
    <section>
      <h3 className="kinds-title">{title}</h3>
      <ul className={low ? "kinds kinds-low" : "kinds"}>
        {designs.map((design, i) => (
          <li key={design.order?.title}>
            <Start design={design} drawn={i < drawn} onBegin={() => onBegin(design)} />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface StartProps {
  readonly design: Design;
  readonly drawn: boolean;
  readonly onBegin: () => void;
}

function Start({ design, drawn, onBegin }: StartProps) {
  const deriveOther = useDeriveOther();
  const derived = useMemo(() => deriveOther(`start ${design.order?.title}`, design), [deriveOther, design]);
  return (
    <button type="button" className="kind" onClick={onBegin}>
      <span className="kind-picture">{drawn ? <Thumbnail derived={derived} frontOnly /> : null}</span>
      <span className="kind-name">{design.order?.title}</span>
      <span className="note">{sayWords(derived.instrument.summary, notationOf(design))}</span>
    </button>
  );
}
