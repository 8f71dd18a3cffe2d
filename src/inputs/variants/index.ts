export type { VariantNames } from "./names.ts";
export { readNames, unknownVariant } from "./names.ts";
export type { Patch } from "./patch.ts";
export { applyPatches, SET_FILE, setPatches, variantPatches } from "./patch.ts";
