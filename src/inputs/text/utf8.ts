/** Decoded text, or the byte offset and the reason why it is not text. */
export type Decoded = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly reason: string };

const CHUNK = 8192;

/**
 * Text of a UTF-8 file; a leading byte order mark is dropped.
 *
 * Overlong forms, surrogates and code points above U+10FFFF are refused, as is a NUL byte or a UTF-16 mark.
 *
 * @param bytes  content of the file
 * @source       own derivation, README of `inputs`, "text"
 * @cost         O(n)
 */
export function decodeUtf8(bytes: Uint8Array): Decoded {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return { ok: false, reason: "is UTF-16 text" };
  }
  const start = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const parts: string[] = [];
  let units: number[] = [];
  let line = 1;
  for (let i = start; i < bytes.length; ) {
    const first = bytes[i]!;
    const length = sequenceLength(first);
    const code = length === 0 ? -1 : codePoint(bytes, i, length);
    if (code < 0) return { ok: false, reason: `is not UTF-8 text (line ${line})` };
    if (code === 0) return { ok: false, reason: `holds a NUL character (line ${line}), so it is not text` };
    if (code === 10) line++;
    if (code < 0x10000) units.push(code);
    else units.push(0xd800 + ((code - 0x10000) >> 10), 0xdc00 + ((code - 0x10000) & 0x3ff));
    if (units.length >= CHUNK) {
      parts.push(String.fromCharCode(...units));
      units = [];
    }
    i += length;
  }
  parts.push(String.fromCharCode(...units));
  return { ok: true, text: parts.join("") };
}

function sequenceLength(first: number): number {
  if (first < 0x80) return 1;
  if (first >= 0xc2 && first < 0xe0) return 2;
  if (first >= 0xe0 && first < 0xf0) return 3;
  if (first >= 0xf0 && first < 0xf5) return 4;
  return 0;
}

function codePoint(bytes: Uint8Array, at: number, length: number): number {
  if (length === 1) return bytes[at]!;
  let code = bytes[at]! & (0xff >> (length + 1));
  for (let k = 1; k < length; k++) {
    const next = bytes[at + k];
    if (next === undefined || (next & 0xc0) !== 0x80) return -1;
    code = (code << 6) | (next & 0x3f);
  }
  if (length === 3 && (code < 0x800 || (code >= 0xd800 && code < 0xe000))) return -1;
  if (length === 4 && (code < 0x10000 || code > 0x10ffff)) return -1;
  return code;
}
