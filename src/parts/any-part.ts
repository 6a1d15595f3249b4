import type { Part } from "./contract.ts";

/** A part whose own types do not matter. */
export type AnyPart = Part<unknown, unknown>;

export const entry = <P, M>(part: Part<P, M>): AnyPart => part as unknown as AnyPart;
