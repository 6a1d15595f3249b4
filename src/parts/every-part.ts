/** Every part, the instrument first; a part may read the measures only of those above it. Fetched by `everyPart` of the registry. */
import { entry, type AnyPart } from "./any-part.ts";
import { body } from "./body/index.ts";
import { bracing } from "./bracing/index.ts";
import { bridge } from "./bridge/index.ts";
import { fingerboard } from "./fingerboard/index.ts";
import { headstock } from "./headstock/index.ts";
import { inlay } from "./inlay/index.ts";
import { instrument } from "./instrument/index.ts";
import { neck } from "./neck/index.ts";
import { nut } from "./nut/index.ts";
import { offcut } from "./offcut/index.ts";
import { pickguard } from "./pickguard/index.ts";
import { port } from "./port/index.ts";
import { shape } from "./shape/index.ts";
import { sides } from "./sides/index.ts";
import { soundhole } from "./soundhole/index.ts";

export const EVERY_PART: readonly AnyPart[] = [
  entry(instrument),
  entry(fingerboard),
  entry(nut),
  entry(body),
  entry(neck),
  entry(headstock),
  entry(bridge),
  entry(soundhole),
  entry(sides),
  entry(bracing),
  entry(port),
  entry(pickguard),
  entry(shape),
  entry(offcut),
  entry(inlay),
];
