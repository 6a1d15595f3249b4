/** Fit: the checks, the seasons, an offcut, the cutting list, and two versions side by side. */
import type { ReactNode } from "react";
import { countBySeverity, findingsOf } from "../../checks/findings.ts";
import { useDerived, useDesign } from "../bench.ts";
import { ChecksPage } from "../fit/checks-page.tsx";
import { ComparePage } from "../fit/compare-page.tsx";
import { CuttingPage } from "../fit/cutting-page.tsx";
import { OffcutPage } from "../fit/offcut-page.tsx";
import { SeasonsPage } from "../fit/seasons-page.tsx";
import { go } from "../frame/route.ts";
import { FindingCounts } from "../kit/sign.tsx";
import { Tabs } from "../kit/tabs.tsx";
import "../panels/numbers-panel.css";
import "./fit-place.css";

const PAGES: readonly { readonly id: string; readonly label: string; readonly page: ReactNode }[] = [
  { id: "checks", label: "Checks", page: <ChecksPage /> },
  { id: "seasons", label: "Seasons", page: <SeasonsPage /> },
  { id: "offcut", label: "Offcut", page: <OffcutPage /> },
  { id: "cutting-list", label: "Cutting list", page: <CuttingPage /> },
  { id: "compare", label: "Compare", page: <ComparePage /> },
];

export function FitPlace({ page }: { readonly page: string | undefined }) {
  const { stop, look } = countBySeverity(findingsOf(useDesign(), useDerived()));
  const open = PAGES.find(({ id }) => id === page)?.id ?? "checks";
  const counted = (
    <>
      Checks <FindingCounts stop={stop} look={look} />
    </>
  );
  return (
    <div className="fit-place">
      <h1 className="title fit-title">Fit</h1>
      <Tabs
        label="Pages of Fit"
        open={open}
        onOpen={(id) => go(id === "checks" ? { place: "fit" } : { place: "fit", part: id })}
        pages={PAGES.map(({ id, label, page: shown }) => ({ id, label: id === "checks" ? counted : label, page: shown }))}
      />
    </div>
  );
}
