import { Tabs as Base } from "@base-ui/react/tabs";
import { useRef, type ReactNode } from "react";
import { useInSight } from "./in-sight.ts";
import "./tabs.css";

export interface TabPage {
  readonly id: string;
  readonly label: ReactNode;
  readonly page: ReactNode;
}

/** Pages under a row of tabs; the arrow keys walk along the row. */
export function Tabs({
  label,
  pages,
  open,
  onOpen,
}: {
  readonly label: string;
  readonly pages: readonly TabPage[];
  readonly open: string;
  readonly onOpen: (id: string) => void;
}) {
  const list = useRef<HTMLDivElement>(null);
  useInSight(list, "[data-active]", open);
  return (
    <Base.Root className="tabs" value={open} onValueChange={(id) => onOpen(String(id))}>
      <Base.List className="tabs-list" aria-label={label} ref={list}>
        {pages.map((page) => (
          <Base.Tab key={page.id} value={page.id} className="tabs-one">
            {page.label}
          </Base.Tab>
        ))}
      </Base.List>
      {pages.map((page) => (
        <Base.Panel key={page.id} value={page.id} className="tabs-panel">
          {page.page}
        </Base.Panel>
      ))}
    </Base.Root>
  );
}
