/** Text inside drawings: escaping, shortening, an estimate of its width. */

/** Escapes text for XML and HTML content and attribute values. */
export function escapeXml(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}

const NARROW = new Set([..."fijlrtI.,:;'|()[]{}/ -!°"]);
const WIDE = new Set([..."mwMWGOQ@%ζ—"]);

/** Estimated width [px] of a line of the figures' sans font; errs on the wide side. */
export function textWidth(text: string, size = 12): number {
  let em = 0;
  for (const letter of text) em += NARROW.has(letter) ? 0.34 : WIDE.has(letter) ? 0.86 : 0.585;
  return em * size;
}

/** Shortens a label with an ellipsis so that it is at most `width` pixels wide. */
export function fitText(text: string, width: number, size = 12): string {
  if (textWidth(text, size) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && textWidth(`${letters.join("")}…`, size) > width) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** Lower-case letters, digits and hyphens; for ids. */
export function slug(text: string): string {
  const plain = text
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  return plain === "" ? "x" : plain.slice(0, 60);
}

export function capitalise(text: string): string {
  return text === "" ? text : text[0]!.toUpperCase() + text.slice(1);
}
