import { beforeAll, describe, expect, it, vi } from "vitest";
import type * as NewDesign from "../../src/document/new-design.ts";
import type * as Read from "../../src/document/read.ts";
import type * as Write from "../../src/document/write.ts";
import type * as Registry from "../../src/parts/registry.ts";

/** The program as it is before the other parts have been fetched. */
let fresh: typeof Registry & typeof NewDesign & typeof Read & typeof Write;
beforeAll(async () => {
  vi.resetModules();
  fresh = {
    ...(await import("../../src/parts/registry.ts")),
    ...(await import("../../src/document/new-design.ts")),
    ...(await import("../../src/document/read.ts")),
    ...(await import("../../src/document/write.ts")),
  };
});

describe("the registry", () => {
  it("has from the start every part that a new design has", () => {
    for (const kind of fresh.NEW_KINDS)
      for (const part of Object.values(fresh.newDesign(kind).parts))
        expect(fresh.partOf(part.kind), `${kind}: ${part.kind}`).toBeDefined();
  });

  it("lets no design be read before every part is here, and then any", async () => {
    const text = fresh.writeDesign(fresh.newDesign("steel-string"));
    expect(() => fresh.readDesign(text)).toThrow("before every part is here");
    await fresh.everyPart();
    expect(fresh.readDesign(text).ok).toBe(true);
  });

  it("grows by the other parts, keeps the first ones, and each reads only those before it", async () => {
    await fresh.everyPart();
    const kinds = fresh.REGISTRY.map(({ kind }) => kind as string);
    expect(kinds[0]).toBe("instrument");
    expect(new Set(kinds).size).toBe(kinds.length);
    expect(kinds).toEqual(expect.arrayContaining(["fingerboard", "nut", "neck", "body", "inlay"]));
    for (const [i, { kind, reads }] of fresh.REGISTRY.entries())
      for (const read of reads) expect(kinds.indexOf(read), `${kind} reads ${read}`).toBeLessThan(i);
  });
});
