export { chebyshevNodes, chebyshevWeights } from "./chebyshev.ts";
