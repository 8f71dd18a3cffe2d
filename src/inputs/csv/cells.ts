/** Index of the first character of a cell in a CSV line, counting cells from 0; commas inside quotes do not count. */
export function cellStart(line: string, cell: number): number {
  let quoted = false;
  let index = 0;
  let seen = 0;
  for (; index < line.length && seen < cell; index++) {
    const character = line[index];
    if (character === '"') quoted = !quoted;
    else if (character === "," && !quoted) seen++;
  }
  while (line[index] === " ") index++;
  return index;
}

/** Text of a line, counting from 1, without its line end. */
export function lineOf(text: string, line: number): string {
  let start = 0;
  for (let at = 1; at < line; at++) {
    const next = text.indexOf("\n", start);
    if (next < 0) return "";
    start = next + 1;
  }
  const end = text.indexOf("\n", start);
  return text.slice(start, end < 0 ? undefined : end).replace(/\r$/, "");
}

const DECIMAL = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/;

/** Number in a cell; NaN when it holds anything else. */
export function cellNumber(cell: string): number {
  return DECIMAL.test(cell) ? Number(cell) : Number.NaN;
}
