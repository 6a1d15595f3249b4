import type { ParamTable } from "../contract.ts";
import { edgeLayer } from "../edge-layer.ts";
import type { BindingNumbers, FingerboardParams } from "./numbers.ts";

const BINDING = "Binding, each side";

export const bindingTable: Pick<ParamTable<FingerboardParams>, keyof BindingNumbers> = {
  binding: {
    type: "records",
    label: "Layers",
    help: "Binding and purfling of each side, from the outside in.",
    group: BINDING,
    item: "layer",
    short: "thickness",
    maxItems: 12,
    fallback: [],
    of: edgeLayer(BINDING),
  },
  bindingThickness: {
    type: "length",
    label: "All layers together",
    help: "What the edge of the board is moved in by on each side. Typed here, it stands for one layer.",
    group: BINDING,
    follows: { words: "sum of the layers", value: (p) => p.binding.reduce((sum, layer) => sum + layer.thickness, 0) },
    min: 0,
    max: 240,
    step: 0.1,
    usual: { from: 0, to: 2.5, basis: "2.41 mm with purfling: common practice, no source" },
  },
  bindEnd: {
    type: "flag",
    label: "Bind the end",
    help: "Carries the binding round the end at the body, with mitred corners.",
    group: BINDING,
    fallback: false,
    when: (p) => p.bindingThickness > 0,
  },
  bindingHeight: {
    type: "length",
    label: "Height of the binding",
    help: "Of the strip before it is brought down to the arch of the face.",
    group: BINDING,
    follows: { words: "thickness of the board", value: (p) => p.thickness },
    min: 0.5,
    max: 60,
    step: 0.1,
    when: (p) => p.bindingThickness > 0,
  },
};
