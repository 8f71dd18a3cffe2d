/** The system's short code of an error, e.g. `EACCES`; `undefined` when it has none. */
export function systemCode(error: unknown): string | undefined {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : undefined;
}

const WORDS: Readonly<Record<string, string>> = {
  EACCES: "no permission",
  EPERM: "not permitted",
  ENOENT: "the folder does not exist",
  ENOTDIR: "a part of the path is a file, not a folder",
  EISDIR: "is a folder, not a file",
  EEXIST: "a file stands where a folder is needed",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  EROFS: "the disk is read-only",
  EFBIG: "the file would be too large for this disk",
  ELOOP: "the symbolic links go round in a circle",
  ENAMETOOLONG: "the name is too long",
  EMFILE: "too many files are open",
  EIO: "the disk reported an error",
  EBUSY: "the file is in use",
  ENXIO: "is not a plain file",
};

/** What went wrong with a file, in plain words. */
export function systemWords(error: unknown): string {
  const code = systemCode(error);
  if (code !== undefined) return WORDS[code] ?? `the system says ${code}`;
  return error instanceof Error ? error.message : String(error);
}
