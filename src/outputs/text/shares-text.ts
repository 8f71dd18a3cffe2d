/** Terminal text of success shares by condition. */
import { clopperPearson, type ShareInterval, wilson } from "../../math/distributions/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { paragraph, table } from "./columns.ts";
import { type TextOptions, widthOf } from "./words.ts";

/** Rows and successes of one condition. */
export interface ShareCount {
  readonly title: string;
  readonly rows: number;
  readonly hits: number;
  /** Ended before its planned rows because the interval was narrow enough. */
  readonly early: boolean;
}

export interface ShareText {
  /** What the 0/1 column says, for the heading. */
  readonly success: string;
  /** Of both intervals, e.g. 0.95. */
  readonly confidence: number;
  readonly counts: readonly ShareCount[];
}

/** A share as percent with one decimal; more where a tenth of a percent hides whether it is 0 or 100. */
export function percent(share: number): string {
  const value = 100 * share;
  const tenth = formatFixed(value, 1);
  const hidden = (tenth === "0.0" && value > 0) || (tenth === "100.0" && value < 100);
  return `${hidden ? formatFixed(value, 4) : tenth} %`;
}

const range = ({ lower, upper }: ShareInterval): string => `${percent(lower)} to ${percent(upper)}`;

/** Shares by condition with the exact interval (Clopper–Pearson) and Wilson's. */
export function sharesText({ success, confidence, counts }: ShareText, options: TextOptions = {}): string {
  const width = widthOf(options);
  const level = `${formatFixed(100 * confidence, 0)} %`;
  const columns = [
    { heading: "condition", width: 22 },
    { heading: "rows", width: 8, align: "right" as const },
    { heading: success, width: 10, align: "right" as const },
    { heading: "share", width: 7, align: "right" as const },
    { heading: `${level} Clopper–Pearson`, width: 18, align: "right" as const },
    { heading: `${level} Wilson`, width: 18, align: "right" as const },
  ];
  const rows = counts.map(({ title, rows: of, hits, early }) => {
    const head = [`${title}${early ? " *" : ""}`, String(of), String(hits)];
    if (of === 0) return [...head, "–", "–", "–"];
    return [
      ...head,
      percent(hits / of),
      range(clopperPearson(hits, of, confidence)),
      range(wilson(hits, of, confidence)),
    ];
  });
  const early = counts.some((count) => count.early)
    ? paragraph(
        "* ended early, when its Clopper–Pearson interval was narrow enough. Looking after every task and stopping at the first narrow " +
          `interval costs a little of the stated ${level}: such an interval is nearly, not exactly, on the safe side.`,
        width,
      )
    : [];
  return `${[...table(columns, rows), ...early].join("\n")}\n`;
}
