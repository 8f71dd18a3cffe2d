/** Tables with caption, column heads and optional row groups. */
import { type Html, html, NOTHING } from "./html.ts";

export interface Head {
  readonly text: string;
  readonly numeric?: boolean;
  /** Share of the table's width in percent; the rest is shared out. */
  readonly width?: number;
}

export interface RowGroup {
  /** Spans the table above its rows. */
  readonly title?: string | Html;
  readonly rows: readonly (readonly (string | Html)[])[];
}

/** A table whose first column heads its rows. */
export function dataTable(caption: string, heads: readonly Head[], groups: readonly RowGroup[], kind = ""): Html {
  const widths = heads.map((head) =>
    head.width === undefined ? html`<col>` : html`<col style="width:${head.width}%">`,
  );
  const columns = heads.map(
    (head) => html`<th scope="col"${head.numeric === true ? html` class="num"` : NOTHING}>${head.text}</th>`,
  );
  const bodies = groups.map((group) => {
    const title =
      group.title === undefined
        ? NOTHING
        : html`<tr class="group"><th colspan="${heads.length}" scope="rowgroup">${group.title}</th></tr>`;
    const rows = group.rows.map((row) => {
      const cells = row.map((cell, i) => {
        if (i === 0 && row.length === 1) return html`<th scope="row" colspan="${heads.length}">${cell}</th>`;
        if (i === 0) return html`<th scope="row">${cell}</th>`;
        return heads[i]?.numeric === true ? html`<td class="num">${cell}</td>` : html`<td>${cell}</td>`;
      });
      return html`<tr>${cells}</tr>`;
    });
    return html`<tbody>${title}${rows}</tbody>
`;
  });
  return html`<div class="scroll" role="region" aria-label="${caption}" tabindex="0"><table class="${kind}"><caption>${caption}</caption><colgroup>${widths}</colgroup><thead><tr>${columns}</tr></thead>
${bodies}</table></div>
`;
}

export function list(items: readonly string[]): Html {
  return items.length === 0 ? html`<p>None stated.</p>` : html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`;
}
