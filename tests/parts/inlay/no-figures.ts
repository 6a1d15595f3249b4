import type { InlayQuestion } from "../../../src/parts/inlay/question.ts";

/** Letters alone. */
export const NO_FIGURES: InlayQuestion["figures"] = {
  ornaments: [],
  beside: "none",
  outline: [],
  art: "",
  artWidth: undefined,
  artX: 0,
  artY: 0,
  artTurn: 0,
};
