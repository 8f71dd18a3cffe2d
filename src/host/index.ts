/** The outside world as one argument. */
export { CannotRead, CannotRun, CannotWrite, type Effects, type Files, type Look, type Sink } from "./effects.ts";
export { systemWords } from "./files/index.ts";
export { type MemoryEffects, type MemorySettings, memoryEffects } from "./memory-effects.ts";
export { nodeEffects } from "./node-effects.ts";
