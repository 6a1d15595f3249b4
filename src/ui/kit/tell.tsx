/** Short notes to the maker over the strip. They leave by themselves unless they ask for something. */
import { Toast } from "@base-ui/react/toast";
import { Button } from "./button.tsx";
import { Sign } from "./sign.tsx";
import "./popups.css";

const manager = Toast.createToastManager();

export interface Tell {
  readonly title: string;
  readonly more?: string;
  readonly kind?: "stop" | "fine" | "plain";
  /** One thing that can be done about it. */
  readonly action?: { readonly label: string; readonly onChoose: () => void };
  /** Stays until it is closed, as those of kind "stop" do. */
  readonly lasting?: boolean;
}

const USUAL_MS = 5000;
/** Time to read, think and press; what the action does can be done elsewhere too. */
const ASKING_MS = 15_000;

/** Shows a note; those of kind "stop" stay until they are closed. */
export function tell({ title, more, kind = "plain", action, lasting = kind === "stop" }: Tell): void {
  const id = manager.add({
    title,
    description: more,
    type: kind,
    timeout: lasting ? 0 : action ? ASKING_MS : USUAL_MS,
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

/** Where the notes appear. Once, round the whole app. */
export function Tells({ children }: { readonly children: React.ReactNode }) {
  return (
    <Toast.Provider toastManager={manager} limit={3}>
      {children}
      <Toast.Portal>
        <Toast.Viewport className="notes">
          <Listed />
        </Toast.Viewport>
      </Toast.Portal>
    </Toast.Provider>
  );
}

function Listed() {
  const { toasts } = Toast.useToastManager();
  return toasts.map((toast) => (
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
