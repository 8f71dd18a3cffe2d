import { addOuter, congruent, diagonal, type Matrix, type Motion3, plus, sumOf, times, zeros } from "./small-matrix.ts";
import { type HookedBalance, type HookedNumbers, hookedBalance } from "./trim.ts";

/** Terms that exist only because something static turns with the motion; all of them belong together. */
export interface GeometricTerms {
  /** Static tip force on the probe arm that turns with the aircraft. */
  readonly tipForceOnTurnedArm: boolean;
  /** Boom tension over length. */
  readonly tensionOverLength: boolean;
  /** Tangential preload over length. */
  readonly tangentialOverLength: boolean;
  /** Static airload on the arm from the c.g. to the moment reference point. */
  readonly airloadOnTurnedArm: boolean;
  /** Static aerodynamic pitching moment that leans with the aircraft. */
  readonly turnedStaticMoment: boolean;
}
export const ALL_TERMS: GeometricTerms = {
  tipForceOnTurnedArm: true,
  tensionOverLength: true,
  tangentialOverLength: true,
  airloadOnTurnedArm: true,
  turnedStaticMoment: true,
};

/** Coordinates of each plane: M·q̈ + C·q̇ + K·q = 0, and for the longitudinal one the series path on q[1]. */
export interface PlaneModel {
  readonly M: Matrix;
  readonly C: Matrix;
  readonly K: Matrix;
}

const on = (flag: boolean): number => (flag ? 1 : 0);

/** Static load of the boom: tension N = −f·e_ℓ and tangential force T = f·e_Γ on the aircraft. Note eq. 3. */
export function boomStatics(n: HookedNumbers, b: HookedBalance) {
  const [c, s] = [Math.cos(n.boom.angleDown), Math.sin(n.boom.angleDown)];
  return { tension: b.fx * c - b.fz * s, tangential: b.fx * s + b.fz * c };
}

/** Dashpots that give ζ_s to the aircraft on each spring alone: 2ζ_s·√(k·m), note eq. 4. */
export function boomDashpots(n: HookedNumbers, b: HookedBalance) {
  const { boom } = n;
  const [c, s] = [Math.cos(boom.angleDown), Math.sin(boom.angleDown)];
  const inPlane = (x: number, z: number): number => 1 / (1 / n.mass + (b.Z * x - b.X * z) ** 2 / n.Iyy);
  const { xx, zz, xz } = inertiaAlongFlight(n, b.alpha);
  const across = (xx * b.X ** 2 + zz * b.Z ** 2 - 2 * xz * b.X * b.Z) / (xx * zz - xz * xz);
  const rate = (k: number, m: number): number =>
    2 * boom.structuralDamping * Math.sqrt(k * (boom.effectiveTipMass + m));
  return {
    axial: rate(boom.axial, inPlane(-c, s)),
    lateral: rate(boom.lateral, 1 / (1 / n.mass + across)),
    tangential: rate(boom.bending, inPlane(s, c)),
  };
}

/** Inertia about axes along and across the flight: body turned nose up by α. */
function inertiaAlongFlight({ Ixx, Izz, Ixz }: HookedNumbers, alpha: number) {
  const [c, s] = [Math.cos(alpha), Math.sin(alpha)];
  return {
    xx: Ixx * c * c + Izz * s * s - 2 * Ixz * s * c,
    zz: Ixx * s * s + Izz * c * c + 2 * Ixz * s * c,
    xz: (Ixx - Izz) * s * c + Ixz * (c * c - s * s),
  };
}

/**
 * Longitudinal model in q = (tip travel away from the hinge, tip travel towards a larger boom angle, pitch).
 *
 * Dimensional derivatives about the reference point, stability axes; note eqs. 5–9.
 */
export function longitudinalModel(n: HookedNumbers, terms: GeometricTerms = ALL_TERMS): PlaneModel {
  const b = hookedBalance(n);
  const { derivatives: d, trueAirspeed: V, boom } = n;
  const { X, Z, Xr, Zr } = b;
  const QS = b.pressureArea;
  const perRate = (QS * d.chord) / (2 * V);
  // motion of the reference point: u, w, ẇ along stability axes and q, on c.g. displacement (x, z) and pitch
  const u: Motion3 = { velocity: [1, 0, Zr] };
  const w: Motion3 = { place: [0, 0, V], velocity: [0, 1, -Xr] };
  const wRate: Motion3 = { velocity: [0, 0, V], acceleration: [0, 1, -Xr] };
  const q: Motion3 = { velocity: [0, 0, 1] };
  const pitch: Motion3 = { place: [0, 0, 1] };
  const Cm = b.staticMoment / (QS * d.chord);
  const forward = sumOf(
    [(-2 * QS * b.CD) / V, u],
    [(QS * (b.CL - 2 * n.drag.induced * b.CL * d.lift.alpha)) / V, w],
    [-b.lift, pitch],
  );
  const down = sumOf(
    [(-2 * QS * b.CL) / V, u],
    [(-QS * (d.lift.alpha + b.CD)) / V, w],
    [(-perRate * d.lift.alphaRate) / V, wRate],
    [-perRate * d.lift.pitchRate, q],
    [b.drag, pitch],
  );
  const aboutReference = sumOf(
    [(2 * QS * d.chord * Cm) / V, u],
    [(QS * d.chord * d.pitch.alpha) / V, w],
    [(perRate * d.chord * d.pitch.alphaRate) / V, wRate],
    [perRate * d.chord * d.pitch.pitchRate, q],
  );
  const moment = plus(
    aboutReference,
    times(Zr, forward),
    times(-Xr, down),
    sumOf([on(terms.airloadOnTurnedArm) * (Xr * b.drag + Zr * b.lift), pitch]),
  );
  const air = [forward, down, moment];
  const [c, s] = [Math.cos(boom.angleDown), Math.sin(boom.angleDown)];
  // c.g. displacement and pitch from tip coordinates
  const fromTip: Matrix = [
    [-c, s, -Z],
    [s, c, X],
    [0, 0, 1],
  ];
  const statics = boomStatics(n, b);
  const N = (on(terms.tensionOverLength) * statics.tension) / boom.length;
  const T = (on(terms.tangentialOverLength) * statics.tangential) / boom.length;
  const arm = on(terms.tipForceOnTurnedArm) * (b.fx * X + b.fz * Z);
  const M = congruent(fromTip, diagonal(n.mass, n.mass, n.Iyy), air, "acceleration");
  const C = congruent(fromTip, zeros(), air, "velocity");
  const K = congruent(fromTip, zeros(), air, "place");
  const m = boom.effectiveTipMass;
  return {
    M: M.map((row, i) => row.map((x, j) => x + (i === j && i < 2 ? m : 0))),
    C: addOuter(C, [1, 0, 0], boomDashpots(n, b).axial),
    K: [
      [K[0][0] + boom.axial, K[0][1] + T, K[0][2]],
      [K[1][0] + T, K[1][1] + N, K[1][2]],
      [K[2][0], K[2][1], K[2][2] + arm],
    ],
  };
}

/**
 * Lateral model in q = (tip travel to the right, roll, yaw), angles about axes along and across the flight.
 *
 * Note eqs. 10–13. With the side force in body axes the coefficient is the whole force along body y.
 */
export function lateralModel(n: HookedNumbers, terms: GeometricTerms = ALL_TERMS): PlaneModel {
  const b = hookedBalance(n);
  const { derivatives: d, trueAirspeed: V, boom } = n;
  const { X, Z, Xr, Zr } = b;
  const QS = b.pressureArea;
  const perRate = (QS * d.span) / (2 * V);
  const roll: Motion3 = { place: [0, 1, 0] };
  const yaw: Motion3 = { place: [0, 0, 1] };
  const p: Motion3 = { velocity: [0, 1, 0] };
  const r: Motion3 = { velocity: [0, 0, 1] };
  // sideways velocity of the reference point along body y, on c.g. displacement y, roll and yaw
  const v: Motion3 = { place: [0, 0, -V], velocity: [1, -Zr, Xr] };
  const wind = d.axes.sideForce === "wind";
  const right = sumOf(
    [(QS * (d.side.beta - (wind ? b.CD : 0))) / V, v],
    [perRate * d.side.rollRate, p],
    [perRate * d.side.yawRate, r],
    [-b.drag, yaw],
    [b.lift, roll],
  );
  const aboutReference = (k: typeof d.roll): Required<Motion3> =>
    times(d.span, sumOf([(QS * k.beta) / V, v], [perRate * k.rollRate, p], [perRate * k.yawRate, r]));
  const turned = on(terms.turnedStaticMoment) * b.staticMoment;
  const armTravel: Motion3 = { place: [0, -Zr, Xr] };
  const onArm = on(terms.airloadOnTurnedArm);
  const rolling = plus(aboutReference(d.roll), times(-Zr, right), sumOf([-turned, yaw], [-onArm * b.lift, armTravel]));
  const yawing = plus(aboutReference(d.yaw), times(Xr, right), sumOf([turned, roll], [onArm * b.drag, armTravel]));
  const air = [right, rolling, yawing];
  const fromTip: Matrix = [
    [1, Z, -X],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const { xx, zz, xz } = inertiaAlongFlight(n, b.alpha);
  const inertia: Matrix = [
    [n.mass, 0, 0],
    [0, xx, -xz],
    [0, -xz, zz],
  ];
  const M = congruent(fromTip, inertia, air, "acceleration");
  const C = congruent(fromTip, zeros(), air, "velocity");
  const K = congruent(fromTip, zeros(), air, "place");
  const spring = boom.lateral + (on(terms.tensionOverLength) * boomStatics(n, b).tension) / boom.length;
  // the probe moves sideways by X·yaw − Z·roll under the static tip force
  const arm = on(terms.tipForceOnTurnedArm);
  const turn = [0, -Z * arm, X * arm];
  return {
    M: addOuter(M, [1, 0, 0], boom.effectiveTipMass),
    C: addOuter(C, [1, 0, 0], boomDashpots(n, b).lateral),
    K: addOuter(K, [1, 0, 0], spring).map((row, i) => row.map((x, j) => x + [0, -b.fz, b.fx][i] * turn[j])),
  };
}
