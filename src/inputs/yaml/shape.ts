import type { CST } from "yaml";

/** What a look over the tokens finds before any value is built. */
export interface Shape {
  readonly depth: number;
  /** Offset of the first part that lies too deep. */
  readonly deepAt: number | undefined;
  /** Tags and directives, which are refused. */
  readonly refused: readonly { readonly offset: number; readonly what: "tag" | "directive" }[];
  /** The first quotation mark or bracket that does not close. */
  readonly unclosed: { readonly offset: number; readonly what: "quotation mark" | "bracket" } | undefined;
}

/**
 * Depth of the tokens of one file, and its tags and directives.
 *
 * Runs without recursion, because building the values of a file that is nested some thousand levels deep
 * can end the process.
 */
export function lookOver(tokens: readonly CST.Token[], limit: number): Shape {
  const refused: { offset: number; what: "tag" | "directive" }[] = [];
  const open: { token: CST.Token; depth: number }[] = [];
  for (const token of tokens) open.push({ token, depth: 0 });
  let depth = 0;
  let deepAt: number | undefined;
  let unclosed: Shape["unclosed"];
  const marks = (list: readonly CST.SourceToken[] | undefined) => {
    for (const mark of list ?? []) if (mark.type === "tag") refused.push({ offset: mark.offset, what: "tag" });
  };
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { token } = next;
    if (token.type === "directive") refused.push({ offset: token.offset, what: "directive" });
    if (next.depth > depth) depth = next.depth;
    if (next.depth > limit) {
      deepAt = Math.min(deepAt ?? Number.POSITIVE_INFINITY, token.offset);
      continue;
    }
    const what = openEnd(token);
    if (what !== undefined && token.offset < (unclosed?.offset ?? Number.POSITIVE_INFINITY)) {
      unclosed = { offset: token.offset, what };
    }
    if (token.type === "document") {
      marks(token.start);
      if (token.value !== undefined) open.push({ token: token.value, depth: next.depth });
    }
    if (!("items" in token)) continue;
    for (const item of token.items) {
      marks(item.start);
      marks(item.sep);
      if (item.key) open.push({ token: item.key, depth: next.depth + 1 });
      if (item.value) open.push({ token: item.value, depth: next.depth + 1 });
    }
  }
  return { depth, deepAt, refused, unclosed };
}

/** What does not close at a token, if anything. */
function openEnd(token: CST.Token): "quotation mark" | "bracket" | undefined {
  if (token.type === "double-quoted-scalar" || token.type === "single-quoted-scalar") {
    const { source } = token;
    return source.length < 2 || source.at(-1) !== source[0] ? "quotation mark" : undefined;
  }
  if (token.type !== "flow-collection") return undefined;
  const end = token.start.type === "flow-map-start" ? "flow-map-end" : "flow-seq-end";
  return token.end.some(({ type }) => type === end) ? undefined : "bracket";
}
