/**
 * Planar trapeze at three points in station axes (x aft, z up) [m]: boom from hinge A to the socket S, carried aircraft from S to
 * the pin P, aft yoke from P to its hinge B, jack from J on the carrier to a lug on the boom.
 */
export interface PlanarTrapeze {
  readonly A: readonly [number, number];
  readonly B: readonly [number, number];
  readonly J: readonly [number, number];
  readonly boom: number;
  readonly yoke: number;
  /** P from S in the aircraft's axes (aft, up), pitch zero. */
  readonly pin: readonly [number, number];
  /** Lug on the boom: along it from A, and normal to it, up. */
  readonly lug: readonly [number, number];
}

export interface TrapezePose {
  readonly S: readonly [number, number];
  readonly P: readonly [number, number];
  readonly lug: readonly [number, number];
  readonly jack: number;
  /** Nose up positive [rad]. */
  readonly pitch: number;
}

/**
 * Pose at a boom angle below the horizontal, by the triangle S–B–P.
 * @param side +1: P to the left of the line from S to B, −1: to its right
 */
export function trapezePose(t: PlanarTrapeze, angleDown: number, side: 1 | -1): TrapezePose {
  const [c, s] = [Math.cos(angleDown), Math.sin(angleDown)];
  const S = [t.A[0] + t.boom * c, t.A[1] - t.boom * s] as const;
  const lug = [t.A[0] + t.lug[0] * c + t.lug[1] * s, t.A[1] - t.lug[0] * s + t.lug[1] * c] as const;
  const [dx, dz] = [t.B[0] - S[0], t.B[1] - S[1]];
  const distance = Math.hypot(dx, dz);
  const coupler = Math.hypot(...t.pin);
  const corner = Math.acos((distance ** 2 + coupler ** 2 - t.yoke ** 2) / (2 * distance * coupler));
  const direction = Math.atan2(dz, dx) + side * corner;
  const P = [S[0] + coupler * Math.cos(direction), S[1] + coupler * Math.sin(direction)] as const;
  // Nose up lowers what lies aft.
  const turn = Math.atan2(t.pin[1], t.pin[0]) - direction;
  const pitch = Math.atan2(Math.sin(turn), Math.cos(turn));
  return { S, P, lug, jack: Math.hypot(lug[0] - t.J[0], lug[1] - t.J[1]), pitch };
}

/**
 * Jack force for a weight at a place of the aircraft (aft and up of S, pitch zero), body by body: the yoke is a two-force member, so
 * moments about S give its force; forces on the aircraft give the socket's; moments of the boom about A give the jack's.
 * @returns pushing its ends apart positive [N]
 */
export function trapezeJackForce(
  t: PlanarTrapeze,
  pose: TrapezePose,
  weight: number,
  centre: readonly [number, number],
): number {
  const [c, s] = [Math.cos(pose.pitch), Math.sin(pose.pitch)];
  const arm = [centre[0] * c + centre[1] * s, -centre[0] * s + centre[1] * c];
  const yoke = [(t.B[0] - pose.P[0]) / t.yoke, (t.B[1] - pose.P[1]) / t.yoke];
  const pin = [pose.P[0] - pose.S[0], pose.P[1] - pose.S[1]];
  const cross = (a: readonly number[], b: readonly number[]) => a[0] * b[1] - a[1] * b[0];
  const pull = (arm[0] * weight) / cross(pin, yoke);
  const onAircraftBySocket = [-pull * yoke[0], weight - pull * yoke[1]];
  const toSocket = [pose.S[0] - t.A[0], pose.S[1] - t.A[1]];
  const toLug = [pose.lug[0] - t.A[0], pose.lug[1] - t.A[1]];
  const jack = [(pose.lug[0] - t.J[0]) / pose.jack, (pose.lug[1] - t.J[1]) / pose.jack];
  return cross(toSocket, onAircraftBySocket) / cross(toLug, jack);
}
