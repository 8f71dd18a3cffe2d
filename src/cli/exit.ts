import { CannotRead, CannotRun, CannotWrite } from "../host/index.ts";
import { DomainError, formatIssue, InputError } from "../math/errors.ts";

/** Every exit code of every command. */
export const EXIT = {
  met: 0,
  notMet: 1,
  inputWrong: 2,
  stopped: 3,
  bug: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

export const EXIT_MEANING: Readonly<Record<ExitCode, string>> = {
  0: "done, and every criterion is met",
  1: "done, and some criterion is not met",
  2: "the input is wrong; every problem is listed on the error stream",
  3: "interrupted, or it could not run (for example, the result cannot be written)",
  70: "a bug in Davit",
};

export interface Failure {
  readonly code: ExitCode;
  /** For the error stream, with its final newline. */
  readonly text: string;
}

/** Turns whatever a command threw into an exit code and words; the stack only when `debug`. */
export function failureOf(error: unknown, version: string, debug: boolean): Failure {
  const trace = debug && error instanceof Error && error.stack !== undefined ? `${error.stack}\n` : "";
  if (error instanceof InputError) {
    const lines = error.issues.map((issue) => `${formatIssue(issue)}\n`);
    const count = error.issues.length === 1 ? "1 problem" : `${error.issues.length} problems`;
    return { code: EXIT.inputWrong, text: `${lines.join("")}${count}\n${trace}` };
  }
  if (error instanceof CannotRead)
    return { code: EXIT.inputWrong, text: `${error.path}: ${error.message}\n1 problem\n${trace}` };
  if (error instanceof CannotWrite)
    return { code: EXIT.stopped, text: `${error.path}: cannot be written: ${error.message}\n${trace}` };
  if (error instanceof CannotRun) return { code: EXIT.stopped, text: `davit cannot go on: ${error.message}\n${trace}` };
  if (error instanceof DomainError) {
    return {
      code: EXIT.stopped,
      text: `davit could not compute: ${error.message}\nA value of the pair leads outside what the method is valid for.\n${trace}`,
    };
  }
  return { code: EXIT.bug, text: bugText(error, version, trace) };
}

function bugText(error: unknown, version: string, trace: string): string {
  const message = error instanceof Error ? error.message : String(error);
  const more = trace === "" ? "Run it again with DAVIT_DEBUG=1 to see where it happened, and " : "";
  return (
    `This is a bug in Davit ${version}: ${message}\n` +
    `${trace}${more}${more === "" ? "Please" : "please"} report the command, the pair file and these lines to the people who maintain your copy.\n`
  );
}
