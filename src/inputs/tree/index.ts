export { layer, replaceAt } from "./merge.ts";
export type { Entry, Key, List, Mapping, Place, Scalar, Tree } from "./tree.ts";
export { describe, dotted, find, placeOf, shorten, toPlain } from "./tree.ts";
