/** Looks for places on an offcut beside the page. */
import { answerTo, type Question, type Reply } from "../../checks/offcut-work.ts";

const reply = (words: Reply): void => postMessage(words);

addEventListener("message", ({ data }: MessageEvent<Question>) => {
  try {
    reply(answerTo(data, (done) => reply({ kind: "progress", done })));
  } catch (error) {
    reply({ kind: "fault", message: error instanceof Error ? error.message : String(error) });
  }
});
