import { polygon } from "../../geometry/path.ts";
import { rotation, transformPoint } from "../../geometry/transform.ts";
import { add, vec } from "../../geometry/vec.ts";
import type { PartKind, Materials } from "../contract.ts";
import type { Cutter } from "../made-of.ts";
import type { InlayMeasures } from "./measure.ts";
import type { HostKind, InlayParams } from "./numbers.ts";

/** The blank of the host that the pieces are glued into. */
const HOST_BLANKS: Readonly<Partial<Record<HostKind, { readonly kind: PartKind; readonly blank: string }>>> = {
  fingerboard: { kind: "fingerboard", blank: "board" },
  headstock: { kind: "headstock", blank: "plate" },
  bridge: { kind: "bridge", blank: "bridge" },
  pickguard: { kind: "pickguard", blank: "pickguard" },
  shape: { kind: "shape", blank: "outline" },
};

/** One thin plate as large as the letters, of which all pieces are cut, their joint with the host, and the cutters of both. */
export function inlayMaterials(p: InlayParams, m: InlayMeasures): Materials {
  if (!(m.width > 0 && m.height > 0)) return { blanks: [] };
  const turn = rotation(m.turnRad);
  const [x, y] = [m.width / 2, m.height / 2];
  const corners = [vec(-x, -y), vec(x, -y), vec(x, y), vec(-x, y)].map((corner) => add(m.middle, transformPoint(turn, corner)));
  const host = HOST_BLANKS[m.on];
  return {
    blanks: [
      {
        name: "pieces",
        title: "Plate for the inlay pieces",
        outline: polygon(corners),
        thickness: p.pieceThickness,
        species: "maple-sugar",
        sawn: "quartersawn",
        grain: p.grain + m.turnRad,
        allowance: 5,
        planing: 0.3,
      },
    ],
    joints: host
      ? [
          {
            name: "in-host",
            title: "Inlay pieces in their host",
            blank: "pieces",
            on: host,
            along: Math.max(...corners.map((at) => at.x)) - Math.min(...corners.map((at) => at.x)),
            across: Math.max(...corners.map((at) => at.y)) - Math.min(...corners.map((at) => at.y)),
          },
        ]
      : [],
    cutters: cuttersOf(p),
  };
}

function cuttersOf(p: InlayParams): readonly Cutter[] {
  const [pocket, pieces] = ["pocket", "inlay pieces"];
  if (p.method === "knife") return [];
  const bits: Cutter[] = [
    { what: "bit", size: p.pocketBit, for: pocket },
    { what: "bit", size: p.pieceBit, for: pieces },
  ];
  if (p.method === "bush")
    return [
      ...bits,
      { what: "guide bush", size: p.pocketBush, for: pocket },
      { what: "guide bush", size: p.pieceBush, for: pieces },
    ];
  return p.clearing && p.clearingBit !== undefined
    ? [...bits, { what: "bit", size: p.clearingBit, for: "middle of the pocket" }]
    : bits;
}
