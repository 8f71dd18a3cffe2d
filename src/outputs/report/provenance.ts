/** Every input with its provenance, unmeasured ones marked. */
import { formatShortQuantity } from "../numbers/index.ts";
import { isMeasured, isQuantity } from "../summary/index.ts";
import { dotted, type Html, html, NOTHING } from "./html.ts";
import { firmnessMark } from "./marks.ts";
import { dataTable, type Head } from "./tables.ts";
import type { ReportContext } from "./types.ts";

const INPUT_HEADS: readonly Head[] = [
  { text: "Path", width: 33 },
  { text: "As written", width: 22 },
  { text: "SI value", numeric: true, width: 14 },
  { text: "Firmness", width: 23 },
  { text: "Source", width: 8 },
];

/** Sources numbered in the order they are first used; most inputs share a few. */
class Sources {
  readonly names: string[] = [];

  numberOf(source: string | undefined): string {
    if (source === undefined) return "–";
    let index = this.names.indexOf(source);
    if (index < 0) index = this.names.push(source) - 1;
    return `S${index + 1}`;
  }
}

/** Inputs by the first word of their path. */
function byStem(paths: readonly string[]): Map<string, string[]> {
  const stems = new Map<string, string[]>();
  for (const path of paths) {
    const stem = path.split(".")[0]!;
    stems.set(stem, [...(stems.get(stem) ?? []), path]);
  }
  return stems;
}

function fileTable({ document }: ReportContext): Html {
  if (document.files.length === 0) return NOTHING;
  const rows = document.files.map(({ path, sha256 }) => [dotted(path), html`<code>${sha256}</code>`]);
  const heads: readonly Head[] = [
    { text: "File", width: 36 },
    { text: "SHA-256", width: 64 },
  ];
  return dataTable("Files that were read", heads, [{ rows }], "files");
}

/** All inputs with value, firmness and source, then the files. */
export function provenanceSection(context: ReportContext): Html {
  const { document, meta } = context;
  const paths = Object.keys(document.inputs).sort();
  const sources = new Sources();
  const groups = [...byStem(paths)].map(([stem, own]) => ({
    title: stem,
    rows: own.map((path) => {
      const { text, si, unit, maturity, source, file } = document.inputs[path]!;
      const written = file === undefined || text.includes(file) ? text : `${text} (${file})`;
      return [
        dotted(path),
        written,
        si === undefined ? "–" : formatShortQuantity(si, unit ?? "1"),
        isQuantity(document.inputs[path]!) ? firmnessMark(isMeasured(maturity), maturity) : "–",
        sources.numberOf(source),
      ];
    }),
  }));
  const quantities = Object.values(document.inputs).filter(isQuantity);
  const unmeasured = quantities.filter(({ maturity }) => !isMeasured(maturity)).length;
  const table = dataTable("Every input of the selected variant", INPUT_HEADS, groups, "inputs");
  const named = sources.names.map((name, i) => html`<dt>S${i + 1}</dt><dd>${name}</dd>`);
  const list = named.length === 0 ? NOTHING : html`<h3>Sources</h3><dl class="rests">${named}</dl>`;
  return html`<section id="provenance"><h2>Inputs and their provenance</h2>
<p>${unmeasured} of ${quantities.length} numbers and tables were not measured. Input hash <code>${meta.inputHash}</code>.</p>
${table}${list}${fileTable(context)}</section>
`;
}
