/** Socket at the boom tip: geometry, contact law, closed forms of cone and buffer. Its motion is in `hookon-motion`. */
export { type BufferPeak, bufferEnergy, bufferPeak, bufferSpeed } from "./buffer.ts";
export { coneForces, selfLockingAngle, slidingAngle } from "./cone.ts";
export { contactDissipation, elasticContact, type Impact, LEAST_RESTITUTION, twoMassImpact } from "./contact-law.ts";
export { checkSocket, type FunnelGeometry, funnelGeometry, socketAxes } from "./funnel.ts";
export type * from "./types.ts";
