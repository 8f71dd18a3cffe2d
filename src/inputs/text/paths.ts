/** Folder part of a path as given, without the last separator; "" when there is none. */
export function folderOf(path: string): string {
  const cut = Math.max(path.lastIndexOf("/"), path.lastIndexOf("\\"));
  return cut < 0 ? "" : path.slice(0, cut === 0 ? 1 : cut);
}

/** Last part of a path. */
export function fileNameOf(path: string): string {
  return path.slice(Math.max(path.lastIndexOf("/"), path.lastIndexOf("\\")) + 1);
}

export function joinPath(folder: string, name: string): string {
  if (folder === "") return name;
  return folder.endsWith("/") ? folder + name : `${folder}/${name}`;
}

export type Resolved = { readonly ok: true; readonly inside: string } | { readonly ok: false; readonly reason: string };

/**
 * Place of a referenced file inside the pair's folder.
 *
 * A reference is relative to the file that makes it and stays inside the folder of the pair, so that a pair can be
 * handed over as one folder: absolute paths, drive letters, backslashes, URLs and a climb out of the folder are refused.
 *
 * @param from       file that makes the reference, relative to the pair's folder
 * @param reference  as written
 */
export function resolveInside(from: string, reference: string): Resolved {
  if (reference.includes("\\")) return { ok: false, reason: "separates folders with a backslash" };
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(reference)) return { ok: false, reason: "is not a relative path" };
  if (reference.startsWith("/") || reference.startsWith("~")) return { ok: false, reason: "is an absolute path" };
  const parts = folderOf(from)
    .split("/")
    .filter((part) => part !== "");
  for (const part of reference.split("/")) {
    if (part === "" || part === ".") continue;
    if (part !== "..") parts.push(part);
    else if (parts.pop() === undefined) return { ok: false, reason: "leaves the folder of the pair" };
  }
  if (parts.length === 0 || reference.endsWith("/")) return { ok: false, reason: "names a folder, not a file" };
  return { ok: true, inside: parts.join("/") };
}

/** What a file reference may be, for messages. */
export const ALLOWED_REFERENCE = "a path relative to the file that names it, with /, inside the folder of the pair";
