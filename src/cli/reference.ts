import { EXIT_MEANING } from "./exit.ts";
import { optionFlags, placeName } from "./program.ts";
import { COMMANDS } from "./table.ts";
import type { CommandSpec } from "./types.ts";

/** The reference page of the command line (Markdown), made from the command table. */
export function commandReference(): string {
  const codes = Object.entries(EXIT_MEANING).map(([code, meaning]) => `| ${code} | ${meaning} |`);
  return [
    "<!-- Made from src/cli/table.ts by `npm run docs`; edit that, not this. -->",
    "",
    "# Commands",
    "",
    "`davit <command> [PAIR] [options]`. `davit help <command>` prints the same in the terminal.",
    "",
    ...COMMANDS.map((spec) => `- [${spec.name}](#${spec.name}): ${spec.summary}`),
    "",
    "## Exit codes",
    "",
    "| code | meaning |",
    "| --- | --- |",
    ...codes,
    "",
    ...COMMANDS.flatMap(section),
  ].join("\n");
}

function section(spec: CommandSpec): string[] {
  const options = spec.options.map((option) => {
    const marks = [option.required === true ? "required" : "", option.repeatable === true ? "repeatable" : ""];
    const tail = marks.filter((mark) => mark !== "").join(", ");
    return `| \`${optionFlags(option)}\` | ${option.help}${tail === "" ? "" : ` (${tail})`} |`;
  });
  const exits = Object.entries(spec.exits ?? {}).map(([code, meaning]) => `- exit ${code}: ${meaning}`);
  return [
    `## ${spec.name}`,
    "",
    `\`davit ${spec.name}${spec.takesPair ? ` ${placeName(spec)}` : ""}${spec.takesVariants === true ? " VARIANT..." : ""} [options]\``,
    "",
    spec.details,
    "",
    "| option | meaning |",
    "| --- | --- |",
    ...options,
    "",
    ...(exits.length > 0 ? [...exits, ""] : []),
    "```sh",
    ...spec.examples.flatMap((example) => [`# ${example.says}`, example.line]),
    "```",
    "",
  ];
}
