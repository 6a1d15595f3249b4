/** Lays out sheets and writes their files beside the page, so that typing and scrolling go on meanwhile. */
import { jobArchive, pdfFileOf } from "../../export/job.ts";
import { layOut } from "../../sheets/lay-out.ts";
import { withSay, type Answer, type Question } from "./worker-words.ts";

const answer = (words: Answer): void => postMessage(words);

async function work(question: Question): Promise<void> {
  const { templates } = question;
  const onProgress = (done: number): void => answer({ kind: "progress", done });
  const options = withSay(question.options);
  if (question.kind === "lay-out") return answer({ kind: "sheets", set: layOut(templates, options, onProgress) });
  const { fonts, design, as, set } = question;
  const watch = { onProgress, set };
  const bytes = await (as === "pdf"
    ? pdfFileOf(templates, options, fonts, watch)
    : jobArchive(templates, options, fonts, design, watch));
  answer({ kind: "file", bytes });
}

addEventListener("message", ({ data }: MessageEvent<Question>) => {
  work(data).catch((error: unknown) =>
    answer({ kind: "fault", message: error instanceof Error ? error.message : String(error) }),
  );
});
