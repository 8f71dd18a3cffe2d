/** Figures of the study `balance`. */
export { cgEnvelopeFigure } from "./cg-envelope.ts";
export { cgTimeFigure } from "./cg-time.ts";
