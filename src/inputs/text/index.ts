export { editDistance, nearest } from "./nearest.ts";
export type { Resolved } from "./paths.ts";
export { ALLOWED_REFERENCE, fileNameOf, folderOf, joinPath, resolveInside } from "./paths.ts";
export type { Decoded } from "./utf8.ts";
export { decodeUtf8 } from "./utf8.ts";
