import type { Effects } from "../host/index.ts";
import type { ExitCode } from "./exit.ts";

/** What the user asked for, after parsing; keys are the long option names, `task-size` as `taskSize`. */
export interface Request {
  /** Path of the pair file; empty for commands without one. */
  readonly pair: string;
  readonly variant?: string;
  readonly set: readonly string[];
  readonly json?: string;
  readonly out?: string;
  readonly since?: string;
  /** Variants to compare, as named after the pair file. */
  readonly variants?: readonly string[];
  /** Studies to run; absent: all that the pair has. */
  readonly study?: readonly string[];
  /** Parts of a study to run, separated by commas. */
  readonly parts?: string;
  /** Conditions to draw samples in, separated by commas. */
  readonly conditions?: string;
  readonly condition?: string;
  readonly samples?: string;
  readonly sample?: string;
  readonly seed?: string;
  readonly workers?: string;
  readonly queue?: string;
  readonly taskSize?: string;
  readonly untilWidth?: string;
  readonly resume?: boolean;
}

export type Command = (request: Request, effects: Effects) => Promise<ExitCode>;

/** One option of the command line. */
export interface OptionSpec {
  readonly key: Exclude<keyof Request, "pair" | "variants">;
  /** Name of its value in the help, e.g. `NAME`; absent for an option that stands alone. */
  readonly value?: string;
  readonly help: string;
  readonly repeatable?: boolean;
  readonly required?: boolean;
}

/** One command of the command line; help, reference page and parsing all come from it. */
export interface CommandSpec {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** What it does and what it writes, in plain words. */
  readonly details: string;
  readonly takesPair: boolean;
  /** What stands in the place of the pair file, where it may be something else too. */
  readonly place?: { readonly name: string; readonly help: string };
  /** Names of variants follow the pair file. */
  readonly takesVariants?: boolean;
  readonly options: readonly OptionSpec[];
  readonly examples: readonly { readonly line: string; readonly says: string }[];
  /** What exit codes 0 and 1 mean here, where it differs from the common table. */
  readonly exits?: Readonly<Partial<Record<ExitCode, string>>>;
  /** Long work runs in a thread so that the terminal stays responsive and Ctrl-C stops it at once. */
  readonly inThread: boolean;
  /** What an interruption is answered with by a command that then ends itself in order; absent: it is ended at once. */
  readonly whenInterrupted?: string;
  /** Loads the code when the command is called and not before. */
  readonly load: () => Promise<{ readonly run: Command }>;
}
