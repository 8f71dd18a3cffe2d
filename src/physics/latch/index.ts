/** Latch at the seat of the socket: its curve, what trips it, and the lower end of the closure window. */
export { type ClosureFloor, checkLatch, hookForce, plungerForce, tripEnergy, tripSpeed } from "./latch.ts";
export type * from "./types.ts";
