/** Tests have every part from the start; a browser fetches most of them later, which tests/browser/first-load.test.ts is about. */
import { everyPart } from "../src/parts/registry.ts";

await everyPart();
