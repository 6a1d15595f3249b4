import { Menu as Base } from "@base-ui/react/menu";
import { Fragment, type ReactElement } from "react";
import { Sign } from "./sign.tsx";
import "./popups.css";

interface MenuEntry {
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
  readonly trigger: ReactElement<{
    readonly onClick?: () => void;
    readonly onPointerDown?: () => void;
    readonly "aria-haspopup"?: "menu";
  }>;
  readonly entries: readonly MenuEntry[];
  readonly align?: "start" | "end";
  /** Where it opens if there is room. */
  readonly side?: "bottom" | "right";
}

export interface HeldMenuProps extends MenuProps {
  readonly open: boolean;
  readonly onOpen: (open: boolean) => void;
}

/** A menu with all that opens. */
export function OpeningMenu({ trigger, entries, align = "end", side = "bottom", open, onOpen }: HeldMenuProps) {
  return (
    <Base.Root modal={false} open={open} onOpenChange={onOpen}>
      <Base.Trigger render={trigger} />
      <Base.Portal>
        <Base.Positioner className="pop-place" sideOffset={6} align={align} side={side}>
          <Base.Popup className="pop">
            {entries.map((entry) => (
              <Fragment key={entry.label}>
                {entry.apart ? <Base.Separator className="pop-rule" /> : null}
                <Base.Item className="pop-item" disabled={entry.disabled ?? false} onClick={entry.onChoose}>
                  <span>{entry.checked ? <Sign name="tick" /> : null}</span>
                  <span>
                    {entry.label}
                    {entry.checked ? <span className="unseen"> (now)</span> : null}
                    {entry.about ? <span className="note">{entry.about}</span> : null}
                  </span>
                  {entry.keys ? <span className="key">{entry.keys}</span> : null}
                </Base.Item>
              </Fragment>
            ))}
          </Base.Popup>
        </Base.Positioner>
      </Base.Portal>
    </Base.Root>
  );
}
