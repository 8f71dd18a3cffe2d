export { approachGuide, emptyCommands } from "./guide.ts";
export * from "./settings.ts";
export { type Chasing, chasing } from "./steering.ts";
export * from "./types.ts";
