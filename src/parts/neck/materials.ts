import { rectangle } from "../../geometry/path.ts";
import type { Sources, Joint, Materials } from "../contract.ts";
import type { Blank, Cutter } from "../made-of.ts";
import { tongueOf } from "./joint.ts";
import type { NeckMeasures } from "./measure.ts";
import { modelOf } from "./model.ts";
import type { NeckParams } from "./numbers.ts";
import { planPath } from "./plan.ts";

const WOOD = { species: "mahogany-american", sawn: "quartersawn", grain: 0, allowance: 5, planing: 1 } as const;

/**
 * Scarfed: the planed board of the shaft (the head is the headstock's) and a block that deepens the heel. Of one piece: a billet as high as
 * head, shaft and heel together. And what the joint with the body is drilled and cut by.
 */
export function neckMaterials(p: NeckParams, m: NeckMeasures, from: Sources): Materials {
  const model = modelOf(p, from);
  const shaft = (thickness: number): Blank => ({
    name: "shaft",
    title: p.scarf === "none" ? "Neck of one piece" : "Neck shaft",
    outline: planPath(model, tongueOf(p, model)),
    thickness,
    ...WOOD,
  });
  const board = from.get("fingerboard");
  const joints: Joint[] = board
    ? [
        {
          name: "board-on-neck",
          title: "Fingerboard on the neck",
          blank: "shaft",
          on: { kind: "fingerboard", blank: "board" },
          along: m.joinX - m.nutX,
          across: Math.min(board.widthAtJoin, m.widthAtJoin),
        },
      ]
    : [];
  if (p.scarf === "none") {
    const drop = p.headLength * Math.sin(p.headTilt) + m.headWood;
    return { blanks: [shaft(Math.max(drop, m.heelDepth, p.secondDepth))], joints, ...byWhat(p) };
  }
  const below = m.heelDepth - p.blankThickness;
  const heel: Blank = {
    name: "heel-block",
    title: "Heel block",
    outline: rectangle(m.heelFrom, -m.widthAtJoin / 2, m.joinX, m.widthAtJoin / 2),
    thickness: below,
    ...WOOD,
  };
  return { blanks: [shaft(p.blankThickness), ...(below > 0 && m.joinX > m.heelFrom ? [heel] : [])], joints, ...byWhat(p) };
}

function byWhat(p: NeckParams): Pick<Materials, "holes" | "cutters"> {
  const cutters: Cutter[] = [];
  if (p.joint !== "butt")
    cutters.push(
      { what: "bit", size: p.bit, for: "joint with the body" },
      { what: "guide bush", size: p.bush, for: "joint with the body" },
    );
  if (p.rod !== "none") cutters.push({ what: "bit", size: p.rodWidth, for: "channel of the truss rod, or a narrower bit" });
  return {
    holes: [
      { diameter: p.boltDiameter, count: p.bolts },
      { diameter: p.insertDiameter, count: p.bolts },
    ],
    cutters,
  };
}
