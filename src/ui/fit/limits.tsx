/** The limits of a check, to be changed by the maker; a changed one is told wherever its findings stand. */
import { useMemo } from "react";
import { createStore } from "zustand/vanilla";
import { WHOLE, wholeCheckOf } from "../../parts/whole-checks.ts";
import type { Limit, NumberSpec } from "../../parts/contract.ts";
import type { DesignNumbers, Field, Problem } from "../../parts/derived.ts";
import { partOf } from "../../parts/registry.ts";
import type { PlacedFinding } from "../../checks/findings.ts";
import { partNamed, useDerived, useDesign, useNotation } from "../bench.ts";
import { readQuantity } from "../../units/read.ts";
import { plainValue, say, type Notation } from "../notation.ts";
import { useEditing, type Editing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import "./fit-pages.css";

/** A limit with its path in the design. */
export interface PlacedLimit {
  readonly key: string;
  readonly limit: Limit;
  /** As the maker typed it; undefined if it stands as it came. */
  readonly raw: unknown;
}

/** Findings whose limits are open, by key; they stay so when a changed limit moves a finding to another group. */
export const openLimits = createStore<{ readonly keys: ReadonlySet<string> }>(() => ({ keys: new Set() }));

export const toggleLimits = (key: string): void =>
  openLimits.setState(({ keys }) => {
    const next = new Set(keys);
    if (!next.delete(key)) next.add(key);
    return { keys: next };
  });

/** The limits of the check that a finding comes from. */
export function useLimits(finding: PlacedFinding): readonly PlacedLimit[] {
  const derived = useDerived();
  const design = useDesign();
  return limitsBehind(finding, partNamed(derived, finding.partId)?.kind, design);
}

function limitsBehind(
  { id }: PlacedFinding,
  kind: string | undefined,
  { limits }: Pick<DesignNumbers, "limits">,
): readonly PlacedLimit[] {
  const checks = partOf(kind)?.checks ?? [];
  const own = checks
    .filter((check) => id === check.id || id.startsWith(`${check.id}/`))
    .toSorted((a, b) => b.id.length - a.id.length)[0];
  const whole = wholeCheckOf(id);
  const [at, found] = own ? [`${kind}.${own.id}`, own.limits] : [`${WHOLE}.${id.split("/")[0]}`, whole?.limits ?? {}];
  return Object.entries(found).map(([name, limit]) => ({ key: `${at}.${name}`, limit, raw: limits?.[`${at}.${name}`] }));
}

export const isChanged = ({ raw }: PlacedLimit): boolean => raw !== undefined;

/** Fields for the limits of a finding's check. */
export function LimitFields({ limits }: { readonly limits: readonly PlacedLimit[] }) {
  const notation = useNotation();
  const plain = useEditing();
  const editing = useMemo(() => careful(plain, limits, notation), [plain, limits, notation]);
  return (
    <div className="limits">
      {limits.map((placed) => (
        <div key={placed.key}>
          <FieldRow field={fieldOf(placed, notation)} notation={notation} editing={editing} />
          {isChanged(placed) ? (
            <p className="limits-usual">
              Changed by you; it came as {say(placed.limit.value, placed.limit.quantity, notation)} ({placed.limit.basis}).
            </p>
          ) : null}
        </div>
      ))}
    </div>
  );
}

const MOST = { length: 2000, angle: Math.PI, count: 1000, number: 1000 } as const;
const STEP = { length: 0.1, angle: Math.PI / 180, count: 1, number: 0.1 } as const;

/** Refuses what cannot be read beside its field: a limit is read by its check, which has no field to tell it at. */
function careful(editing: Editing, limits: readonly PlacedLimit[], notation: Notation): Editing {
  const problemOf = (path: string, raw: unknown): Problem | undefined => {
    const placed = limits.find(({ key }) => `limits.${key}` === path);
    if (!placed || typeof raw !== "string") return undefined;
    const read = readQuantity(raw, { quantity: placed.limit.quantity, bareUnit: notation.unit });
    return read.ok ? undefined : { path, label: placed.limit.label, message: read.error.message, mend: read.error.mend };
  };
  return {
    ...editing,
    // A limit that is being typed moves no finding from group to group yet.
    tryValue: problemOf,
    sayValue: (path, raw, gesture) => problemOf(path, raw) ?? editing.sayValue(path, raw, gesture),
    drop: () => undefined,
  };
}

function fieldOf({ key, limit, raw }: PlacedLimit, notation: Notation): Field {
  const { label, quantity, value, basis } = limit;
  const spec = {
    type: quantity,
    label,
    help: `A limit of this check. Basis: ${basis}.`,
    group: "Limits",
    fallback: value,
    min: -MOST[quantity],
    max: MOST[quantity],
    step: STEP[quantity],
  } satisfies NumberSpec<unknown>;
  return {
    path: `limits.${key}`,
    key,
    spec: spec as unknown as Field["spec"],
    raw,
    value: typeof raw === "number" ? raw : typeof raw === "string" ? plainValue(raw, quantity, notation) : value,
    state: raw === undefined ? "fallback" : "given",
    idle: false,
  };
}
