/** Measuring this screen, by a rule laid on a bar or by a bank card. */
import { useState } from "react";
import { readQuantity } from "../../units/read.ts";
import { MM_PER_INCH } from "../../units/unit.ts";
import { useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { RowChoice } from "../kit/choice.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { TextField } from "../kit/text-field.tsx";
import { say } from "../notation.ts";
import { isScreenScale, setScreenScale, useTrueScale } from "../screen-scale.ts";
import "./screen-size.css";

/** A card of format ID-1, mm (ISO/IEC 7810): bank cards, driving licences. */
const CARD = { width: 85.6, height: 53.98 };
/** Length of the bar, px: it must lie under a rule on a phone too. */
const BAR_PX = 280;
const LEAST_PX = 150;
const MOST_PX = 700;

/** By the definition of a CSS px, 96 to the inch: a first guess. */
const CSS_PX_PER_MM = 96 / MM_PER_INCH;

type Way = "card" | "bar";

export function ScreenSize({ onClose }: { readonly onClose: () => void }) {
  const notation = useNotation();
  const known = useTrueScale();
  const [way, setWay] = useState<Way>("card");
  const [cardPx, setCardPx] = useState(() => Math.round((known ?? CSS_PX_PER_MM) * CARD.width));
  const [reads, setReads] = useState("");
  const read = readQuantity(reads, { quantity: "length", bareUnit: notation.unit });
  const byBar = read.ok && read.value.value > 0 ? BAR_PX / read.value.value : undefined;
  const found = way === "card" ? cardPx / CARD.width : byBar;
  const good = found !== undefined && isScreenScale(found);

  function enter(): void {
    if (found === undefined) return;
    setScreenScale(found);
    onClose();
  }

  return (
    <Dialog
      open
      onClose={onClose}
      title="True size on this screen"
      about="Measured once for each screen. Then the board shows the work at its true size by the key 1."
      foot={
        <>
          <Button onClick={onClose}>Leave it</Button>
          <Button look="main" disabled={!good} onClick={enter}>
            This is true
          </Button>
        </>
      }
    >
      <RowChoice
        label="Measured by"
        value={way}
        options={[
          { value: "card", label: "A bank card" },
          { value: "bar", label: "A rule" },
        ]}
        onChoose={setWay}
      />
      {way === "card" ? (
        <div className="screen-by-card">
          <p>
            Lay a bank card or a driving licence on the outline ({say(CARD.width, "length", notation)} by{" "}
            {say(CARD.height, "length", notation)}, ISO/IEC 7810 ID-1) and make it as large as the card.
          </p>
          <div className="screen-slider">
            <Button size="icon" label="Smaller" onClick={() => setCardPx((px) => Math.max(LEAST_PX, px - 1))}>
              −
            </Button>
            <input
              type="range"
              aria-label="Width of the outline"
              min={LEAST_PX}
              max={MOST_PX}
              value={cardPx}
              onChange={(event) => setCardPx(Number(event.target.value))}
            />
            <Button size="icon" label="Larger" onClick={() => setCardPx((px) => Math.min(MOST_PX, px + 1))}>
              +
            </Button>
          </div>
          <div className="screen-card-room">
            <div className="screen-card" style={{ width: cardPx, height: (cardPx * CARD.height) / CARD.width }} />
          </div>
        </div>
      ) : (
        <div className="screen-by-bar">
          <p>Lay a rule along the bar and type what it reads from end to end, as your rule is marked.</p>
          <div className="screen-bar" style={{ width: BAR_PX }} />
          <div className="screen-reads">
            <span id="screen-reads">The bar reads</span>
            <TextField
              labelledBy="screen-reads"
              numeric
              value={reads}
              placeholder={say(BAR_PX / CSS_PX_PER_MM, "length", notation)}
              problem={
                reads !== "" && !good
                  ? {
                      path: "screen",
                      label: "The bar",
                      message: read.ok ? "No screen shows the bar so long" : read.error.message,
                      mend: read.ok ? "Measure the bar again." : read.error.mend,
                    }
                  : undefined
              }
              onCommit={(text) => setReads(text.trim())}
            />
          </div>
        </div>
      )}
    </Dialog>
  );
}
