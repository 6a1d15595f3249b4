/** Where notes to the maker appear. */
import { Toast } from "@base-ui/react/toast";
import { useEffect } from "react";
import { Button } from "./button.tsx";
import { Sign } from "./sign.tsx";
import { showNotesBy, stays, type Tell } from "./tell.tsx";
import "./popups.css";

const passing = Toast.createToastManager();
const staying = Toast.createToastManager();

/** Time to see a note, and to read each of its letters without haste. */
const LEAST_MS = 5000;
const LETTER_MS = 100;

type Manager = typeof passing;

const showOn =
  (manager: Manager) =>
  (note: Tell): void => {
    const { title, more = "", kind = "plain", action, until } = note;
    const id = manager.add({
      id: title,
      title,
      description: more || undefined,
      type: kind,
      timeout: stays(note) ? 0 : Math.max(LEAST_MS, (title.length + more.length) * LETTER_MS),
      priority: kind === "stop" ? "high" : "low",
      ...(action
        ? {
            actionProps: {
              children: action.label,
              onClick: () => {
                manager.close(id);
                action.onChoose();
              },
            },
          }
        : {}),
    });
    until?.(() => manager.close(id));
  };

/** Where the short notes appear, one at a time. Once, over what they may cover. */
export function PassingNotes() {
  useEffect(() => showNotesBy("passing", showOn(passing)), []);
  return (
    <Toast.Provider toastManager={passing} limit={1}>
      <Toast.Viewport className="notes-passing" aria-label="Notes">
        <Listed most={1} />
      </Toast.Viewport>
    </Toast.Provider>
  );
}

/** Where those appear that are long or stay, the newest first. Once, under the strip. */
export function StayingNotes() {
  useEffect(() => showNotesBy("staying", showOn(staying)), []);
  return (
    <Toast.Provider toastManager={staying} limit={3}>
      <Toast.Viewport className="notes-staying" aria-label="Notes to close">
        <Listed most={3} />
      </Toast.Viewport>
    </Toast.Provider>
  );
}

function Listed({ most }: { readonly most: number }) {
  const { toasts } = Toast.useToastManager();
  return toasts.slice(0, most).map((toast) => (
    <Toast.Root key={toast.id} toast={toast} className="tell" swipeDirection={["up", "left"]}>
      <Toast.Content className="tell-row">
        <div className="tell-words">
          <Toast.Title className="tell-title" render={<p />} />
          <Toast.Description className="tell-more" />
        </div>
        {toast.actionProps ? <Toast.Action render={<Button size="small">{toast.actionProps.children}</Button>} /> : null}
        <Toast.Close
          // Always to be found, also by those who do not point at the note.
          aria-hidden={false}
          render={
            <Button look="quiet" size="icon" label="Close this note" className="tell-close">
              <Sign name="close" />
            </Button>
          }
        />
      </Toast.Content>
    </Toast.Root>
  ));
}
