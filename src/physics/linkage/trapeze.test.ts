import { describe, expect, test } from "vitest";
import { type PlanarTrapeze, trapezeJackForce, trapezePose } from "../../../reference/analytic/trapeze/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { eulerFromQuaternion } from "../../math/rotation/index.ts";
import {
  assemble,
  coordinateAt,
  createLinkage,
  driveForce,
  jointForces,
  type LoadCase,
  pointPosition,
  type Stroke,
  type Toleranced,
  TRAPEZE,
  toleranceStack,
  traceStroke,
  transmissionAngle,
  transmissionAt,
  trapezeLinkage,
  type Vector3,
} from "./index.ts";

/** The demo mechanism in station axes: x aft, y right, z up [m]. */
const DEMO: PlanarTrapeze = {
  A: [10.4, 2.15],
  B: [13.243, 1.92],
  J: [12.9, 3.35],
  boom: 5.6,
  yoke: Math.hypot(
    5.6 * Math.cos((14 * Math.PI) / 180) + 10.4 + 2.95 - 13.243,
    2.15 - 5.6 * Math.sin((14 * Math.PI) / 180) - 0.23 - 1.92,
  ),
  pin: [2.95, -0.23],
  lug: [1.55, 0.28],
};
const DEGREE = Math.PI / 180;
const STOWED = 14 * DEGREE;
const CG = [2.2, -0.85] as const;
const WEIGHT = 2600 * 9.80665;
const drawn = trapezePose(DEMO, STOWED, -1);
const point = ([x, z]: readonly [number, number]): Vector3 => [x, 0, z];
const drawing = {
  aft: [1, 0, 0],
  right: [0, 1, 0],
  boomHinge: point(DEMO.A),
  socket: point(drawn.S),
  jackOnCarrier: point(DEMO.J),
  jackOnBoom: point(drawn.lug),
  carried: { position: [drawn.S[0] + CG[0], 0, drawn.S[1] + CG[1]] },
} as const;
const threePoint = createLinkage(trapezeLinkage({ ...drawing, yoke: { hinge: point(DEMO.B), pins: point(drawn.P) } }));
const singlePoint = createLinkage(trapezeLinkage(drawing));
const TIP = { joint: TRAPEZE.socket, on: "first" } as const;
const own: LoadCase = {
  masses: [{ body: TRAPEZE.carried, mass: 2600, centre: [0, 0, 0] }],
  gravity: [0, 0, -9.80665],
};
const degrees = [14, 20, 26, 30, 36, 40, 46, 52];
const strokeOf = (linkage: typeof threePoint): Stroke =>
  traceStroke(linkage, { along: TRAPEZE.boomHinge, values: degrees.map((angle) => angle * DEGREE), tip: TIP });

function pitchOf(stroke: Stroke, i: number): number {
  const angles = new Float64Array(3);
  eulerFromQuaternion(stroke.poses[i].attitudes, 4 * stroke.linkage.bodies.indexOf(TRAPEZE.carried), angles);
  return angles[1];
}

describe("three point: the carried aircraft is the coupler (analytic/trapeze)", () => {
  const stroke = strokeOf(threePoint);

  test("the drawing is its own closure, and the branch is the right one", () => {
    expectAllClose(drawn.P, [drawn.S[0] + 2.95, drawn.S[1] - 0.23], { atol: 1e-12, why: "pitch zero when stowed" });
    expect(stroke.outcome).toBe("complete");
    expect(stroke.events).toEqual([]);
  });

  test("socket, pin, jack length and pitch along the stroke", () => {
    stroke.states.forEach((state, i) => {
      const pose = trapezePose(DEMO, degrees[i] * DEGREE, -1);
      const why = { atol: 1e-11, why: "closed form against a loop closed to rounding" };
      expectAllClose(pointPosition(threePoint, state, TIP), point(pose.S), why);
      expectAllClose(pointPosition(threePoint, state, { joint: TRAPEZE.pins, on: "second" }), point(pose.P), why);
      expectClose(coordinateAt(threePoint, state, TRAPEZE.jack), pose.jack, why);
      expectClose(pitchOf(stroke, i), pose.pitch, why);
    });
  });

  test("jack load by virtual work is the one by free bodies; it is a pull", () => {
    stroke.states.forEach((state, i) => {
      const pose = trapezePose(DEMO, degrees[i] * DEGREE, -1);
      const force = driveForce(threePoint, state, TRAPEZE.jack, own) ?? Number.NaN;
      expectClose(force, trapezeJackForce(DEMO, pose, WEIGHT, CG), { rtol: 1e-9, why: "two methods, conditioning" });
      expect(force).toBeLessThan(0);
    });
  });

  test("vertical and fore-and-aft forces are determinate, lateral ones not; nose and pins share the weight", () => {
    const found = jointForces(threePoint, stroke.states[0], [TRAPEZE.jack], own);
    if (found.outcome !== "balanced") throw new Error(found.outcome);
    const socket = found.joints.find(({ joint }) => joint === TRAPEZE.socket);
    const pins = found.joints.find(({ joint }) => joint === TRAPEZE.pins);
    expect(socket?.determinate.slice(0, 3)).toEqual([true, false, true]);
    const up = (socket?.f_onSecond_byFirst[2] ?? 0) + (pins?.f_onSecond_byFirst[2] ?? 0);
    expectClose(up, WEIGHT, { rtol: 1e-10, why: "balance of the aircraft" });
    const assembly = assemble(threePoint, [{ joint: TRAPEZE.jack, value: drawn.jack }]);
    expect(assembly).toMatchObject({ outcome: "assembled", freedoms: 0, redundant: 1 });
  });

  test("worked figures of the demo mechanism, as a trend", () => {
    const why = "hand-sized figures, trend only";
    // Boom angle [°], jack length [m], tip per jack travel, pitch [°], attitude error of four dimensions ±2 mm [°].
    const figures = [
      [14, 1.6, 4.18, 0, 0.42],
      [26, 1.9, 3.7, 0.41, 0.19],
      [40, 2.283, 3.56, 0.73, 0.12],
      [52, 2.61, 3.63, 1, 0.09],
    ];
    const [c, s] = [Math.cos(STOWED), Math.sin(STOWED)];
    const yoke = [(drawn.P[0] - DEMO.B[0]) / DEMO.yoke, (drawn.P[1] - DEMO.B[1]) / DEMO.yoke];
    const dimensions: Toleranced[] = [
      {
        name: "boom",
        tolerance: 2e-3,
        parts: [{ joint: TRAPEZE.socket, what: "point on first", direction: [c, 0, -s] }],
      },
      {
        name: "yoke",
        tolerance: 2e-3,
        parts: [{ joint: TRAPEZE.pins, what: "point on first", direction: [yoke[0], 0, yoke[1]] }],
      },
      {
        name: "probe to pins",
        tolerance: 2e-3,
        parts: [{ joint: TRAPEZE.pins, what: "point on second", direction: [1, 0, 0] }],
      },
      {
        name: "yoke hinge height",
        tolerance: 2e-3,
        parts: [{ joint: TRAPEZE.yokeHinge, what: "point on first", direction: [0, 0, 1] }],
      },
    ];
    for (const [angle, length, ratio, pitch, error] of figures) {
      const i = degrees.indexOf(angle);
      const state = stroke.states[i];
      expectClose(coordinateAt(threePoint, state, TRAPEZE.jack), length, { rtol: 0.005, why });
      const moves = transmissionAt(threePoint, state, TRAPEZE.jack, TIP);
      if (moves.outcome !== "moves") throw new Error(moves.outcome);
      expectClose(moves.tipTravelPerJackTravel, ratio, { rtol: 0.01, why });
      expectClose(pitchOf(stroke, i) / DEGREE, pitch, { atol: 0.02, why });
      const drives = [{ joint: TRAPEZE.boomHinge, value: angle * DEGREE }];
      const turn = { kind: "turn", body: TRAPEZE.carried, axis: [0, 1, 0] } as const;
      const { measures, gap } = toleranceStack(threePoint, state, drives, dimensions, [turn]);
      expectClose(measures[0].rootSumSquare / DEGREE, error, { rtol: 0.05, why });
      expect(gap).toBe(0);
      // Near the flat link the aft pins are at a small transmission angle: that is where tolerances are amplified.
      const mu = transmissionAngle(
        threePoint,
        state,
        TIP,
        { joint: TRAPEZE.pins, on: "first" },
        { joint: TRAPEZE.yokeHinge, on: "first" },
      );
      expect(mu / DEGREE).toBeGreaterThan(9);
    }
    const load = (angle: number) =>
      Math.abs(driveForce(threePoint, stroke.states[degrees.indexOf(angle)], TRAPEZE.jack, own) ?? 0) / 1000;
    // The hand-sized loads lie 4 to 12 % below the two methods that agree above; the fall along the stroke is the trend.
    expectClose(load(14), 101, { rtol: 0.15, why });
    expectClose(load(30), 76, { rtol: 0.15, why });
    expectClose(load(52), 51, { rtol: 0.15, why });
    expect(load(14)).toBeGreaterThan(load(30));
    expect(load(30)).toBeGreaterThan(load(52));
  });
});

describe("single point: it hangs at the socket with its attitude held", () => {
  const stroke = strokeOf(singlePoint);

  test("keeps its attitude along the stroke and moves with the socket", () => {
    expect(stroke.outcome).toBe("complete");
    stroke.states.forEach((state, i) => {
      expectClose(pitchOf(stroke, i), 0, { atol: 1e-12, why: "attitude held" });
      const [x, , z] = pointPosition(singlePoint, state, { body: TRAPEZE.carried, at: [0, 0, 0] });
      const { S } = trapezePose(DEMO, degrees[i] * DEGREE, -1);
      expectAllClose([x, z], [S[0] + CG[0], S[1] + CG[1]], { atol: 1e-11, why: "closed form" });
    });
  });

  test("the jack holds the weight at the socket alone; the held attitude gives the moment about it", () => {
    const [state] = stroke.states;
    const pose = trapezePose(DEMO, STOWED, -1);
    const arm = pose.S[0] - DEMO.A[0];
    const [lx, lz] = [pose.lug[0] - DEMO.A[0], pose.lug[1] - DEMO.A[1]];
    const jackArm = (lx * (pose.lug[1] - DEMO.J[1]) - lz * (pose.lug[0] - DEMO.J[0])) / pose.jack;
    const expected = (arm * WEIGHT) / jackArm;
    expectClose(driveForce(singlePoint, state, TRAPEZE.jack, own) ?? 0, expected, {
      rtol: 1e-11,
      why: "moments about A",
    });
    const found = jointForces(singlePoint, state, [TRAPEZE.jack], own);
    if (found.outcome !== "balanced") throw new Error(found.outcome);
    expect(found.determinate).toBe(true);
    const attitude = found.joints.find(({ joint }) => joint === TRAPEZE.attitude);
    // Weight aft of the socket pitches the nose up; what holds it pitches down.
    expectAllClose(attitude?.m_onSecond_byFirst ?? [], [0, -WEIGHT * CG[0], 0], {
      rtol: 1e-11,
      atol: 1e-7,
      why: "moments about S",
    });
  });
});

test("a boom hinge whose aft is not normal to right is refused", () => {
  expect(() => trapezeLinkage({ ...drawing, aft: [1, 0.1, 0] })).toThrow("angle of aft to right");
});
