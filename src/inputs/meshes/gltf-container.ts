import { InputError } from "../../math/errors.ts";
import { decodeUtf8 } from "../text/index.ts";
import type { ReadSibling } from "./types.ts";

/** A reader's way out: caught where the reading of the file began, never beyond. */
export function unreadable(message: string): InputError {
  return new InputError([{ path: "", message }]);
}

const GLB_MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;

/** The JSON text of a glTF file and, out of the binary form, the first buffer. */
export interface Container {
  readonly json: unknown;
  readonly binary: Uint8Array | undefined;
}

/** Opens the text form or the binary form (GLB) of a glTF file. */
export function openContainer(bytes: Uint8Array): Container {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 4 || view.getUint32(0, true) !== GLB_MAGIC) return { json: parseJson(bytes), binary: undefined };
  if (bytes.length < 20) throw unreadable("the file is truncated: it ends in its header");
  const version = view.getUint32(4, true);
  if (version !== 2) throw unreadable(`the file is glTF ${version}; glTF 2 can be read`);
  const stated = view.getUint32(8, true);
  if (stated > bytes.length) {
    throw unreadable(`the file is truncated: it says ${stated} bytes, but has ${bytes.length}`);
  }
  let json: Uint8Array | undefined;
  let binary: Uint8Array | undefined;
  for (let at = 12; at + 8 <= stated; ) {
    const length = view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    const end = at + 8 + length;
    if (end > stated) throw unreadable("the file is truncated: a chunk reaches beyond its end");
    if (kind === JSON_CHUNK) json ??= bytes.subarray(at + 8, end);
    else if (kind === BINARY_CHUNK) binary ??= bytes.subarray(at + 8, end);
    at = end;
  }
  if (json === undefined) throw unreadable("the file is not a glTF file: it has no JSON chunk");
  return { json: parseJson(json), binary };
}

function parseJson(bytes: Uint8Array): unknown {
  const decoded = decodeUtf8(bytes);
  if (!decoded.ok) throw unreadable(`the file is not a glTF file: it ${decoded.reason}`);
  try {
    return JSON.parse(decoded.text);
  } catch {
    throw unreadable("the file is not a glTF file, or truncated: it is not well-formed JSON");
  }
}

/** Bytes of a buffer: inside the text, in another file, or the binary part of the file itself. */
export function bufferBytes(uri: string | undefined, binary: Uint8Array | undefined, sibling: ReadSibling): Uint8Array {
  if (uri === undefined) {
    if (binary === undefined) throw unreadable("a buffer has no data");
    return binary;
  }
  if (uri.startsWith("data:")) {
    const comma = uri.indexOf(",");
    if (!uri.slice(0, comma).endsWith(";base64")) throw unreadable("a buffer inside the text is not base64");
    return decodeBase64(uri.slice(comma + 1));
  }
  let reference: string;
  try {
    reference = decodeURIComponent(uri);
  } catch {
    throw unreadable(`the buffer "${uri}" is no proper reference`);
  }
  const read = sibling(reference);
  if (!read.ok) throw unreadable(`the buffer "${reference}" cannot be used: ${read.reason}`);
  return read.bytes;
}

const DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
const VALUE_OF = new Int8Array(128).fill(-1);
for (let i = 0; i < DIGITS.length; i++) VALUE_OF[DIGITS.charCodeAt(i)] = i;

/** Bytes of base64 text (RFC 4648, section 4). */
export function decodeBase64(text: string): Uint8Array {
  const length = text.endsWith("==") ? text.length - 2 : text.endsWith("=") ? text.length - 1 : text.length;
  const out = new Uint8Array(Math.floor((length * 3) / 4));
  let [bits, held, at] = [0, 0, 0];
  for (let i = 0; i < length; i++) {
    const code = text.charCodeAt(i);
    const value = code < 128 ? VALUE_OF[code]! : -1;
    if (value < 0 || length % 4 === 1) throw unreadable("a buffer inside the text is not base64");
    bits = ((bits << 6) | value) & 0xffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    out[at++] = (bits >> held) & 0xff;
  }
  return out;
}
