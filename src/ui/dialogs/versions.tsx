/** Recent states of the open design that this browser has kept. */
import { useEffect, useState } from "react";
import { useStore } from "zustand";
import type { Version } from "../../document/storage.ts";
import { restoreVersion } from "../../store/commands/restore-version.ts";
import { useBench } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { Dialog } from "../kit/dialog.tsx";

export function Versions({ onClose }: { readonly onClose: () => void }) {
  const bench = useBench();
  const id = useStore(bench.design, (s) => s.id);
  const [versions, setVersions] = useState<readonly Version[]>();
  useEffect(() => {
    let gone = false;
    void bench.storage?.versions(id).then((found) => (gone ? undefined : setVersions(found.ok ? found.value : [])));
    return () => {
      gone = true;
    };
  }, [bench, id]);

  async function restore(revision: number): Promise<void> {
    const result = await restoreVersion(bench, revision);
    if (!result.ok) return tellTrouble("Nothing was changed", result.error);
    onClose();
  }
  return (
    <Dialog open onClose={onClose} title="Recent versions" about="Bringing one back is a step that can be undone.">
      {versions?.length === 0 ? <p className="note">None yet: they are kept as you work.</p> : null}
      <ul className="repairs">
        {versions?.map((version) => (
          <li key={version.revision} className="version">
            <span className="num">
              {new Date(version.savedAt).toLocaleString([], { dateStyle: "medium", timeStyle: "short" })}
            </span>
            <Button size="small" onClick={() => void restore(version.revision)}>
              Bring back
            </Button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
