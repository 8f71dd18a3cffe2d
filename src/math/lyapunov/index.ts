export { type LyapunovSolution, lyapunov } from "./lyapunov.ts";
