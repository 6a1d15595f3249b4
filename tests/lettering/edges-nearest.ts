import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import type { Region } from "../../src/geometry/region.ts";
import { toJts } from "../geometry/jts.ts";

/** Least distance between two regions as JTS measures it, mm. */
export const edgesNearest = (a: Region, b: Region): number =>
  (DistanceOp as unknown as { distance(a: unknown, b: unknown): number }).distance(toJts(a), toJts(b));
