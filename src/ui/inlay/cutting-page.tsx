/** Under the board: the inlay at its real size, and every place where what is cut differs from what was drawn. */
import { useMemo } from "react";
import type { Drawing } from "../../drawing/drawing.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { useNotation } from "../bench.ts";
import { DrawingSvg, drawingBox } from "../drawing-svg.tsx";
import { Button } from "../kit/button.tsx";
import { say, type Notation } from "../notation.ts";
import { useTrueScale } from "../screen-scale.ts";
import { showPlace } from "../shown-place.ts";
import { sayBit, type InlayMeasures } from "./verdict.ts";
import "./inlay.css";

/** Places listed at most, the deepest first. */
const LISTED = 12;
/** px of a page to the mm where the screen was never measured (96 to the inch, CSS). */
const USUAL_SCALE = 96 / 25.4;

interface CuttingPageProps {
  readonly part: DerivedPart;
  /** The part as it was when all of it was worked out. */
  readonly seen: DerivedPart;
}

export function CuttingPage({ part, seen }: CuttingPageProps) {
  const notation = useNotation();
  const measured = useTrueScale();
  const busy = part.waiting;
  const m = seen.measures as InlayMeasures | undefined;
  const drawing = part.drawing();
  const real = useMemo(() => ofPocket(drawing), [drawing]);
  if (!m) return null;
  if (m.pieceCount === 0) return <p className="note">{busy ? "One moment." : "There is no pocket to cut yet."}</p>;
  const length = (mm: number): string => say(mm, "length", notation);
  const box = drawingBox(real);
  const scale = measured ?? USUAL_SCALE;
  const spots = m.spots.toSorted((a, b) => b.depth - a.depth);
  return (
    <div className="inlay-cutting" data-busy={busy ? "" : undefined}>
      {box ? (
        <figure className="inlay-real">
          <DrawingSvg
            drawing={real}
            says="The inlay at its real size"
            style={{ width: `${(box.maxX - box.minX) * scale}px`, height: `${(box.maxY - box.minY) * scale}px` }}
          />
          <figcaption className="note">
            {measured === undefined ? "About its real size; measure the screen for the true one" : "Real size"}
          </figcaption>
        </figure>
      ) : null}
      <div className="inlay-facts">
        <dl>
          <Fact term="Gap all round">{m.minGap === undefined ? "" : gapWords(m.minGap, m.maxGap ?? m.minGap, notation)}</Fact>
          <Fact term="Thinnest stroke">{m.narrowest === undefined ? "" : length(m.narrowest)}</Fact>
          <Fact term="Narrowest counter">{m.narrowestCounter === undefined ? "" : length(m.narrowestCounter)}</Fact>
          <Fact term="Thinnest wall of wood">{m.thinnestWall === undefined ? "" : length(m.thinnestWall)}</Fact>
          <Fact term="Left under the pocket">{m.depthLeft === undefined ? "" : length(m.depthLeft)}</Fact>
          <Fact term="Area of the letters lost">{`${((100 * m.lostArea) / Math.max(1e-9, m.designedArea)).toFixed(1)} %`}</Fact>
          <Fact term="Area added">{`${((100 * m.addedArea) / Math.max(1e-9, m.designedArea)).toFixed(1)} %`}</Fact>
        </dl>
      </div>
      <ul className="inlay-spots" aria-label="Places that come out otherwise than drawn">
        {spots.slice(0, LISTED).map((spot) => (
          <li key={`${spot.kind} ${spot.at.x} ${spot.at.y}`}>
            <Button look="link" size="small" onClick={() => showPlace({ part: part.id, at: spot.at })}>
              Piece {spot.piece}: {spot.kind === "lost" ? "the bit stays" : "covers"} {length(spot.depth)}{" "}
              {spot.kind === "lost" ? "short" : "more"}
            </Button>
          </li>
        ))}
        {spots.length > LISTED ? <li className="note">and {spots.length - LISTED} smaller ones</li> : null}
        {spots.length === 0 ? <li className="note">Everything comes out as drawn.</li> : null}
      </ul>
    </div>
  );
}

/** Both ends of the gap, or one where they are said alike. */
function gapWords(least: number, most: number, notation: Notation): string {
  const [from, to] = [least, most].map((mm) => sayBit(mm, notation));
  return from === to ? from! : `${from} to ${to}`;
}

function Fact({ term, children }: { readonly term: string; readonly children: string }) {
  if (children === "") return null;
  return (
    <div>
      <dt>{term}</dt>
      <dd className="num">{children}</dd>
    </div>
  );
}

const ofPocket = (drawing: Drawing): Drawing => ({
  layers: drawing.layers.filter(({ name }) => name === "pocket" || name === "lost" || name === "added"),
  dimensions: [],
});
