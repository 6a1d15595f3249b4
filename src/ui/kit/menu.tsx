import { cloneElement, Suspense, useState, type ReactElement } from "react";
import { later } from "../later.ts";

const OpeningMenu = later(async () => (await import("./opening-menu.tsx")).OpeningMenu);

export interface MenuEntry {
  readonly label: string;
  /** A line of explanation under the label. */
  readonly about?: string;
  /** The key that does the same. */
  readonly keys?: string;
  readonly disabled?: boolean;
  /** Ticked: the one that holds now. */
  readonly checked?: boolean;
  /** A rule above it. */
  readonly apart?: boolean;
  readonly onChoose: () => void;
}

export interface MenuProps {
  readonly trigger: ReactElement<{ readonly onClick?: () => void }>;
  readonly entries: readonly MenuEntry[];
  readonly align?: "start" | "end";
  /** Where it opens if there is room. */
  readonly side?: "bottom" | "right";
}

/** A menu that opens from its trigger, which must take the props of a button. */
export function Menu(props: MenuProps) {
  const [wanted, setWanted] = useState(false);
  return (
    <Suspense fallback={cloneElement(props.trigger, { onClick: () => setWanted(true) })}>
      <OpeningMenu {...props} wanted={wanted} />
    </Suspense>
  );
}
