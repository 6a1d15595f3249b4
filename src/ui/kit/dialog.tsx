import { Dialog as Base } from "@base-ui/react/dialog";
import type { ReactNode } from "react";
import { Button } from "./button.tsx";
import { Sign } from "./sign.tsx";
import "./popups.css";

export interface DialogProps {
  readonly open: boolean;
  readonly onClose: () => void;
  readonly title: string;
  readonly about?: ReactNode;
  readonly wide?: boolean;
  readonly children: ReactNode;
  /** Buttons at the foot, the main one last. */
  readonly foot?: ReactNode;
}

/** A dialog over the veiled page; Escape, the veil and the cross close it. */
export function Dialog({ open, onClose, title, about, wide = false, children, foot }: DialogProps) {
  return (
    <Base.Root open={open} onOpenChange={(next) => (next ? undefined : onClose())}>
      <Base.Portal>
        <Base.Backdrop className="veil" />
        <Base.Popup className={wide ? "dlg dlg-wide" : "dlg"}>
          <div className="dlg-head">
            <div>
              <Base.Title className="dlg-title">{title}</Base.Title>
              {about ? <Base.Description className="dlg-about">{about}</Base.Description> : null}
            </div>
            <Base.Close
              render={
                <Button look="quiet" size="icon" label="Close">
                  <Sign name="close" />
                </Button>
              }
            />
          </div>
          <div className="dlg-body">{children}</div>
          {foot ? <div className="dlg-foot">{foot}</div> : null}
        </Base.Popup>
      </Base.Portal>
    </Base.Root>
  );
}
