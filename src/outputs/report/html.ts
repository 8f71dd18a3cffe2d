/** HTML by template: everything put in is escaped unless it is already `Html`. */

/** Markup that is safe to print as it is; only this module makes it from text. */
export class Html {
  readonly markup: string;
  constructor(markup: string) {
    this.markup = markup;
  }
}

type Piece = string | number | Html | readonly (string | number | Html)[];

/** Escapes text for content and for attribute values in double quotes. */
export function escapeHtml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are not allowed in a page
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g, "\ufffd")
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
      .replaceAll("'", "&#39;")
  );
}

function markupOf(piece: Piece): string {
  if (piece instanceof Html) return piece.markup;
  if (typeof piece === "string" || typeof piece === "number") return escapeHtml(String(piece));
  return piece.map(markupOf).join("");
}

/** Template tag: the literal parts are markup, the inserted parts are escaped, lists are joined. */
export function html(parts: TemplateStringsArray, ...pieces: readonly Piece[]): Html {
  let markup = parts[0]!;
  for (let i = 0; i < pieces.length; i++) markup += markupOf(pieces[i]!) + parts[i + 1]!;
  return new Html(markup);
}

/** Markup of our own making, such as a finished drawing; never text of the user. */
export function trusted(markup: string): Html {
  return new Html(markup);
}

/** A dotted id or path in code type that may break after its dots and hyphens. */
export function dotted(path: string): Html {
  const parts = path.split(/(?<=[.\-/])/).map(escapeHtml);
  return new Html(`<code>${parts.join("<wbr>")}</code>`);
}

export const NOTHING = new Html("");

/** Text as a CSS string, with everything but plain letters, digits and spaces escaped by code point. */
export function cssString(text: string): string {
  const body = [...text].map((letter) =>
    /[A-Za-z0-9 ,.:]/.test(letter) ? letter : `\\${letter.codePointAt(0)!.toString(16)} `,
  );
  return `"${body.join("")}"`;
}
