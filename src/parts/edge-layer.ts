/** A layer of binding or purfling, described in one way wherever an edge is bound. */
import type { NumberSpec, TextSpec } from "./contract.ts";
import { PRACTICE } from "./finding.ts";

/** The name and the thickness of a layer, in the group under which the edge's binding is listed. */
export const edgeLayer = (group: string): { readonly name: TextSpec<unknown>; readonly thickness: NumberSpec<unknown> } => ({
  name: {
    type: "text",
    label: "Name",
    help: "What the layer is: binding, purfling, black line.",
    group,
    fallback: "binding",
    maxLength: 40,
  },
  thickness: {
    type: "length",
    label: "Thickness",
    help: "Of the layer, square to the edge.",
    group,
    fallback: 1.524,
    min: 0.05,
    max: 20,
    step: 0.1,
    usual: { from: 0.25, to: 2.5, basis: `binding 1.52 mm, purfling 0.89 mm: ${PRACTICE}` },
  },
});
