/** The dialogs that the session asks for. */
import { closeDialog } from "../../store/session-store.ts";
import { resolveConflict } from "../../store/commands/resolve-conflict.ts";
import { useBench, useSession } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { FIELD_KEYS, POINT_KEYS, type KeyDeed } from "../frame/keys.ts";
import { useSingleKeys } from "../frame/single-keys.ts";
import { Button } from "../kit/button.tsx";
import { Switch } from "../kit/choice.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { BuiltDialog } from "../built/built-dialog.tsx";
import { NewDesign } from "./new-design.tsx";
import { ScreenSize } from "./screen-size.tsx";
import { Versions } from "./versions.tsx";
import "./dialogs.css";

export function Dialogs({ keys }: { readonly keys: readonly KeyDeed[] }) {
  const bench = useBench();
  const dialog = useSession((s) => s.dialog);
  const close = (): void => closeDialog(bench.session);
  switch (dialog?.kind) {
    case "keys":
      return <KeysDialog keys={keys} onClose={close} />;
    case "new":
      return <NewDesign onClose={close} />;
    case "screen":
      return <ScreenSize onClose={close} />;
    case "versions":
      return <Versions onClose={close} />;
    case "built":
      return <BuiltDialog key={dialog.path} path={dialog.path} onClose={close} />;
    case "repairs":
      return (
        <Dialog
          open
          onClose={close}
          title="Opened, with repairs"
          about={`${dialog.name} was not whole. This is what was left out or put right; the file itself stays as it is.`}
          foot={
            <Button look="main" onClick={close}>
              Go on
            </Button>
          }
        >
          <ul className="repairs">
            {dialog.repairs.map((repair) => (
              <li key={`${repair.path} ${repair.says}`}>
                {repair.says}
                {repair.path ? <span className="repairs-path">{repair.path}</span> : null}
              </li>
            ))}
          </ul>
        </Dialog>
      );
    case "confirm":
      return (
        <Dialog
          open
          onClose={close}
          title={dialog.question}
          foot={
            <>
              <Button onClick={close}>Leave it</Button>
              <Button
                look="main"
                onClick={() => {
                  close();
                  dialog.then();
                }}
              >
                {dialog.action}
              </Button>
            </>
          }
        >
          {null}
        </Dialog>
      );
    case "conflict":
      return <ConflictDialog onClose={close} />;
    default:
      return null;
  }
}

function ConflictDialog({ onClose }: { readonly onClose: () => void }) {
  const bench = useBench();
  const choose = (choice: "copy" | "theirs" | "mine") => async (): Promise<void> => {
    onClose();
    const result = await resolveConflict(bench, choice);
    if (!result.ok) tellTrouble("Nothing was changed", result.error);
  };
  const missing = useSession((s) => s.saving.state === "conflict" && s.saving.reason === "missing");
  if (missing)
    return (
      <Dialog
        open
        onClose={onClose}
        title="This design was removed in another tab"
        about="It is still open here. Keep it, or go on and leave it removed."
        foot={
          <>
            <Button onClick={onClose}>Not now</Button>
            <Button look="main" onClick={() => void choose("mine")()}>
              Keep it
            </Button>
          </>
        }
      >
        {null}
      </Dialog>
    );
  return (
    <Dialog
      open
      onClose={onClose}
      title="This design was changed in another tab"
      about="Nothing is lost. Say which one you go on with; the other stays among the recent versions, or one step of undo away."
      foot={
        <>
          <Button onClick={() => void choose("theirs")()}>Take the other tab’s</Button>
          <Button onClick={() => void choose("mine")()}>Keep this one</Button>
          <Button look="main" onClick={() => void choose("copy")()}>
            Keep both, this one as a copy
          </Button>
        </>
      }
    >
      {null}
    </Dialog>
  );
}

function KeysDialog({ keys, onClose }: { readonly keys: readonly KeyDeed[]; readonly onClose: () => void }) {
  const single = useSingleKeys();
  return (
    <Dialog open onClose={onClose} title="Keys">
      <h3 className="keys-head">Anywhere</h3>
      <KeyList list={keys.filter((one) => !one.single)} />
      <h3 className="keys-head">In a number</h3>
      <KeyList list={FIELD_KEYS} />
      <h3 className="keys-head">On the board, at an outline by points</h3>
      <KeyList list={POINT_KEYS} />
      <h3 className="keys-head">Single keys{single.on ? "" : ", off now"}</h3>
      <KeyList list={keys.filter((one) => one.single)} />
      <div className="keys-single">
        <Switch labelledBy="keys-single" on={single.on} onChange={single.set} />
        <span id="keys-single">Single keys do things</span>
      </div>
    </Dialog>
  );
}

function KeyList({ list }: { readonly list: readonly { readonly keys: readonly string[]; readonly says: string }[] }) {
  return (
    <dl className="keys-list">
      {list.map(({ keys, says }) => (
        <div key={says} style={{ display: "contents" }}>
          <dt>
            {keys.map((key) => (
              <kbd key={key}>{key}</kbd>
            ))}
          </dt>
          <dd>{says}</dd>
        </div>
      ))}
    </dl>
  );
}
