import type { ErrorCode, YAMLError } from "yaml";

/** What is wrong with the writing of a YAML file, in our words, and what would be right. */
const WORDS: Readonly<Partial<Record<ErrorCode, readonly [string, string]>>> = {
  ALIAS_PROPS: ["an alias carries a tag or an anchor", "an alias alone"],
  BAD_ALIAS: ["an alias cannot be read", "* and the name of an anchor further up"],
  BAD_DIRECTIVE: ["a directive stands in the file", "a file without % lines"],
  BAD_DQ_ESCAPE: ["a backslash in double quotes starts nothing known", "single quotes, or \\\\ for a backslash"],
  BAD_INDENT: ["the indentation does not fit, or a bracket does not close", "two blanks per level"],
  BAD_PROP_ORDER: ["an anchor or tag stands in the wrong place", "the anchor directly before its value"],
  BAD_SCALAR_START: ["a value starts with a character that needs quotes", "the value in quotes"],
  BLOCK_AS_IMPLICIT_KEY: ["a second key starts in the same line, or the indentation does not fit", "one key per line"],
  BLOCK_IN_FLOW: ["an indented block stands inside brackets", "values separated by commas inside { } or [ ]"],
  KEY_OVER_1024_CHARS: ["a key is longer than 1024 characters", "a short key"],
  MISSING_CHAR: ["a quotation mark, bracket, comma or colon is missing", "closed quotes and brackets, key: value"],
  MULTILINE_IMPLICIT_KEY: ["a key runs over several lines", "a key and its colon in one line"],
  MULTIPLE_ANCHORS: ["a value carries several anchors", "one anchor"],
  MULTIPLE_DOCS: ["the file holds several documents", "one document without --- between"],
  MULTIPLE_TAGS: ["a value carries several tags", "no tags"],
  TAB_AS_INDENT: ["a tab is used for indentation", "blanks"],
  TAG_RESOLVE_FAILED: ["tags are not understood", "the value without its tag"],
  BAD_COLLECTION_TYPE: ["tags are not understood", "the value without its tag"],
  UNEXPECTED_TOKEN: ["something does not belong here", "key: value lines"],
};

/** Faults of structure: after the first, the rest of the file is misread and more of them follow. */
const STRUCTURE: readonly ErrorCode[] = [
  "BAD_INDENT",
  "BLOCK_AS_IMPLICIT_KEY",
  "BLOCK_IN_FLOW",
  "MISSING_CHAR",
  "MULTILINE_IMPLICIT_KEY",
  "TAB_AS_INDENT",
  "UNEXPECTED_TOKEN",
];

/** True for a fault of structure. */
export function isStructural(error: YAMLError): boolean {
  return STRUCTURE.includes(error.code);
}

/** Message and what is allowed for an error of the YAML reader. */
export function syntaxWords(error: YAMLError): readonly [string, string] {
  return WORDS[error.code] ?? ["the file is not well-formed YAML", "key: value lines"];
}
