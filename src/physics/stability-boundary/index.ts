export { type LevelOptions, levelCurves, rootCondition } from "./level-curves.ts";
export { type PathMap, pathProblem, pathSeeds } from "./path-map.ts";
export { boomAtRoot, jackAtRoot, PathFlexibility, type PathPair, type PathParts } from "./path-parts.ts";
export { SwingResponse, type SwingSystem, swingSystem } from "./swing-response.ts";
export type { Level, LevelCurve, MapWindow, RootCondition, RootProblem, Seed } from "./types.ts";
