import { segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { Part } from "../contract.ts";
import { bridgeChecks } from "./checks.ts";
import { drawBridge } from "./draw.ts";
import { bridgeMaterials } from "./materials.ts";
import { bridgeInPlace } from "./in-place.ts";
import { measureBridge, type BridgeMeasures } from "./measure.ts";
import type { BridgeParams } from "./numbers.ts";
import { bridgeParams } from "./params.ts";
import { bridgeTemplates } from "./templates.ts";

export type { BridgeMeasures, BridgeString } from "./measure.ts";
export type { BridgeParams } from "./numbers.ts";

export const bridge: Part<BridgeParams, BridgeMeasures> = {
  kind: "bridge",
  label: "Bridge",
  about: "What holds the strings on the top, with the saddle that ends them.",
  version: 1,
  migrations: [],
  params: bridgeParams,
  reads: ["instrument", "fingerboard", "nut", "body", "neck"],
  measure: measureBridge,
  measureNames: ["saddleX", "fromFret12", "fromJoin"],
  draw: drawBridge,
  summary: (p, m) => [
    p.type === "pinned" ? "Pinned, saddle at " : p.type === "tied" ? "Tied, saddle at " : "Floating, saddle at ",
    { value: m.saddleX, quantity: "length" },
    " from the nut, turned ",
    { value: m.saddle.angleRad, quantity: "angle" },
    ".",
  ],
  templates: bridgeTemplates,
  outlines: (p, m) => [
    {
      key: "outline",
      title: "Outline of the bridge",
      origin: vec(m.saddleX, 0),
      mirrored: p.mirrored,
      mirrorKey: "mirrored",
      points: p.outline,
      before: [],
      after: [],
      guides: m.strings.map(({ given }) => segmentPath(vec(-60, given[1]), vec(60, given[1]))),
    },
    ...(p.old === "points"
      ? [
          {
            key: "oldOutline",
            title: "Footprint of the old bridge",
            origin: vec(m.saddleX - m.fromFret12, 0),
            mirrored: false,
            points: p.oldOutline,
            before: [],
            after: [],
            guides: [],
          },
        ]
      : []),
  ],
  materials: bridgeMaterials,
  inPlace: bridgeInPlace,
  checks: bridgeChecks,
};
