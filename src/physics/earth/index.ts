/** The earth as a body that turns, attracts and carries its air; for trajectories that must not assume a flat one. */
export { equatorialRadius, flattening, gravitationalParameter, meanRadius, rotationRate } from "./constants.table.ts";
export {
  cartesianFromGeodetic,
  type EarthFigure,
  ellipsoid,
  geodeticFromCartesian,
  rotationFromLocal,
  sphere,
} from "./figure.ts";
export { type GravitationLaw, gravitation } from "./gravitation.ts";
export { type EarthSettings, turningEarth } from "./turning-earth.ts";
