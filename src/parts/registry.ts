/** All parts, the instrument first; a part may read the measures only of those above it. */
import type { Part } from "./contract.ts";
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

/** A part whose own types do not matter. */
export type AnyPart = Part<unknown, unknown>;

const entry = <P, M>(part: Part<P, M>): AnyPart => part as unknown as AnyPart;

export const REGISTRY: readonly AnyPart[] = [
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

/** The part of a kind, or undefined if this version has none. */
export const partOf = (kind: unknown): AnyPart | undefined => REGISTRY.find((part) => part.kind === kind);
