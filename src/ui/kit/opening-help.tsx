import { Popover } from "@base-ui/react/popover";
import type { ReactNode } from "react";
import "./popups.css";

export interface HelpProps {
  /** What is explained; the press that opens it. */
  readonly name: string;
  readonly id?: string;
  readonly open: boolean;
  readonly onOpen: (open: boolean) => void;
  readonly children: ReactNode;
}

/** A name with the explanation that it opens. */
export function OpeningHelp({ name, id, open, onOpen, children }: HelpProps) {
  return (
    <Popover.Root open={open} onOpenChange={onOpen}>
      <Popover.Trigger className="help-name" id={id} tabIndex={-1}>
        {name}
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Positioner className="pop-place" sideOffset={6} align="start" collisionPadding={8}>
          <Popover.Popup className="pop help-pop">
            <Popover.Title className="help-head">{name}</Popover.Title>
            {children}
          </Popover.Popup>
        </Popover.Positioner>
      </Popover.Portal>
    </Popover.Root>
  );
}
