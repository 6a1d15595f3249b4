/** All that was measured of the work, with what it is off by, and whether the rest follows it. */
import { openDialog } from "../../store/session-store.ts";
import { useBench, useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { Switch } from "../kit/choice.tsx";
import { say } from "../notation.ts";
import { useEditing } from "../panels/editing.ts";
import { builtOf } from "./built.ts";
import { cutSaid, offSaid } from "./built-words.ts";
import "./built.css";

export function BuiltList() {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const editing = useEditing();
  const list = builtOf(design, derived, notation, useDeriveOther());
  return (
    <section className="order-part" aria-labelledby="built-title">
      <h3 id="built-title">As built</h3>
      {list.length === 0 ? (
        <p className="note">
          When the wood comes out otherwise than planned, press the name of the number, then “Measured on the work”. What depends
          on it follows.
        </p>
      ) : (
        <ul className="built-list">
          {list.map((one) => (
            <li key={one.path}>
              <div>
                <Button
                  look="link"
                  label={`${one.name}, as built`}
                  onClick={() => openDialog(bench.session, { kind: "built", path: one.path })}
                >
                  {one.name}
                </Button>
                <p className="note">{[offSaid(one, notation), cutSaid(one, notation)].filter(Boolean).join("; ")}</p>
                {[one.entry.date, one.entry.how].some(Boolean) ? (
                  <p className="note">{[one.entry.date, one.entry.how].filter(Boolean).join(", ")}</p>
                ) : null}
              </div>
              <span className="built-value num">
                {one.measured === undefined ? String(one.entry.value) : say(one.measured, one.quantity, notation)}
              </span>
              <span className="built-follow">
                <span className="note" id={`leads-${one.path}`}>
                  the rest follows it
                </span>
                <Switch
                  labelledBy={`leads-${one.path}`}
                  on={one.entry.leads !== false}
                  onChange={(on) => {
                    const { leads: _, ...rest } = one.entry;
                    editing.sayValue(`measured.${one.path}`, on ? rest : { ...rest, leads: false });
                  }}
                />
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
