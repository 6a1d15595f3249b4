/** Numbers: what all parts share, as a spec sheet under the strings and frets that move as they are typed. */
import { useDerived, useNotation } from "../bench.ts";
import { PartBoard } from "../part-board.tsx";
import { sayWords } from "../notation.ts";
import { NumbersPanel } from "../panels/numbers-panel.tsx";
import "./numbers-place.css";

export function NumbersPlace() {
  const { instrument } = useDerived();
  const notation = useNotation();
  return (
    <div className="numbers">
      <div className="numbers-board">
        <PartBoard part={instrument} wide />
      </div>
      <section className="numbers-sheet" aria-labelledby="numbers-title">
        <div className="numbers-head">
          <h1 className="title" id="numbers-title">
            Numbers of the instrument
          </h1>
          <p className="parts-summary">{sayWords(instrument.summary, notation)}</p>
        </div>
        <div className="numbers-groups">
          <NumbersPanel part={instrument} level={2} />
        </div>
      </section>
    </div>
  );
}
