/** Property tests draw the same cases in every run, so that a red run can be had again; `GRAMIL_SEED` draws others. */
import * as fc from "fast-check";

fc.configureGlobal({ seed: Number(process.env["GRAMIL_SEED"] ?? 20_261_125) });
