import { REGISTRY } from "../../parts/registry.ts";
import { newPart } from "../../store/commands/edit-parts.ts";
import { useBench } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { go } from "../frame/route.ts";
import { useNarrow } from "../frame/use-narrow.ts";
import { HeldMenu } from "../kit/menu.tsx";
import type { HeldMenuProps } from "../kit/opening-menu.tsx";

/** Puts a part of any kind into the design; needs every part in the registry. */
export function AddPart(held: Pick<HeldMenuProps, "trigger" | "open" | "onOpen">) {
  const bench = useBench();
  const narrow = useNarrow();
  const kinds = REGISTRY.filter((part) => part.kind !== "instrument");
  return (
    <HeldMenu
      {...held}
      side={narrow ? "bottom" : "right"}
      entries={kinds.map((kind) => ({
        label: kind.label,
        about: kind.about,
        onChoose: () => {
          const added = newPart(bench, kind.kind);
          if (added.ok) go({ place: "parts", part: added.value });
          else tellTrouble("No part was added", added.error);
        },
      }))}
    />
  );
}
