/** Cautions printed with every result. */
export { CAUTION_LINE, STANDARD_CAUTIONS } from "./cautions.ts";
