import { cloneElement, Suspense, useState } from "react";
import { later } from "../later.ts";
import type { MenuProps } from "./opening-menu.tsx";

export type { MenuEntry, MenuProps } from "./opening-menu.tsx";

const OpeningMenu = later(async () => (await import("./opening-menu.tsx")).OpeningMenu);

/** A menu that opens from its trigger, which must take the props of a button. */
export function Menu(props: MenuProps) {
  const [wanted, setWanted] = useState(false);
  return (
    <Suspense fallback={cloneElement(props.trigger, { onClick: () => setWanted(true) })}>
      <OpeningMenu {...props} wanted={wanted} />
    </Suspense>
  );
}
