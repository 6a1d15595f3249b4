/** Under the board: the part's tables, its checks, its templates. */
import { useEffect, useMemo, useState } from "react";
import { countBySeverity, findingsOn } from "../../checks/findings.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { useDerived, useDesign } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { CrossingsPage } from "../inlay/crossings-page.tsx";
import { CuttingPage } from "../inlay/cutting-page.tsx";
import type { InlayMeasures } from "../inlay/verdict.ts";
import { FindingCounts } from "../kit/sign.tsx";
import { Tabs } from "../kit/tabs.tsx";
import { stopPlacesStore } from "../shown-place.ts";
import { useLast } from "../use-last.ts";
import { FindingList } from "./finding-list.tsx";
import { FromNut } from "./from-nut.tsx";
import { partName } from "../../parts/part-name.ts";

export function BelowBoard({ part }: { readonly part: DerivedPart }) {
  const [open, setOpen] = useState<string>();
  const seen = useLast(part.id, part, !part.waiting);
  const templates = seen.templates();
  const tables = part.kind === "inlay" ? [] : templates.flatMap((template) => template.table ?? []);
  const table = tables.find(({ title }) => title.startsWith("From the ")) ?? tables[0];
  const derived = useDerived();
  const design = useDesign();
  const found = useMemo(() => findingsOn(design, derived, part.id), [design, derived, part.id]);
  const findings = useLast(part.id, found, !part.waiting);
  const { stop, look } = countBySeverity(findings);
  useEffect(() => {
    const places = findings.flatMap(({ severity, at, shape }) => (severity === "stop" && at ? [{ at, shape }] : []));
    stopPlacesStore.setState({ part: part.id, places });
  }, [findings, part.id]);
  const crossings = part.kind === "inlay" ? ((seen.measures as InlayMeasures | undefined)?.crossings.length ?? 0) : 0;
  const pages = [
    ...(part.kind === "inlay" ? [{ id: "cutting", label: "Cutting", page: <CuttingPage part={part} seen={seen} /> }] : []),
    ...(crossings > 0
      ? [{ id: "crossings", label: `Crossings ${crossings}`, page: <CrossingsPage part={part} seen={seen} /> }]
      : []),
    ...(table
      ? [
          {
            id: "table",
            label: table.title.startsWith("From the nut") ? "From the nut" : "Distances",
            page: <FromNut table={table} />,
          },
        ]
      : []),
    {
      id: "fit",
      label: (
        <>
          Fit <FindingCounts stop={stop} look={look} />
        </>
      ),
      page: <FindingList findings={findings} />,
    },
    {
      id: "templates",
      label: `Templates ${templates.length}`,
      page: (
        <ul className="patterns">
          {templates.map((template) => (
            <li key={template.name} className="pattern">
              <DrawingSvg drawing={template.drawing} says={template.title} small />
              <p className="pattern-name">{template.title}</p>
              <p className="note">{template.lineIs}</p>
            </li>
          ))}
        </ul>
      ),
    },
  ];
  const shown = pages.find((page) => page.id === open)?.id ?? pages[0]!.id;
  return <Tabs label={`More of the ${partName(part).toLowerCase()}`} pages={pages} open={shown} onOpen={setOpen} />;
}
