export { type BoomGeometry, type BoomPreload, BoomSprings, type BoomSpringsSettings } from "./boom-springs.ts";
