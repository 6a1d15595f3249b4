/** The work of finding places, for a worker beside the page. */
import { findPlace, type Answer, type Wanted } from "../lutherie/offcut-search.ts";
import { laySequence, type Sequence } from "../lutherie/offcut-sequence.ts";
import type { Region } from "../geometry/region.ts";

export type Question =
  | { readonly kind: "place"; readonly wood: Region; readonly wanted: Wanted }
  | { readonly kind: "sequence"; readonly wood: Region; readonly wanted: readonly Wanted[]; readonly kerf: number };

export type Reply =
  | { readonly kind: "progress"; readonly done: number }
  | { readonly kind: "place"; readonly answer: Answer }
  | { readonly kind: "sequence"; readonly sequence: Sequence }
  | { readonly kind: "fault"; readonly message: string };

export const answerTo = (question: Question, onProgress: (done: number) => void): Reply =>
  question.kind === "place"
    ? { kind: "place", answer: findPlace(question.wood, question.wanted, onProgress) }
    : { kind: "sequence", sequence: laySequence(question.wood, question.wanted, question.kerf, onProgress) };
