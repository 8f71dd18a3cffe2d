/** Plain-text layout: wrapping and tables within a fixed width. */

/** Printed width: one column for each code point. */
export function printedWidth(text: string): number {
  return [...text].length;
}

/** Text for one line: control and direction characters and runs of space become one space. */
export function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters must never reach a terminal
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\s]+/g, " ").trim();
}

/** Cuts a word that is longer than a line, at its dots and slashes where it has some. */
function cutWord(word: string, width: number): string[] {
  const parts: string[] = [];
  let rest = [...word];
  while (rest.length > width) {
    const head = rest.slice(0, width);
    const dot = Math.max(head.lastIndexOf("."), head.lastIndexOf("/"));
    const cut = dot > width / 3 ? dot + 1 : width;
    parts.push(rest.slice(0, cut).join(""));
    rest = rest.slice(cut);
  }
  return [...parts, rest.join("")];
}

/**
 * Breaks text into lines of at most `width` columns at its spaces; line breaks and control characters count as spaces.
 *
 * @param width columns, at least 8
 */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of printable(text)
    .split(" ")
    .flatMap((one) => cutWord(one, width))) {
    if (line !== "" && printedWidth(line) + 1 + printedWidth(word) > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** Wrapped text with a first and a following indent. */
export function paragraph(text: string, width: number, first = "", next = first): string[] {
  const room = width - Math.max(printedWidth(first), printedWidth(next));
  return wrap(text, room).map((line, i) => (i === 0 ? first : next) + line);
}

export interface Column {
  readonly heading: string;
  readonly width: number;
  readonly align?: "left" | "right";
  /** Colours a finished cell; must not change its printed width. */
  readonly paint?: (padded: string, cell: string) => string;
}

function pad(text: string, column: Column): string {
  const fill = " ".repeat(Math.max(0, column.width - printedWidth(text)));
  return column.align === "right" ? fill + text : text + fill;
}

/** Narrowest that a column of words becomes to make room for numbers. */
const NARROWEST = 10;

/** Widens right-aligned columns, which hold numbers, to their longest cell; the widest column of words gives the room. */
function withRoom(columns: readonly Column[], rows: readonly (readonly string[])[]): readonly Column[] {
  let missing = 0;
  const wide = columns.map((column, i) => {
    if (column.align !== "right") return column;
    const width = Math.max(column.width, ...rows.map((row) => printedWidth(printable(row[i] ?? ""))));
    missing += width - column.width;
    return { ...column, width };
  });
  while (missing > 0) {
    const words = wide.filter((column) => column.align !== "right");
    const most = Math.max(NARROWEST, ...words.map((column) => column.width));
    const giver = wide.findIndex((column) => column.align !== "right" && column.width === most && most > NARROWEST);
    if (giver < 0) break;
    wide[giver] = { ...wide[giver]!, width: most - 1 };
    missing -= 1;
  }
  return wide;
}

/** A table with wrapped cells, two spaces between columns, a rule under the heading; a number is never wrapped. */
export function table(asked: readonly Column[], rows: readonly (readonly string[])[], indent = ""): string[] {
  const columns = withRoom(asked, rows);
  const layOut = (cells: readonly string[], paint: boolean): string[] => {
    const wrapped = columns.map((column, i) => wrap(cells[i] ?? "", column.width));
    const height = Math.max(...wrapped.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) => {
      const parts = columns.map((column, i) => {
        const padded = pad(wrapped[i]![line] ?? "", column);
        return paint && column.paint !== undefined ? column.paint(padded, cells[i] ?? "") : padded;
      });
      return (indent + parts.join("  ")).trimEnd();
    });
  };
  const rule = indent + columns.map((column) => "─".repeat(column.width)).join("  ");
  const heading = layOut(
    columns.map((column) => column.heading),
    false,
  );
  return [...heading, rule, ...rows.flatMap((row) => layOut(row, true))];
}
