/** Latch at the seat of the socket: the probe pushes it until it trips; then its hooks close behind the probe's head. */
export interface LatchSettings {
  /** Force against travel while the probe pushes the plunger: travel rising from 0 [m], force [N]; the area is the trip energy. */
  readonly travel: Float64Array;
  readonly force: Float64Array;
  /** From tripped until the hooks are home [s]. */
  readonly lockTime: number;
  /** How far the probe may back out while the hooks close before they close on nothing [m]. */
  readonly lockWindow: number;
  /** Stiffness and damping of the closed hooks and the seat, along the axis [N/m], [N·s/m]. */
  readonly stiffness: number;
  readonly damping: number;
  /** Stiffness with which the bore holds the head sideways [N/m]. */
  readonly sideStiffness: number;
  /** Pull at which locked hooks give way, and half-locked ones [N]. */
  readonly holds: number;
  readonly holdsHalf: number;
}

/** "tripped" is not "locked": half-locked hooks have tripped, but closed on nothing or on the edge. */
export type LatchState = "open" | "tripped" | "locked" | "half-locked" | "broken";
