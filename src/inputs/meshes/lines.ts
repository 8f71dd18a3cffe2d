/** One word of a line with the column where it starts, counting from 1. */
export interface Word {
  readonly text: string;
  readonly column: number;
}

/** Called for every line; the line number counts from 1. Returning false ends the reading. */
export type EachLine = (line: string, number: number) => boolean | undefined;

/**
 * Goes through the lines of a file byte by byte (Latin-1): the words that matter are plain ASCII, and names in other
 * encodings do no harm.
 *
 * @param bytes  of the file; CR, LF or both end a line
 * @param each   gets every line without its end
 */
export function eachLine(bytes: Uint8Array, each: EachLine): void {
  const parts: string[] = [];
  let number = 1;
  let start = 0;
  for (let i = 0; i <= bytes.length; i++) {
    const end = i === bytes.length || bytes[i] === 10 || bytes[i] === 13;
    // long lines are put together piecewise
    if (end || i - start >= 4096) {
      parts.push(String.fromCharCode(...bytes.subarray(start, i)));
      start = i;
    }
    if (!end) continue;
    if (each(parts.join(""), number) === false) return;
    parts.length = 0;
    if (bytes[i] === 13 && bytes[i + 1] === 10) i++;
    start = i + 1;
    number++;
  }
}

/** The words of a line. */
export function wordsOf(line: string): Word[] {
  return [...line.matchAll(/\S+/g)].map((match) => ({ text: match[0], column: match.index + 1 }));
}

const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** A finite number, or NaN for anything else. */
export function finiteNumber(text: string): number {
  const value = DECIMAL.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : Number.NaN;
}

/** True when the first bytes hold nothing that text does not. */
export function looksLikeText(bytes: Uint8Array): boolean {
  const head = bytes.subarray(0, 1024);
  return head.length > 0 && head.every((byte) => byte >= 9 && (byte < 14 || byte >= 32));
}
