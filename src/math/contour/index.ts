export { contourLines, type Polyline } from "./contour.ts";
