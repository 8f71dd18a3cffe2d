export { circleShare, marcum, type PlaneScatter, rayleighShare, riceShare } from "./circle-share.ts";
