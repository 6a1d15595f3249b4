import { cloneElement, Suspense, useState } from "react";
import { later } from "../later.ts";
import { earlyPress } from "./early.ts";
import type { HeldMenuProps, MenuProps } from "./opening-menu.tsx";

const OpeningMenu = later(async () => (await import("./opening-menu.tsx")).OpeningMenu);

/** A menu that opens from its trigger, which must take the props of a button. */
export function Menu(props: MenuProps) {
  const [open, setOpen] = useState(false);
  return <HeldMenu {...props} open={open} onOpen={setOpen} />;
}

/** A menu whose keeper knows whether it is open. */
export function HeldMenu(props: HeldMenuProps) {
  return (
    <Suspense fallback={<MenuToCome trigger={props.trigger} onPress={() => props.onOpen(true)} />}>
      <OpeningMenu {...props} />
    </Suspense>
  );
}

/** The trigger of a menu whose code is still to come. */
export const MenuToCome = ({ trigger, onPress }: Pick<MenuProps, "trigger"> & { readonly onPress: () => void }) =>
  cloneElement(trigger, { ...earlyPress(onPress), "aria-haspopup": "menu" });
