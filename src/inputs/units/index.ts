export type { Dimension } from "./dimension.ts";
export { combine, dimension, NONE, sameDimension, spellDimension } from "./dimension.ts";
export { unitHint, unitNamed } from "./lookup.ts";
export type { ParsedUnit, Unit } from "./parse.ts";
export { parseUnit } from "./parse.ts";
