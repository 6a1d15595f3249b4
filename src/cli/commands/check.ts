import { countBySeverity, findingsOf, sentenceOf } from "../../checks/findings.ts";
import { formatQuantity, inFull } from "../../units/format.ts";
import { onlyWord } from "../arguments.ts";
import { deriveWhole, openDesign } from "../design-file.ts";
import { COMMON, type Command } from "../program.ts";

export const check: Command = {
  name: "check",
  usage: "DESIGN [--set path=value]... [--json]",
  about: "the fit checks; exit code 1 if any says stop",
  ...COMMON,
  run: async (args, out) => {
    const design = await openDesign(onlyWord(args, "DESIGN"), args, out.note);
    const findings = findingsOf(design, deriveWhole(design));
    const counts = countBySeverity(findings);
    const style = { unit: design.units, fractions: design.fractions ?? false };
    const said = findings.map((finding) =>
      sentenceOf(finding, (value, quantity) => inFull(formatQuantity(value, quantity, style))),
    );
    if (args.options["json"]) {
      out.line(JSON.stringify({ counts, findings: findings.map((finding, i) => ({ ...finding, sentence: said[i] })) }, null, 2));
    } else {
      findings.forEach((finding, i) => {
        if (finding.severity !== "fine")
          out.line(`${finding.severity}: ${finding.partId}: ${said[i]} ${finding.mend} (${finding.basis})`);
      });
      out.line(`${counts.stop} to stop at, ${counts.look} to look at, ${counts.fine} fine`);
    }
    return counts.stop > 0 ? 1 : 0;
  },
};
