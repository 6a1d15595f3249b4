/** The worked examples that come with the product, fetched when they are asked for. */
import type { Design } from "../../document/design.ts";
import { readDesign } from "../../document/read.ts";

const FILES = import.meta.glob<string>("../../../examples/*.json", { query: "?raw", import: "default" });

/** The examples in the order of their numbers, as orders of nobody yet: without number, player and date. Throws where one is damaged. */
export async function loadExamples(): Promise<readonly Design[]> {
  const texts = await Promise.all(Object.values(FILES).map((load) => load()));
  return texts
    .map((text) => {
      const read = readDesign(text);
      if (!read.ok) throw new Error(`an example is damaged: ${read.message}`);
      return read.design;
    })
    .toSorted((a, b) => Number(a.order?.number ?? 0) - Number(b.order?.number ?? 0))
    .map(({ order, cuts: _cuts, ...numbers }) => ({ ...numbers, ...(order?.title ? { order: { title: order.title } } : {}) }));
}
