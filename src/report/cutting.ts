/** The cutting list as rows of words: pieces of wood with their rough sizes, and what is cut by length. */
import type { Design } from "../document/design.ts";
import { pathBounds } from "../geometry/measure.ts";
import { rotation, transformPath } from "../geometry/transform.ts";
import { woodSpecies } from "../lutherie/wood-species.ts";
import type { Derived } from "../parts/derived.ts";
import { partName } from "../parts/part-name.ts";
import { blanksOf, NO_WOOD, type PlacedBlank } from "../parts/wood.ts";
import type { Say } from "./say.ts";

/** Piece, wood with its origin, count, and length, width and thickness as it is cut from the board: along the grain, across it. */
export function cuttingRows(design: Design, derived: Derived, say: Say): string[][] {
  return blanksOf(design, derived).flatMap((placed) => {
    const { blank, wood } = placed;
    const { value } = wood;
    if (!value) return [];
    const box = pathBounds(transformPath(rotation(-value.grain), blank.outline));
    const around = 2 * value.allowance;
    return [
      [
        pieceName(placed, derived),
        woodWords(placed),
        String(blank.count ?? 1),
        say(box.maxX - box.minX + around, "length"),
        say(box.maxY - box.minY + around, "length"),
        say(blank.thickness + value.planing, "length"),
      ],
    ];
  });
}

/** "Fingerboard", or "Neck: heel block" where the piece is not the part itself. */
function pieceName({ partId, partLabel, blank }: PlacedBlank, derived: Derived): string {
  const part = derived.parts.find(({ id }) => id === partId);
  const owner = part ? partName(part) : partLabel;
  return owner.toLowerCase() === blank.title.toLowerCase() ? owner : `${owner}: ${blank.title.toLowerCase()}`;
}

function woodWords({ blank, wood }: PlacedBlank): string {
  const { value } = wood;
  if (!value) return "";
  const name = value.species === NO_WOOD ? (blank.material ?? "") : (woodSpecies(value.species)?.common ?? value.species);
  return [name, value.origin && `from ${value.origin}`, value.board, value.papers].filter((text) => text !== "").join(", ");
}

/** What it is, its section, how many, the longest and all of them together, spare included. */
export function stripRows(derived: Derived, say: Say): string[][] {
  return derived.parts.flatMap((part) =>
    (part.materials().strips ?? []).map(({ title, width, height, lengths, spare }) => {
      const cut = lengths.map((length) => length + spare);
      return [
        `${partName(part)}: ${title.toLowerCase()}`,
        `${say(width, "length")} × ${say(height, "length")}`,
        String(cut.length),
        say(Math.max(...cut), "length"),
        say(
          cut.reduce((sum, length) => sum + length, 0),
          "length",
        ),
      ];
    }),
  );
}
