/** Whether the templates that a design asks for can be made: bushes that enter every corner, edges that survive their move, halves that fit. */
import type { Finding, Severity, TemplateSource } from "../parts/contract.ts";
import type { Derived, DerivedPart, DesignNumbers } from "../parts/derived.ts";
import { GEOMETRY } from "../parts/finding.ts";
import type { Making } from "../parts/making-choices.ts";
import { makingsOf } from "../parts/makings.ts";
import { edgeOf, madeFrom } from "./edge.ts";
import { guidanceOf } from "./guidance.ts";
import type { LostPlace } from "./lost.ts";
import { moveEdge } from "./move-edge.ts";
import type { Template } from "./template.ts";
import { partName } from "../parts/part-name.ts";

export type TemplateFinding = Finding & {
  readonly partId: string;
  readonly partLabel: string;
};

/** One or more findings for every template that the design says something of; the others are cut to their line and ask for nothing. */
export function templateFindings(design: DesignNumbers, derived: Derived): readonly TemplateFinding[] {
  const asked = Object.keys(design.templates ?? {}).filter((id) => id.includes("/"));
  if (asked.length === 0) return [];
  const makings = makingsOf(design, derived);
  return asked.flatMap((id) => {
    const [partId = "", ...rest] = id.split("/");
    const part = derived.parts.find((one) => one.id === partId);
    const source = part?.templates().find(({ name }) => name === rest.join("/"));
    if (!part || !source) return [];
    const template: Template = { ...source, id, partId, partLabel: partName(part) };
    const making = makings.of(id, madeFrom(template)).value;
    return making ? findingsOn(part, source, template, making) : [];
  });
}

interface Kept {
  readonly making: string;
  readonly findings: readonly TemplateFinding[];
}
/** A template is looked at again only when it or how it is made has changed. */
const kept = new WeakMap<TemplateSource, Kept>();

function findingsOn(part: DerivedPart, source: TemplateSource, template: Template, making: Making): readonly TemplateFinding[] {
  const text = JSON.stringify(making);
  const known = kept.get(source);
  if (known?.making === text) return known.findings;
  const findings = lookAt(template, making).map((finding) => ({ ...finding, partId: part.id, partLabel: partName(part) }));
  kept.set(source, { making: text, findings });
  return findings;
}

function lookAt(template: Template, making: Making): Finding[] {
  const id = `template-made/${template.name}`;
  const name = `Template ${template.title.charAt(0).toLowerCase()}${template.title.slice(1)}`;
  const guidance = guidanceOf(making);
  if (!guidance.ok) return [stopped(id, `${name} cannot be made: ${guidance.error.message}.`, guidance.error.mend)];
  const edge = edgeOf(template);
  if (!edge) return [];
  const moved = moveEdge(template, edge, making, guidance);
  if (!moved.ok) return [stopped(id, `${name} cannot be made: ${moved.error.message}.`, moved.error.mend)];
  const found = [
    ...lostFinding(`${id}/outward`, moved.lost, ["outward"], "look", guidance.leastOutward, {
      says: `${name}: what runs along it enters no corner under {measured}, and an outward corner of the line comes out round.`,
      mend: "Take a smaller guide, or finish the corner by hand.",
    }),
    ...lostFinding(`${id}/inward`, moved.lost, ["inward"], "look", guidance.leastInward, {
      says: `${name}: what runs along it enters no corner under {measured}, and wood is left in an inward corner of the line.`,
      mend: "Take a smaller guide, or finish the corner by hand.",
    }),
    ...lostFinding(`${id}/swallowed`, moved.lost, ["tight", "narrow"], "stop", Math.abs(guidance.offset), {
      says: `${name}: the edge is moved by {measured}, and a bend or a neck of the line is lost on the way.`,
      mend: "Take a bush and a bit nearer in size, or ease the line.",
    }),
    ...(guidance.gap !== undefined && guidance.gap < -1e-9
      ? [
          {
            ...stopped(`${id}/jam`, `${name}: piece and recess jam by {measured}.`, "Change a bush or a bit."),
            measured: -guidance.gap,
            quantity: "length" as const,
          },
        ]
      : []),
  ];
  if (found.length > 0) return found;
  return [{ id, severity: "fine", says: `${name} can be made as asked.`, basis: GEOMETRY, mend: "", shape: edge.id }];
}

const stopped = (id: string, says: string, mend: string): Finding => ({ id, severity: "stop", says, basis: GEOMETRY, mend });

function lostFinding(
  id: string,
  lost: readonly LostPlace[],
  kinds: readonly LostPlace["kind"][],
  severity: Severity,
  measured: number,
  words: { readonly says: string; readonly mend: string },
): Finding[] {
  const first = lost.find(({ kind }) => kinds.includes(kind));
  return first ? [{ id, severity, ...words, measured, quantity: "length", basis: GEOMETRY, at: first.at }] : [];
}
