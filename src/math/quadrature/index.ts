export { gaussLegendre, integrate, type Quadrature, resonanceBreaks } from "./quadrature.ts";
