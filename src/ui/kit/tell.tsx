/**
 * Notes to the maker. A short one stands for a moment over the design's name in the strip; one that has to be read or answered stands in a
 * bar of its own under the strip until it is closed. So neither covers the work.
 */
import { Toast } from "@base-ui/react/toast";
import { Button } from "./button.tsx";
import { Sign } from "./sign.tsx";
import "./popups.css";

const passing = Toast.createToastManager();
const staying = Toast.createToastManager();

export interface Tell {
  readonly title: string;
  readonly more?: string | undefined;
  readonly kind?: "stop" | "fine" | "plain";
  /** One thing that can be done about it. */
  readonly action?: { readonly label: string; readonly onChoose: () => void };
  /** Stays until it is closed, as those of kind "stop" and long ones do. */
  readonly lasting?: boolean;
}

const USUAL_MS = 5000;
/** Time to read, think and press; what the action does can be done elsewhere too. */
const ASKING_MS = 15_000;
/** As many letters are read in passing, and have room in the strip of a tablet. */
const MOST_PASSING = 80;

/** Shows a note; those of kind "stop" and long ones stay until they are closed. */
export function tell({ title, more = "", kind = "plain", action, lasting = false }: Tell): void {
  const stays = lasting || kind === "stop" || title.length + more.length > MOST_PASSING;
  const manager = stays ? staying : passing;
  const id = manager.add({
    title,
    description: more || undefined,
    type: kind,
    timeout: stays ? 0 : action ? ASKING_MS : USUAL_MS,
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
}

/** Where the short notes appear, one at a time. Once, over what they may cover. */
export const PassingNotes = () => (
  <Toast.Provider toastManager={passing} limit={1}>
    <Toast.Viewport className="notes-passing" aria-label="Notes">
      <Listed most={1} />
    </Toast.Viewport>
  </Toast.Provider>
);

/** Where those appear that stay, the newest first. Once, under the strip. */
export const StayingNotes = () => (
  <Toast.Provider toastManager={staying} limit={3}>
    <Toast.Viewport className="notes-staying" aria-label="Notes to close">
      <Listed most={3} />
    </Toast.Viewport>
  </Toast.Provider>
);

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
          render={
            <Button look="quiet" size="icon" label="Close this note">
              <Sign name="close" />
            </Button>
          }
        />
      </Toast.Content>
    </Toast.Root>
  ));
}
