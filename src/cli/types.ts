import type { Effects } from "../host/index.ts";
import type { ExitCode } from "./exit.ts";

/** What the user asked for, after parsing; keys are the long option names. */
export interface Request {
  /** Path of the pair file; empty for commands without one. */
  readonly pair: string;
  readonly variant?: string;
  readonly set: readonly string[];
  readonly json?: string;
  readonly out?: string;
  readonly since?: string;
  /** Parts of a study to run, separated by commas. */
  readonly parts?: string;
}

export type Command = (request: Request, effects: Effects) => Promise<ExitCode>;

/** One option of the command line. */
export interface OptionSpec {
  readonly key: Exclude<keyof Request, "pair">;
  /** Name of its value in the help, e.g. `NAME`. */
  readonly value: string;
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
  readonly options: readonly OptionSpec[];
  readonly examples: readonly { readonly line: string; readonly says: string }[];
  /** What exit codes 0 and 1 mean here, where it differs from the common table. */
  readonly exits?: Readonly<Partial<Record<ExitCode, string>>>;
  /** Long work runs in a thread so that the terminal stays responsive and Ctrl-C stops it at once. */
  readonly inThread: boolean;
  /** Loads the code when the command is called and not before. */
  readonly load: () => Promise<{ readonly run: Command }>;
}
