/**
 * Several instruments from one design: the shared numbers stand once, each copy has its own instrument number, player and whatever
 * differs. A copy never holds a number that it shares.
 */
import type { Raw } from "../parts/derived.ts";
import type { Result } from "../units/result.ts";
import type { Copy, Design, Trouble } from "./design.ts";
import { placeOf } from "./place.ts";
import { setValue } from "./set-value.ts";

export const MOST_COPIES = 60;

const refuse = (message: string, mend: string): { readonly ok: false; readonly error: Trouble } => ({
  ok: false,
  error: { message, mend },
});

/** The design of one copy: its order, and its own numbers laid over the shared ones; those that lead nowhere are told and left out. */
export function copyOf(
  design: Design,
  index: number,
): Result<{ readonly design: Design; readonly leftOut: readonly Trouble[] }, Trouble> {
  const copy = design.copies?.[index];
  if (!copy) return refuse(`there is no copy ${index + 1}`, `There are ${design.copies?.length ?? 0}.`);
  const { copies: _copies, cuts: _cuts, ...shared } = design;
  const leftOut: Trouble[] = [];
  let own: Design = {
    ...shared,
    order: {
      ...shared.order,
      ...(copy.number === undefined ? {} : { number: copy.number }),
      ...(copy.player === undefined ? {} : { player: copy.player }),
    },
  };
  for (const [path, raw] of Object.entries(copy.own ?? {})) {
    const set = setValue(own, path, raw);
    if (set.ok) own = set.value;
    else leftOut.push(set.error);
  }
  return { ok: true, value: { design: own, leftOut } };
}

/** What the design of a copy is derived under, beside the open design. */
export const copyKey = (index: number): string => `copy ${index}`;

/** The design with one more copy, sharing everything. */
export function addCopy(design: Design, copy: Pick<Copy, "number" | "player">): Result<Design, Trouble> {
  const copies = design.copies ?? [];
  if (copies.length >= MOST_COPIES) return refuse(`there are ${MOST_COPIES} copies already`, "Begin another design.");
  const number = copy.number?.trim();
  if (number && numbersOfAll(design).includes(number))
    return refuse(`number ${number} is taken`, "Give every instrument a number of its own.");
  return { ok: true, value: { ...design, copies: [...copies, copy] } };
}

/** The instrument numbers of the design and of its copies that have one. */
export const numbersOfAll = ({ order, copies = [] }: Design): readonly string[] =>
  [order?.number, ...copies.map(({ number }) => number)].flatMap((number) => (number?.trim() ? [number.trim()] : []));

/** The design without a copy. */
export function removeCopy(design: Design, index: number): Design {
  const { copies = [], ...others } = design;
  const kept = copies.filter((_, i) => i !== index);
  return kept.length > 0 ? { ...others, copies: kept } : others;
}

/** A copy's number of its own at a path, in full; undefined lets it share the design's again. Refused where the path is no number. */
export function setOwn(design: Design, index: number, path: string, raw: Raw): Result<Design, Trouble> {
  const copy = design.copies?.[index];
  if (!copy) return refuse(`there is no copy ${index + 1}`, `There are ${design.copies?.length ?? 0}.`);
  const place = placeOf(design, path);
  if (!place.ok) return place;
  if (place.value.in !== "table" && place.value.in !== "measured")
    return refuse(`${path} cannot be a copy's own`, "Name a number of the instrument or of a part.");
  const { [place.value.path]: _, ...rest } = copy.own ?? {};
  const value = typeof raw === "string" ? raw.trim() : raw;
  const own = value === undefined || value === "" ? rest : { ...rest, [place.value.path]: value };
  const { own: _own, ...others } = copy;
  const changed: Copy = Object.keys(own).length > 0 ? { ...others, own } : others;
  return { ok: true, value: { ...design, copies: design.copies!.map((one, i) => (i === index ? changed : one)) } };
}

/** The paths at which any copy has a number of its own, in the order in which they were given. */
export const ownPaths = ({ copies = [] }: Design): readonly string[] => [
  ...new Set(copies.flatMap(({ own }) => Object.keys(own ?? {}))),
];

/** What a copy is called: "No. 22", or by its place where it has no number. */
export const copyName = ({ number }: Copy, index: number): string =>
  number?.trim() ? `No. ${number.trim()}` : `copy ${index + 1}`;

/** The design itself and all its copies, each as a design of its own with its name; a design without copies stands alone, unnamed. */
export function instrumentsOf(design: Design): readonly { readonly name: string; readonly design: Design }[] {
  const { copies = [] } = design;
  if (copies.length === 0) return [{ name: "", design }];
  const first = design.order?.number?.trim() ? `No. ${design.order.number.trim()}` : "the first";
  return [
    { name: first, design },
    ...copies.flatMap((copy, i) => {
      const found = copyOf(design, i);
      return found.ok ? [{ name: copyName(copy, i), design: found.value.design }] : [];
    }),
  ];
}
