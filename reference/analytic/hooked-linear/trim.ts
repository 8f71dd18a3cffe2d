/** Numbers of a symmetric aircraft hooked at one point, thrust zero, controls held. SI and radians, body axes from the c.g. */
export interface HookedNumbers {
  readonly mass: number;
  readonly Ixx: number;
  readonly Iyy: number;
  readonly Izz: number;
  /** ∫xz dm. */
  readonly Ixz: number;
  /** Probe tip and moment reference point from the c.g. [m]. */
  readonly probe: readonly [number, number, number];
  readonly derivatives: {
    readonly area: number;
    readonly span: number;
    readonly chord: number;
    readonly axes: { readonly moments: string; readonly sideForce: string };
    readonly referencePoint: readonly [number, number, number];
    readonly lift: PlaneNumbers;
    readonly pitch: PlaneNumbers;
    readonly side: LateralNumbers;
    readonly roll: LateralNumbers;
    readonly yaw: LateralNumbers;
  };
  /** C_D = zeroLift + induced·C_L² of the steady lift. */
  readonly drag: { readonly zeroLift: number; readonly induced: number };
  readonly density: number;
  readonly trueAirspeed: number;
  readonly gravity: number;
  readonly weightShare: number;
  readonly boom: {
    readonly length: number;
    readonly angleDown: number;
    readonly axial: number;
    readonly lateral: number;
    readonly bending: number;
    readonly accumulator: number;
    readonly snubber: number;
    readonly structuralDamping: number;
    readonly effectiveTipMass: number;
  };
}

interface PlaneNumbers {
  readonly atReference: number;
  readonly alpha: number;
  readonly pitchRate: number;
  readonly alphaRate: number;
  readonly elevator: number;
}
interface LateralNumbers {
  readonly beta: number;
  readonly rollRate: number;
  readonly yawRate: number;
}

/** Balance; arms X, Z (probe) and Xr, Zr (reference point) from the c.g. in H, where x lies along the flight. */
export interface HookedBalance {
  readonly alpha: number;
  readonly elevator: number;
  readonly pressureArea: number;
  readonly CL: number;
  readonly CD: number;
  readonly lift: number;
  readonly drag: number;
  /** Static pitching moment of the air about the reference point [N·m]; the tip balances it. */
  readonly staticMoment: number;
  readonly X: number;
  readonly Z: number;
  readonly Xr: number;
  readonly Zr: number;
  /** Force on the aircraft by the tip [N], forward and down. */
  readonly fx: number;
  readonly fz: number;
}

/**
 * Balance in level flight: lift carries what the tip does not, the tip tows the drag, the elevator trims the moment.
 *
 *     q̄S·C_L = (1 − s)·W,   f = (D, −s·W)                                      (1)
 *     M_P + Z_r·(−D) + X_r·L + Z·f_x − X·f_z = 0                               (2)
 *
 * with all arms turned by α: X = x·cos α + z·sin α, Z = z·cos α − x·sin α. α by the secant method on (2).
 */
export function hookedBalance(n: HookedNumbers): HookedBalance {
  const { derivatives: d, drag: polar } = n;
  const pressureArea = 0.5 * n.density * n.trueAirspeed ** 2 * d.area;
  const weight = n.mass * n.gravity;
  const CL = ((1 - n.weightShare) * weight) / pressureArea;
  const CD = polar.zeroLift + polar.induced * CL * CL;
  const [lift, drag] = [pressureArea * CL, pressureArea * CD];
  const [fx, fz] = [drag, -n.weightShare * weight];
  const at = (alpha: number) => {
    const elevator = (CL - d.lift.atReference - d.lift.alpha * alpha) / d.lift.elevator;
    const Cm = d.pitch.atReference + d.pitch.alpha * alpha + d.pitch.elevator * elevator;
    const staticMoment = pressureArea * d.chord * Cm;
    const turn = ([x, , z]: readonly [number, number, number]) => [
      x * Math.cos(alpha) + z * Math.sin(alpha),
      z * Math.cos(alpha) - x * Math.sin(alpha),
    ];
    const [X, Z] = turn(n.probe);
    const [Xr, Zr] = turn(d.referencePoint);
    const moment = staticMoment - Zr * drag + Xr * lift + Z * fx - X * fz;
    return { moment, elevator, staticMoment, X, Z, Xr, Zr };
  };
  let [a0, a1] = [0, 0.05];
  let [m0, m1] = [at(a0).moment, at(a1).moment];
  for (let i = 0; i < 50 && m1 !== m0 && Math.abs(a1 - a0) > 1e-16; i++) {
    [a0, a1, m0] = [a1, a1 - (m1 * (a1 - a0)) / (m1 - m0), m1];
    m1 = at(a1).moment;
  }
  if (!(Math.abs(m1) < 1e-9 * weight)) throw new Error(`no balance: ${m1} N·m left at α = ${a1}`);
  const { moment: _, ...arms } = at(a1);
  return { alpha: a1, pressureArea, CL, CD, lift, drag, fx, fz, ...arms };
}
