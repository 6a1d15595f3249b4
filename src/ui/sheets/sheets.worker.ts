/** Lays out sheets and writes their PDF beside the page, so that typing and scrolling go on meanwhile. */
import { pdfFileOf } from "../../export/job.ts";
import { layOut } from "../../sheets/lay-out.ts";
import { withSay, type Answer, type Question } from "./worker-words.ts";

const answer = (words: Answer): void => postMessage(words);

async function work(question: Question): Promise<void> {
  const { templates } = question;
  const options = withSay(question.options);
  if (question.kind === "lay-out") return answer({ kind: "sheets", set: layOut(templates, options) });
  const bytes = await pdfFileOf(templates, options, question.fonts, { onProgress: (done) => answer({ kind: "progress", done }) });
  answer({ kind: "pdf", bytes });
}

addEventListener("message", ({ data }: MessageEvent<Question>) => {
  work(data).catch((error: unknown) =>
    answer({ kind: "fault", message: error instanceof Error ? error.message : String(error) }),
  );
});
