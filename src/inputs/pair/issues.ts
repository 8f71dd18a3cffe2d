import type { Issue } from "../../math/errors.ts";
import { SET_FILE } from "../variants/index.ts";
import { LIMITS } from "../yaml/index.ts";

const at = (issue: Issue) => JSON.stringify([issue.file, issue.line, issue.column]);

/**
 * Adds the issues that are not known yet.
 *
 * An issue at a place where the file itself is at fault (a broken alias, say) is only a consequence and is left out.
 *
 * @param known   grows
 * @param found   issues of one set of values
 * @param where   put before the message of a new issue, unless it was set on the command line
 */
export function collectIssues(known: Issue[], found: readonly Issue[], where = ""): void {
  const faults = new Set(known.filter((issue) => issue.path === "" && issue.line !== undefined).map(at));
  const messages = new Map<string, string[]>();
  const key = (issue: Issue) => `${at(issue)} ${issue.path} ${issue.value}`;
  for (const issue of known) messages.set(key(issue), [...(messages.get(key(issue)) ?? []), issue.message]);
  for (const issue of found) {
    const repeated = messages.get(key(issue))?.some((message) => message.endsWith(issue.message));
    if (repeated || faults.has(at(issue))) continue;
    const message = issue.file === SET_FILE ? issue.message : `${where}${issue.message}`;
    known.push({ ...issue, message });
  }
}

/** Issues in the order of their files, then lines and columns; past a limit only their number is told. */
export function sortIssues(issues: readonly Issue[], order: readonly string[]): Issue[] {
  const rank = (issue: Issue) => {
    const at = issue.file === undefined ? -1 : order.indexOf(issue.file);
    return at < 0 ? order.length : at;
  };
  const sorted = issues
    .map((issue, i) => ({ issue, i }))
    .sort(
      (a, b) =>
        rank(a.issue) - rank(b.issue) ||
        (a.issue.line ?? 0) - (b.issue.line ?? 0) ||
        (a.issue.column ?? 0) - (b.issue.column ?? 0) ||
        a.i - b.i,
    )
    .map(({ issue }) => issue);
  const more = sorted.length - LIMITS.issues;
  if (more <= 0) return sorted;
  return [...sorted.slice(0, LIMITS.issues), { path: "", message: `${more} more problems are not listed` }];
}
