import { CliError, readArguments } from "./arguments.ts";
import { arrangement } from "./commands/arrangement.ts";
import { check } from "./commands/check.ts";
import { form } from "./commands/form.ts";
import { measure } from "./commands/measure.ts";
import { cuttingListCommand } from "./commands/cutting-list.ts";
import { create } from "./commands/new.ts";
import { report } from "./commands/report.ts";
import { templates } from "./commands/templates.ts";
import { testSheet } from "./commands/test-sheet.ts";
import { everyPart } from "../parts/registry.ts";
import type { Command, Out } from "./program.ts";

const COMMANDS: readonly Command[] = [
  create,
  measure,
  check,
  cuttingListCommand,
  templates,
  arrangement,
  report,
  testSheet,
  form,
];

const HELP = `gramil: true-size templates for people who build stringed instruments

${COMMANDS.map((c) => `  gramil ${c.name} ${c.usage}\n      ${c.about}`).join("\n")}

A value after --set is typed as in a field: --set nutWidth="1 11/16 in", --set fingerboard.overhang=8mm.
Errors end with exit code 2.`;

/** Runs one command. @returns the exit code */
export async function run(argv: readonly string[], out: Out): Promise<number> {
  const [name, ...rest] = argv;
  if (name === undefined || name === "help" || name === "--help" || name === "-h") {
    out.line(HELP);
    return 0;
  }
  await everyPart();
  try {
    const command = COMMANDS.find((c) => c.name === name);
    if (!command) throw new CliError(`there is no command ${name} (known: ${COMMANDS.map((c) => c.name).join(", ")})`);
    return await command.run(readArguments(rest, command), out);
  } catch (error) {
    if (!(error instanceof CliError)) throw error;
    out.note(error.message.replaceAll("\n", " "));
    return 2;
  }
}

// A reader that has seen enough (`gramil measure | head`) is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

if (import.meta.filename === process.argv[1]) {
  process.exitCode = await run(process.argv.slice(2), {
    line: (text) => process.stdout.write(`${text}\n`),
    note: (text) => process.stderr.write(`gramil: ${text}\n`),
  });
}
