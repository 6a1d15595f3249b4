/** A part's own name, where there are two of a kind. */
import { useState } from "react";
import type { Trouble } from "../../document/design.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { namePart } from "../../store/commands/edit-parts.ts";
import { useBench } from "../bench.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { partName } from "../../parts/part-name.ts";
import "../kit/text-field.css";

export function NamePart({ part, onClose }: { readonly part: DerivedPart; readonly onClose: () => void }) {
  const bench = useBench();
  const [name, setName] = useState(partName(part));
  const [trouble, setTrouble] = useState<Trouble>();

  function finish(): void {
    const id = name.trim().toLowerCase().replace(/\s+/g, "-");
    const result = namePart(bench, part.id, id);
    if (!result.ok) return setTrouble(result.error);
    onClose();
    go({ place: "parts", part: id });
  }

  return (
    <Dialog
      open
      onClose={onClose}
      title="Another name"
      about="Formulas that name the part follow."
      foot={
        <>
          <Button onClick={onClose}>Leave it</Button>
          <Button look="main" onClick={finish}>
            Take the name
          </Button>
        </>
      }
    >
      <input
        className={`textf ${trouble ? "textf-wrong" : ""}`}
        aria-label="Name of the part"
        aria-invalid={trouble ? true : undefined}
        value={name}
        onChange={(event) => {
          setName(event.target.value);
          setTrouble(undefined);
        }}
        onKeyDown={(event) => (event.key === "Enter" ? finish() : undefined)}
      />
      {trouble ? (
        <p className="numf-error" role="alert">
          {trouble.message}. {trouble.mend}
        </p>
      ) : null}
    </Dialog>
  );
}
