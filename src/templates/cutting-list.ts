/** What a design takes: pieces of wood with their sizes and weights, what is cut by length, holes by drill, and bits. Numbers only. */
import type { Shape } from "../drawing/drawing.ts";
import { pathArea, pathBounds } from "../geometry/measure.ts";
import { asCircle } from "../geometry/path.ts";
import { rotation, transformPath } from "../geometry/transform.ts";
import { plateMassG, woodDensity, type WoodDensity } from "../lutherie/wood-density.ts";
import { woodSpecies } from "../lutherie/wood-species.ts";
import type { Derived, DesignNumbers } from "../parts/derived.ts";
import type { Makings } from "../parts/makings.ts";
import type { Cutter } from "../parts/made-of.ts";
import { partName } from "../parts/part-name.ts";
import { blanksOf, NO_WOOD, type PlacedBlank } from "../parts/wood.ts";
import { madeFrom } from "./edge.ts";
import { templatesOf } from "./template.ts";

/** A piece of wood. Lengths mm, along the grain, across it and through. */
export interface PieceRow {
  readonly placed: PlacedBlank;
  /** "Ebony, African", "bone", or empty where nothing is said. */
  readonly wood: string;
  readonly count: number;
  /** As it is sawn, allowances included. */
  readonly rough: { readonly length: number; readonly width: number; readonly thickness: number };
  /** Of one: sawn as a rectangle, and finished by its outline less its holes; absent where the density is not known. */
  readonly roughG?: number;
  readonly finishedG?: number;
  readonly density?: WoodDensity;
}

/** What is cut by length. */
export interface LengthRow {
  readonly partId: string;
  readonly partLabel: string;
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly count: number;
  /** Spare included. */
  readonly longest: number;
  readonly total: number;
}

/** Holes of one diameter. */
export interface HoleRow {
  readonly diameter: number;
  readonly count: number;
  /** "Bridge: 6" */
  readonly where: readonly { readonly partId: string; readonly partLabel: string; readonly count: number }[];
}

/** A bit, a bearing, a guide bush or a saw that a template or the part itself asks for. */
export interface BitRow extends Pick<Cutter, "what" | "size"> {
  /** What wants it: "Fingerboard, fret slots". */
  readonly for: readonly string[];
}

export interface CuttingList {
  readonly pieces: readonly PieceRow[];
  readonly lengths: readonly LengthRow[];
  readonly holes: readonly HoleRow[];
  readonly bits: readonly BitRow[];
}

export const cuttingList = (design: DesignNumbers, derived: Derived, makings: Makings): CuttingList => ({
  pieces: blanksOf(design, derived).flatMap((placed) => pieceRow(placed) ?? []),
  lengths: lengthRows(derived),
  holes: holeRows(derived),
  bits: bitRows(derived, makings),
});

function pieceRow(placed: PlacedBlank): PieceRow | undefined {
  const { blank } = placed;
  const wood = placed.wood.value;
  if (!wood) return undefined;
  const species = wood.species === NO_WOOD ? undefined : woodSpecies(wood.species);
  const box = pathBounds(transformPath(rotation(species ? -wood.grain : 0), blank.outline));
  const rough = {
    length: box.maxX - box.minX + 2 * wood.allowance,
    width: box.maxY - box.minY + 2 * wood.allowance,
    thickness: blank.thickness + wood.planing,
  };
  const density = species && woodDensity(species);
  const cutOut = (blank.holes ?? []).reduce((sum, hole) => sum + Math.abs(pathArea(hole)), 0);
  const area = Math.max(0, Math.abs(pathArea(blank.outline)) - cutOut);
  return {
    placed,
    wood: species?.common ?? blank.material ?? "",
    count: blank.count ?? 1,
    rough,
    ...(density
      ? {
          density,
          roughG: plateMassG(rough.length * rough.width, rough.thickness, density.kgM3),
          finishedG: plateMassG(area, blank.thickness, density.kgM3),
        }
      : {}),
  };
}

const lengthRows = (derived: Derived): LengthRow[] =>
  derived.parts.flatMap((part) =>
    (part.materials().strips ?? []).flatMap(({ title, lengths, spare, width, height }): LengthRow[] => {
      if (lengths.length === 0) return [];
      const cut = lengths.map((length) => length + spare);
      return [
        {
          partId: part.id,
          partLabel: partName(part),
          title,
          width,
          height,
          count: cut.length,
          longest: Math.max(...cut),
          total: cut.reduce((sum, length) => sum + length, 0),
        },
      ];
    }),
  );

/** Diameters nearer to each other than this are one drill, mm. */
const ONE_DRILL = 0.005;

function holeRows(derived: Derived): HoleRow[] {
  const rows: { diameter: number; where: { partId: string; partLabel: string; count: number }[] }[] = [];
  for (const part of derived.parts) {
    const named = (part.materials().holes ?? []).flatMap(({ diameter, count }) => Array.from({ length: count }, () => diameter));
    for (const diameter of [...part.drawing().layers.flatMap(({ shapes }) => shapes.flatMap(drilled)), ...named]) {
      let row = rows.find((one) => Math.abs(one.diameter - diameter) < ONE_DRILL);
      if (!row) rows.push((row = { diameter, where: [] }));
      const here = row.where.find(({ partId }) => partId === part.id);
      if (here) here.count += 1;
      else row.where.push({ partId: part.id, partLabel: partName(part), count: 1 });
    }
  }
  return rows
    .map((row) => ({ ...row, count: row.where.reduce((sum, { count }) => sum + count, 0) }))
    .toSorted((a, b) => a.diameter - b.diameter);
}

function drilled({ role, path }: Shape): number[] {
  const hole = role === "drill" ? asCircle(path) : undefined;
  return hole ? [2 * hole.radius] : [];
}

function bitRows(derived: Derived, makings: Makings): BitRow[] {
  const rows: { what: BitRow["what"]; size: number; for: string[] }[] = [];
  const want = (what: BitRow["what"], size: number | undefined, by: string): void => {
    if (size === undefined) return;
    const row = rows.find((one) => one.what === what && Math.abs(one.size - size) < ONE_DRILL);
    if (row) {
      if (!row.for.includes(by)) row.for.push(by);
    } else rows.push({ what, size, for: [by] });
  };
  for (const source of templatesOf(derived)) {
    const making = makings.of(source.id, madeFrom(source)).value;
    const by = `${source.partLabel}, ${source.title.charAt(0).toLowerCase()}${source.title.slice(1)}`;
    if (!making || (making.follow !== "bush" && making.follow !== "bearing")) continue;
    want("bit", making.bit, by);
    if (making.follow === "bearing") want("bearing", making.bearing, by);
    else {
      want("guide bush", making.bush, by);
      want("guide bush", making.partnerBush, by);
      if (making.partnerBush !== undefined) want("bit", making.partnerBit, by);
    }
  }
  for (const part of derived.parts) {
    for (const cutter of part.materials().cutters ?? []) want(cutter.what, cutter.size, `${partName(part)}, ${cutter.for}`);
  }
  return rows.toSorted((a, b) => (a.what < b.what ? -1 : a.what > b.what ? 1 : a.size - b.size));
}
