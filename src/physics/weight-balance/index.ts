/** Centre of gravity of placed masses, envelope margins, wheel loads, change of trim when a load goes. */
export { centreOf, chordShare, type MeanChord, type PlacedMass } from "./centre.ts";
export { type CgEnvelope, type EnvelopeMargin, envelopeMargin } from "./envelope.ts";
export { type TrimAirloads, type TrimChange, trimChange } from "./trim-change.ts";
export { tipBackAngle, type WheelLoads, type WheelPlaces, wheelLoads } from "./wheels.ts";
