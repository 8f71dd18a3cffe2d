export { BoreLink, type BoreLinkSettings } from "./bore-link.ts";
export { type DeadBand, deadBandForce, deadBandShare } from "./dead-band.ts";
export { LinkLoads } from "./link-loads.ts";
export { PinLink, type PinLinkSettings } from "./pin-link.ts";
export { boomAxes, equivalentFrictionRate, SocketHold, type SocketHoldSettings } from "./socket-hold.ts";
export type { CarrierMotion, LinkLoad, LinkPort, LinkSight } from "./types.ts";
