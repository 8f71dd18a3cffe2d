/** Terminal text of variants beside each other. */
import { CAUTION_LINE } from "../cautions/index.ts";
import { type ComparisonRow, comparisonRows, type VariantComparison } from "../comparison/index.ts";
import { paragraph, table } from "./columns.ts";
import { type TextOptions, widthOf } from "./words.ts";

const LABEL = 27;
const NARROWEST = 15;

/** The table of a comparison; variants that do not fit beside each other stand in further tables below. */
export function compareText(
  comparison: VariantComparison,
  notice: string | undefined,
  options: TextOptions = {},
): string {
  const width = widthOf(options);
  const { pair, davit, variants, dampingCriterion_1: criterion, overrides } = comparison;
  const rows = comparisonRows(comparison, "-");
  const room = Math.floor((width - LABEL) / (NARROWEST + 2));
  const blocks = Math.ceil(variants.length / room);
  const each = Math.ceil(variants.length / blocks);
  const lines = [
    ...paragraph(`Variants of ${pair} beside each other (davit ${davit})`, width),
    ...(notice === undefined ? [] : paragraph(notice, width)),
    ...(overrides.length === 0 ? [] : paragraph(`set: ${overrides.join("; ")}`, width)),
    ...(criterion === null
      ? []
      : paragraph(`Criterion of the damping ratio of rigid-body-type oscillations: ${criterion}`, width)),
    "",
  ];
  for (let first = 0; first < variants.length; first += each) {
    const shown = variants.slice(first, first + each);
    const column = Math.floor((width - LABEL) / shown.length) - 2;
    const columns = [
      { heading: "", width: LABEL },
      ...shown.map(({ variant }) => ({ heading: variant, width: column })),
    ];
    lines.push(...table(columns, grouped(rows, first, first + each)), "");
  }
  return `${[...lines, ...paragraph(CAUTION_LINE, width)].join("\n")}\n`;
}

/** Rows with the name of each group before its first. */
function grouped(rows: readonly ComparisonRow[], from: number, to: number): string[][] {
  return rows.flatMap(({ group, label, cells }, i) => {
    const own = [`  ${label}`, ...cells.slice(from, to)];
    return rows[i - 1]?.group === group ? [own] : [[group.toUpperCase()], own];
  });
}
