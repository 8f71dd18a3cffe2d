/** Numbers and units as printed. */
export { formatAgainst, formatFixed, formatNumber, formatShort, type NumberStyle } from "./format.ts";
export { formatPair, formatQuantity, formatShortQuantity, prettyUnit, scaleUnit, type UnitScale } from "./units.ts";
