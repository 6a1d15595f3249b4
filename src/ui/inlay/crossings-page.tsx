/** Under the board: where interlaced letters cross, and which of them passes over, turned at a press. */
import type { DerivedPart } from "../../parts/derived.ts";
import { Button } from "../kit/button.tsx";
import { tell } from "../kit/tell.tsx";
import { useEditing } from "../panels/editing.ts";
import { showPlace } from "../shown-place.ts";
import type { InlayMeasures } from "./verdict.ts";
import "./inlay.css";

interface CrossingsPageProps {
  readonly part: DerivedPart;
  /** The part as it was when all of it was worked out. */
  readonly seen: DerivedPart;
}

export function CrossingsPage({ part, seen }: CrossingsPageProps) {
  const editing = useEditing();
  const field = part.fields.find(({ key }) => key === "weaveTurned");
  const turned = (field?.value ?? []) as readonly number[];

  function turn(number: number): void {
    const next = turned.includes(number) ? turned.filter((one) => one !== number) : [...turned, number];
    const problem = editing.sayValue(
      `${part.path}.weaveTurned`,
      next.length === 0 ? undefined : next.toSorted((a, b) => a - b).join(" "),
    );
    if (problem) tell({ title: problem.message, more: problem.mend, kind: "stop" });
  }

  return (
    <ol className="inlay-crossings">
      {((seen.measures as InlayMeasures | undefined)?.crossings ?? []).map(({ at, over, under }, i) => (
        // A crossing is known by its number.
        // eslint-disable-next-line react/no-array-index-key
        <li key={i}>
          <Button look="link" size="small" onClick={() => showPlace({ part: part.id, at })}>
            Crossing {i + 1}: {over} over {under}
          </Button>
          <Button size="small" label={`Turn crossing ${i + 1}: ${under} over ${over}`} onClick={() => turn(i + 1)}>
            Turn
          </Button>
        </li>
      ))}
    </ol>
  );
}
