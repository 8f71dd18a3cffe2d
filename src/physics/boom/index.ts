export { type BoomGeometry, type BoomPreload, BoomSprings, type BoomSpringsSettings } from "./boom-springs.ts";
export { type BoomMotions, BoomVibration, boundTravel, innerMass } from "./boom-vibration.ts";
