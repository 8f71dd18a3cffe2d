import type { Controls } from "../airloads/types.ts";

/** What is done at a time after the run begins; "left" and "right" are the aft pins by their place in the list of pins. */
export type SeparationStep =
  | { readonly time: number; readonly kind: "open pin"; readonly pin: number }
  | { readonly time: number; readonly kind: "open nose" }
  | { readonly time: number; readonly kind: "cut probe" }
  /** Change of a control from what it is, added at once: a failure, a preset, a throttle. */
  | { readonly time: number; readonly kind: "move control"; readonly control: keyof Controls; readonly by: number }
  /** Drag area of the carried aircraft that comes out [m²]. */
  | { readonly time: number; readonly kind: "airbrake"; readonly dragArea: number }
  /** Load factor that the carrier's crew adds, along its z axis upwards, for a while. */
  | { readonly time: number; readonly kind: "carrier pulls"; readonly loadFactor: number; readonly lasting: number };

/** How the probe left the socket. */
export type Withdrawal = "held" | "withdrawn" | "cut" | "hang-up";

/** Columns of a recorded run; places and velocities in H, lengths in m, angles in rad. */
export const SEPARATION_COLUMNS = [
  ...(["time", "x", "y", "z", "q0", "q1", "q2", "q3", "vx", "vy", "vz", "p", "q", "r"] as const),
  ...(["tipX", "tipY", "tipZ", "hingeX", "hingeY", "hingeZ"] as const),
  ...(["carrierRoll", "carrierPitch", "carrierYaw", "carrierVx", "carrierVy", "carrierVz"] as const),
  ...(["travel", "sideLoad", "frictionForce", "inside"] as const),
] as const;
export type SeparationColumn = (typeof SEPARATION_COLUMNS)[number];
