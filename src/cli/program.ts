import { Command, CommanderError, InvalidArgumentError } from "commander";
import { EXIT, EXIT_MEANING, type ExitCode } from "./exit.ts";
import type { CommandSpec, OptionSpec, Request } from "./types.ts";

export type Parsed =
  | { readonly kind: "run"; readonly spec: CommandSpec; readonly request: Request }
  /** Help, version or a usage error was printed; nothing is left to do. */
  | { readonly kind: "done"; readonly code: ExitCode };

export interface ProgramText {
  readonly version: string;
  readonly writeOut: (text: string) => void;
  readonly writeError: (text: string) => void;
}

/** Parses the arguments after the program's name by the command table. */
export function parseArguments(table: readonly CommandSpec[], argv: readonly string[], text: ProgramText): Parsed {
  let chosen: Parsed | undefined;
  const program = buildProgram(table, text, (spec, request) => {
    chosen = { kind: "run", spec, request };
  });
  if (argv.length === 0) {
    text.writeError(program.helpInformation());
    return { kind: "done", code: EXIT.inputWrong };
  }
  try {
    program.parse([...argv], { from: "user" });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return { kind: "done", code: error.exitCode === 0 ? EXIT.met : EXIT.inputWrong };
  }
  return chosen ?? { kind: "done", code: EXIT.met };
}

/** The words that follow each command's options in its help. */
export function helpTail(spec: CommandSpec): string {
  const examples = spec.examples.map((example) => `  ${example.line}\n      ${example.says}`);
  const codes = Object.entries({ ...EXIT_MEANING, ...spec.exits }).map(
    ([code, meaning]) => `  ${code.padStart(2)}  ${meaning}`,
  );
  return `\nExample${examples.length > 1 ? "s" : ""}:\n${examples.join("\n")}\n\nExit codes:\n${codes.join("\n")}`;
}

/** `--set <PATH=VALUE>`, `--task-size <N>`, `--resume`. */
export function optionFlags(option: OptionSpec): string {
  const name = option.key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return option.value === undefined ? `--${name}` : `--${name} <${option.value}>`;
}

/** What the first argument of a command that takes one is called. */
export const placeName = (spec: CommandSpec): string => spec.place?.name ?? "PAIR";

function buildProgram(
  table: readonly CommandSpec[],
  text: ProgramText,
  choose: (spec: CommandSpec, request: Request) => void,
): Command {
  const program = new Command("davit")
    .description(
      "Integration and flight test of a carried aircraft: from one pair file to verdicts, limits and a report.\n" +
        "An aid to judgement, not an approval: the accountable engineer and the authority decide.",
    )
    .version(text.version, "--version", "print the version")
    .helpOption("-h, --help", "show this help")
    .helpCommand("help [command]", "show the help of a command")
    .showHelpAfterError("Run `davit --help` to see what there is.")
    .exitOverride()
    .configureOutput({ writeOut: text.writeOut, writeErr: text.writeError });
  for (const spec of table) addCommand(program, spec, choose);
  return program;
}

function addCommand(program: Command, spec: CommandSpec, choose: (spec: CommandSpec, request: Request) => void): void {
  const command = program
    .command(spec.name)
    .summary(spec.summary)
    .description(spec.details)
    .helpOption("-h, --help", "show this help")
    .showHelpAfterError(`Run \`davit ${spec.name} --help\` to see its options.`)
    .addHelpText("after", helpTail(spec));
  if (spec.takesPair) command.argument(`<${placeName(spec)}>`, spec.place?.help ?? "the pair file (*.pair.yaml)");
  if (spec.takesVariants === true) command.argument("<VARIANT...>", "names of the base or of variants, two or more");
  for (const option of spec.options) addOption(command, option);
  command.action((...given: unknown[]) => {
    const pair = spec.takesPair ? String(given[0]) : "";
    const options = command.opts<Omit<Request, "pair" | "variants">>();
    const variants = spec.takesVariants === true ? { variants: (given[1] as string[]).map(String) } : {};
    choose(spec, { ...options, set: options.set ?? [], pair, ...variants });
  });
}

function addOption(command: Command, option: OptionSpec): void {
  const flags = optionFlags(option);
  if (option.value === undefined) {
    command.option(flags, option.help);
    return;
  }
  if (option.repeatable === true) {
    command.option(flags, option.help, (value: string, earlier: readonly string[] | undefined) => [
      ...(earlier ?? []),
      value,
    ]);
    return;
  }
  const once = (value: string, earlier: string | undefined): string => {
    if (earlier !== undefined) throw new InvalidArgumentError("It is given twice.");
    if (value === "") throw new InvalidArgumentError("It is empty.");
    return value;
  };
  if (option.required === true) command.requiredOption(flags, option.help, once);
  else command.option(flags, option.help, once);
}
