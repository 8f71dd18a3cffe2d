export { correlation, type Root, type TrackSettings, trackRoots } from "./track.ts";
