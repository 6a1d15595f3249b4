/** Beginning an instrument: from one of ours, or from a file. */
import { NEW_KINDS, newDesign, type NewKind } from "../../document/new-design.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { useBench } from "../bench.ts";
import { chooseDesignFile, tellTrouble } from "../files.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { Dialog } from "../kit/dialog.tsx";
import "./new-design.css";

const ABOUT: Readonly<Record<NewKind, { readonly name: string; readonly about: string }>> = {
  "steel-string": { name: "Steel-string guitar", about: "six strings, 25.4 in, joined at 14" },
  classical: { name: "Nylon-string guitar", about: "six strings, 650 mm, joined at 12" },
  ukulele: { name: "Tenor ukulele", about: "four strings, 430 mm" },
  "tenor-guitar": { name: "Tenor guitar", about: "four strings, 23 in" },
  baritone: { name: "Two-scale baritone", about: "six strings, the bass scale longer" },
  "octave-mandolin": { name: "Octave mandolin", about: "eight strings in four courses" },
};

export function NewDesign({ onClose }: { readonly onClose: () => void }) {
  const bench = useBench();
  async function begin(kind: NewKind): Promise<void> {
    const result = await startDesign(bench, newDesign(kind));
    if (!result.ok) return tellTrouble("No new design was begun", result.error);
    onClose();
    go({ place: "numbers" });
  }
  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title="A new instrument"
      about="Begin with the nearest one. Every number can be changed afterwards."
    >
      <ul className="kinds">
        {NEW_KINDS.map((kind) => (
          <li key={kind}>
            <button type="button" className="kind" onClick={() => void begin(kind)}>
              <span className="kind-name">{ABOUT[kind].name}</span>
              <span className="note">{ABOUT[kind].about}</span>
            </button>
          </li>
        ))}
      </ul>
      <div className="kinds-else">
        <Button
          onClick={() => {
            onClose();
            go({ place: "first" });
          }}
        >
          My first fingerboard: five numbers
        </Button>
        <Button
          onClick={() => {
            onClose();
            void chooseDesignFile(bench);
          }}
        >
          Open a design file
        </Button>
      </div>
    </Dialog>
  );
}
