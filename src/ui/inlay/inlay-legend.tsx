/** Under the board: whether the bits can cut the letters, and what the colours and hatchings of the drawing mean. */
import { useStore } from "zustand";
import type { DerivedPart } from "../../parts/derived.ts";
import { undo } from "../../store/commands/undo.ts";
import { useBench, useNotation, useSession } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { FINDING_WORD, FindingSign } from "../kit/sign.tsx";
import { say, type Notation } from "../notation.ts";
import { useLast } from "../use-last.ts";
import { useLongSeconds } from "./use-long-seconds.ts";
import { verdictOf, type InlayMeasures } from "./verdict.ts";
import "./inlay.css";

export function InlayLegend({ part }: { readonly part: DerivedPart }) {
  const notation = useNotation();
  const now = part.measures as InlayMeasures | undefined;
  const busy = part.waiting;
  // What was last found stays, faded, while a changed number is looked at.
  const seen = useLast(part.id, part, !busy);
  const m = seen.measures as InlayMeasures | undefined;
  if (!now || !m) return null;
  const verdict = verdictOf(m, seen.findings(), notation);
  return (
    <aside className="inlay-legend" aria-label="What the bits do to the letters" data-state={now.state}>
      {busy ? <Busy /> : null}
      <div className="inlay-verdict" aria-live="polite" data-stale={busy ? "" : undefined}>
        {verdict ? (
          <>
            <p className={`inlay-verdict-says says-${verdict.severity}`}>
              <FindingSign severity={verdict.severity} />
              <span className="unseen">{FINDING_WORD[verdict.severity]}: </span>
              <strong>{verdict.says}</strong>
            </p>
            {verdict.more ? <p className="inlay-verdict-more">{verdict.more}</p> : null}
          </>
        ) : (
          <p className="inlay-verdict-more">{now.state === "reading" ? "The face is being read." : "Looking at every stroke."}</p>
        )}
      </div>
      {m.trouble ? null : (
        <ul className="inlay-keys" data-busy={busy ? "" : undefined}>
          {keysOf(m, notation).map(({ look, says, more }) => (
            <li key={look}>
              <Swatch look={look} />
              <span>
                {says}
                {more ? <span className="inlay-key-more"> {more}</span> : null}
              </span>
            </li>
          ))}
        </ul>
      )}
    </aside>
  );
}

/** Work that goes on for long is spoken of, with the way back. It lies over the legend's corner, so that nothing moves. */
function Busy() {
  const bench = useBench();
  const seconds = useLongSeconds();
  const undoes = useStore(bench.history, ({ undo: label }) => label);
  // What is being dragged is let go of by the hand that drags it.
  const dragged = useSession(({ previews }) => previews.size > 0);
  if (seconds === undefined) return null;
  return (
    <div className="inlay-busy">
      <output>Being worked out</output>
      {seconds > 0 ? (
        <span className="num" aria-hidden="true">
          {seconds} s
        </span>
      ) : null}
      {seconds >= UNDO_FROM && undoes !== undefined && !dragged ? (
        <Button size="small" onClick={() => undo(bench)}>
          Undo {undoes}
        </Button>
      ) : null}
    </div>
  );
}

/** What takes as long has its undo beside it, s. */
const UNDO_FROM = 2;

interface Key {
  readonly look: "lost" | "added" | "wall" | "pocket" | "drawn";
  readonly says: string;
  readonly more?: string;
}

/** Only what the drawing shows. */
function keysOf(m: InlayMeasures, notation: Notation): Key[] {
  const length = (mm: number): string => say(mm, "length", notation);
  const places = (kind: "lost" | "added"): string => {
    const found = m.spots.filter((spot) => spot.kind === kind);
    const deepest = Math.max(0, ...found.map(({ depth }) => depth));
    return `${found.length === 1 ? "1 place" : `${found.length} places`}, at most ${length(deepest)}`;
  };
  const has = (kind: "lost" | "added"): boolean => m.spots.some((spot) => spot.kind === kind);
  return [
    ...(has("lost") ? [{ look: "lost", says: "Bit cannot get in: wood stays", more: places("lost") } as const] : []),
    ...(has("added") ? [{ look: "added", says: "Covers more than drawn", more: places("added") } as const] : []),
    ...(m.thinnestWall !== undefined && m.thinnestWall < 0.8
      ? [{ look: "wall", says: "Thinnest wall", more: length(m.thinnestWall) } as const]
      : []),
    ...(m.pieceCount > 0 ? [{ look: "pocket", says: "Pocket" } as const] : []),
    { look: "drawn", says: "As drawn" },
  ];
}

/** A small sample of how it is drawn on the board. */
function Swatch({ look }: { readonly look: Key["look"] }) {
  const hatch = look === "lost" ? "M-2 18 18 -2M4 24 24 4" : look === "added" ? "M-2 -4 18 16M4 -10 28 14" : "";
  return (
    <svg className={`inlay-swatch inlay-swatch-${look}`} viewBox="0 0 28 16" aria-hidden="true">
      {look === "drawn" ? <path d="M1 8H27" /> : null}
      {look === "wall" ? <circle cx="14" cy="8" r="6" /> : null}
      {look === "lost" || look === "added" || look === "pocket" ? <rect x="0.75" y="0.75" width="26.5" height="14.5" /> : null}
      {hatch ? <path className="inlay-swatch-hatch" d={`${hatch}M10 ${look === "lost" ? "30 30 10" : "-16 38 12"}`} /> : null}
    </svg>
  );
}
