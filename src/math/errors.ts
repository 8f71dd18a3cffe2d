/**
 * The only three things that Davit's own code throws.
 *
 * `InputError`: the user can mend it; it carries every problem that was found, not the first.
 * `DomainError`: a numerical routine was called outside what it is valid for.
 * `BugError`: an invariant of ours is broken; never the user's fault.
 * What nature may do (diverged, missed, no trim) is a returned outcome, never one of these.
 */

/** One problem in what the user gave. */
export interface Issue {
  /** Path inside the pair, e.g. `carried.massStates.full.mass`; empty when the file as a whole is meant. */
  readonly path: string;
  /** What is wrong, one sentence without a final full stop. */
  readonly message: string;
  readonly file?: string;
  /** 1-based line and column in `file`. */
  readonly line?: number;
  readonly column?: number;
  /** The value that was found, as the user wrote it. */
  readonly value?: string;
  /** What would be accepted. */
  readonly allowed?: string;
}

/** `file:line:column: path: message (found …; allowed: …)`, leaving out what is not known. */
export function formatIssue(issue: Issue): string {
  const place = [issue.file, issue.line, issue.column].filter((part) => part !== undefined).join(":");
  const head = [place, issue.path].filter((part) => part !== "").join(": ");
  const found = issue.value === undefined ? undefined : `found ${issue.value}`;
  const allowed = issue.allowed === undefined ? undefined : `allowed: ${issue.allowed}`;
  const tail = [found, allowed].filter((part) => part !== undefined).join("; ");
  return `${head === "" ? "" : `${head}: `}${issue.message}${tail === "" ? "" : ` (${tail})`}`;
}

export class InputError extends Error {
  override readonly name = "InputError";
  readonly issues: readonly Issue[];
  constructor(issues: readonly Issue[]) {
    super(issues.map(formatIssue).join("\n"));
    this.issues = issues;
  }
}

export class DomainError extends Error {
  override readonly name = "DomainError";
  readonly quantity: string;
  readonly value: unknown;
  readonly allowed: string;
  constructor(quantity: string, value: unknown, allowed: string) {
    super(`${quantity} is ${String(value)}; allowed: ${allowed}`);
    this.quantity = quantity;
    this.value = value;
    this.allowed = allowed;
  }
}

export class BugError extends Error {
  override readonly name = "BugError";
}
