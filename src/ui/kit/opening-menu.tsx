import { Menu as Base } from "@base-ui/react/menu";
import { Fragment } from "react";
import type { MenuProps } from "./menu.tsx";
import { Sign } from "./sign.tsx";
import "./popups.css";

/** A menu with all that opens. `wanted`: it was asked for before its code had come. */
export function OpeningMenu({
  trigger,
  entries,
  align = "end",
  side = "bottom",
  wanted,
}: MenuProps & { readonly wanted: boolean }) {
  return (
    <Base.Root modal={false} defaultOpen={wanted}>
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
