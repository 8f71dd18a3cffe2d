import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { poseOf, strokeEvaluator } from "../../physics/linkage/index.ts";
import { createPose } from "../../physics/shapes/index.ts";
import { carried, toStation } from "./frames.ts";
import { buildMechanism } from "./mechanism.ts";
import { proveMotion } from "./proven-motion.ts";
import { computeFit } from "./run.ts";
import { strokePoints, traceMechanism } from "./stroke.ts";
import { bodyTable } from "./stroke-table.ts";
import { angleAt, carriedPoint, jackLength, NOMINAL, pitchAt, socketAt } from "./testing/closed-form.ts";
import { part, rig, TRAPEZE, trapezeLinkage } from "./testing/rigs.ts";
import { toleranceResults } from "./tolerance.ts";

const DEGREE = Math.PI / 180;
const inputs = rig([]);
const mechanism = buildMechanism(inputs);
const traced = traceMechanism(inputs, mechanism);
const points = strokePoints(inputs, mechanism, traced);

describe("the stroke of the four-bar", () => {
  it("follows the closed form at every point", () => {
    expect(traced.stroke.outcome).toBe("complete");
    expect(points).toHaveLength(39);
    const exact = { atol: 1e-9, why: "circle intersection" };
    for (const point of points) {
      const angle = point.boomAngle_deg * DEGREE;
      const [fs, wl] = socketAt(NOMINAL, angle);
      expectClose(point.socket_m[0], fs, exact, "socket FS");
      expectClose(point.socket_m[2], wl, exact, "socket WL");
      expectClose(point.carriedPitch_deg, pitchAt(NOMINAL, angle) / DEGREE, exact, "pitch");
      expectClose(point.jackLength_m, jackLength(NOMINAL, angle), exact, "jack");
      const [cgFS, cgWL] = carriedPoint(NOMINAL, angle, [2.2, -0.85]);
      expectClose(point.cg[0].at_m[0], cgFS, exact, "c.g. FS");
      expectClose(point.cg[0].at_m[2], cgWL, exact, "c.g. WL");
    }
  });

  it("has the tip travel and the jack load of the closed form's differences", () => {
    const step = 1e-5;
    for (const point of points.filter((_, i) => i % 6 === 0)) {
      const angle = point.boomAngle_deg * DEGREE;
      const slope = (of: (angle: number) => number) => (of(angle + step) - of(angle - step)) / (2 * step);
      const jack = slope((at) => jackLength(NOMINAL, at));
      const close = { rtol: 1e-7, why: "central differences" };
      expectClose(point.tipPerJack_1 ?? 0, NOMINAL.boomLength / Math.abs(jack), close, "tip per jack");
      // The weight does work as the c.g. sinks; the jack takes it up: F = m g dWL/dL, compression positive.
      const rise = slope((at) => carriedPoint(NOMINAL, at, [2.2, -0.85])[1]);
      const whole = point.jackLoads.find((load) => load.weightShare_1 === 1);
      const part = point.jackLoads.find((load) => load.weightShare_1 === 0.2);
      expectClose(whole?.load_N ?? 0, (2600 * 9.80665 * rise) / jack, close, "load");
      expectClose(part?.load_N ?? 0, 0.2 * (whole?.load_N ?? 0), { rtol: 1e-12, why: "linear" }, "share");
    }
  });

  it("adds the boom's own weight", () => {
    const heavy = { ...inputs, linkage: trapezeLinkage({ ownWeight: { mass: 300, centreFromHinge: 2.6 } }) };
    const [first] = strokePoints(heavy, mechanism, traced);
    const jack = (jackLength(NOMINAL, 14 * DEGREE + 1e-5) - jackLength(NOMINAL, 14 * DEGREE - 1e-5)) / 2e-5;
    const own = (-300 * 9.80665 * 2.6 * Math.cos(14 * DEGREE)) / jack;
    const difference = (first.jackLoads[1].load_N ?? 0) - (points[0].jackLoads[1].load_N ?? 0);
    expectClose(difference, own, { rtol: 1e-7, why: "central differences" }, "own weight");
  });

  it("keeps the pitch at single point", () => {
    const single = rig([], [], {
      linkage: trapezeLinkage({ attached: "single point", drawn: { boomAngle: 14 * DEGREE, carriedPitch: 0.05 } }),
    });
    const own = buildMechanism(single);
    const along = strokePoints(single, own, traceMechanism(single, own));
    for (const point of along) {
      expectClose(point.carriedPitch_deg, 0.05 / DEGREE, { atol: 1e-9, why: "held" }, "pitch");
      expect(point.couplerTransmissionAngle_deg).toBeNull();
    }
  });

  it("reports where the mechanism cannot go on, and says nothing about poses that do not exist", () => {
    // With a lower yoke hinge coupler and yoke fold onto each other as the boom goes down: there the boom has to stop.
    const yokeHinge = [13.243, 1.2] as const;
    const bar = { ...NOMINAL, yokeHinge };
    const [x, y] = socketAt(bar, 14 * DEGREE);
    const yokeLength = Math.hypot(x + 2.95 - yokeHinge[0], y - 0.23 - yokeHinge[1]);
    const apart = (angle: number) => {
      const [fs, wl] = socketAt(bar, angle);
      return Math.hypot(yokeHinge[0] - fs, yokeHinge[1] - wl);
    };
    let end = 14 * DEGREE;
    while (apart(end) > yokeLength - Math.hypot(...NOMINAL.coupler)) end += 1e-6;
    expect(end).toBeLessThan(18 * DEGREE);
    const joints = trapezeLinkage().joints.map((joint) =>
      joint.name === "yokeHinge"
        ? { ...joint, place: { in: "carrier" as const, point: [13.243, 0, 1.2] as const } }
        : joint,
    );
    const fit = computeFit(rig([], [], { linkage: trapezeLinkage({ joints }) }), "folds");
    expect(fit.strokeOutcome).toBe("dead point");
    const event = fit.strokeEvents.find(({ kind }) => kind === "dead point");
    expectClose((event?.boomAngle_deg ?? 0) * DEGREE, end, { atol: 2e-6, why: "step of the search" }, "dead point");
    expect(fit.stroke.length).toBe(1 + Math.floor(end / DEGREE - 14));
  });

  it("shows no clearance where the motion is not proven, and says so", () => {
    // The same, with the stroke stated to end just before coupler and yoke fold.
    const joints = trapezeLinkage().joints.map((joint) =>
      joint.name === "yokeHinge"
        ? { ...joint, place: { in: "carrier" as const, point: [13.243, 0, 1.2] as const } }
        : joint,
    );
    const stowed = 14 * DEGREE;
    const reached = computeFit(rig([], [], { linkage: trapezeLinkage({ joints }) }), "folds").strokeEvents;
    const end = (reached.find(({ kind }) => kind === "dead point")?.boomAngle_deg ?? 0) * DEGREE - 1e-10;
    const far = part("carrier.far", "carrier", { kind: "box", from: [30, -0.1, 5], to: [31, 0.1, 6] });
    const pod = part("carried.pod", "carried", { kind: "box", from: [3, -0.3, 1], to: [4, 0.3, 1.4] });
    const fit = computeFit(
      rig([far, pod], [], { linkage: trapezeLinkage({ joints, stroke: { stowed, extended: end } }) }),
      "near",
    );
    expect(fit.strokeOutcome).toBe("complete");
    const [own] = fit.clearances;
    expect(own.state).toBe("unresolved");
    const [whole, atEnd] = own.alongStroke;
    // Metres apart, but of half a degree of stroke the last twelfth is not proven; the pose at its end is solved.
    expect(whole.lower_m).toBe(0);
    expect(whole.upper_m).toBeGreaterThan(5);
    expect(atEnd.lower_m).toBeGreaterThan(5);
    const said = fit.assumptions.find((text) => text.includes("could not be proven"));
    expect(said).toContain(`from boom angle 14.42° to ${(end / DEGREE).toFixed(2)}°`);
  });
});

describe("the table of poses", () => {
  const references = { boom: [-13, 0, -1.5], aftYoke: [-14, 0, -1.5], carried: [-4, 0, -1] } as const;
  const tables = new Map(
    Object.entries(references).map(([body, at]) => [
      body,
      bodyTable(traced.poses, mechanism.linkage.bodies.indexOf(body), at),
    ]),
  );
  const proven = proveMotion(mechanism, traced, tables);
  const deviationOf = (body: string) => {
    const found = proven.deviations.get(body);
    if (found === undefined) throw new Error(`no deviation of ${body}`);
    return found;
  };

  it("stays within its proven deviation of the solved poses, which is not much more than there is", () => {
    const index = mechanism.linkage.bodies.indexOf("carried");
    const reference = references.carried;
    const table = bodyTable(traced.poses, index, reference);
    const { way, turn } = deviationOf("carried");
    expect(proven.unresolved).toEqual([]);
    const solve = strokeEvaluator(traced.stroke);
    const state = traced.stroke.states[0].slice();
    const [pose, solved] = [createPose(), createPose()];
    const corner = [-8, 3, 0] as const;
    const radius = Math.hypot(4, 3, 1);
    let largest = 0;
    for (let i = 0; i <= 997; i++) {
      const u = i / 997;
      expect(solve(14 * DEGREE + u * 38 * DEGREE, state)).toBe(true);
      const exact = poseOf(mechanism.linkage, state);
      const q = exact.attitudes.subarray(4 * index, 4 * index + 4);
      // Attitudes are turns about the lateral axis: angle from w and y.
      const pitch = 2 * Math.atan2(q[2], q[0]);
      const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
      solved.rotation.set([c, 0, s, 0, 1, 0, -s, 0, c]);
      solved.translation.set(exact.positions.subarray(3 * index, 3 * index + 3));
      table.poseAt(u, pose);
      const [a, b] = [carried(pose, corner), carried(solved, corner)];
      largest = Math.max(largest, Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]));
    }
    expect(largest).toBeLessThanOrEqual(way + turn * radius);
    expect(way + turn * radius).toBeLessThan(2 * largest);
  });

  it("stays within it of the closed form, socket on the boom and point of the carried aircraft", () => {
    const pose = createPose();
    const check = (
      body: "boom" | "carried",
      drawn: readonly [number, number, number],
      exact: (angle: number) => [number, number],
    ) => {
      const { way, turn } = deviationOf(body);
      const [x, y, z] = references[body];
      const bound = way + turn * Math.hypot(drawn[0] - x, drawn[1] - y, drawn[2] - z);
      for (let i = 0; i <= 1000; i++) {
        tables.get(body)?.poseAt(i / 1000, pose);
        const [fs, , wl] = toStation(carried(pose, drawn));
        const [exactFS, exactWL] = exact((14 + 0.038 * i) * DEGREE);
        expect(Math.hypot(fs - exactFS, wl - exactWL)).toBeLessThanOrEqual(bound + 1e-12);
      }
    };
    check("boom", mechanism.socketDrawn, (angle) => socketAt(NOMINAL, angle));
    const { probeTip } = TRAPEZE;
    check("carried", [-(probeTip[0] + 4), 0, -(probeTip[2] - 0.7)], (angle) => carriedPoint(NOMINAL, angle, [4, -0.7]));
  });

  it("bounds the way of every point", () => {
    const table = bodyTable(traced.poses, mechanism.linkage.bodies.indexOf("boom"), [-13, 0, -1.5]);
    const pose = createPose();
    const tip = mechanism.socketDrawn;
    const radius = Math.hypot(tip[0] + 13, tip[2] + 1.5);
    let [way, last] = [0, carried(pose, tip)];
    for (let i = 0; i <= 2000; i++) {
      table.poseAt(i / 2000, pose);
      const at = carried(pose, tip);
      if (i > 0) way += Math.hypot(at[0] - last[0], at[1] - last[1], at[2] - last[2]);
      last = at;
    }
    expect(way).toBeLessThanOrEqual(table.wayAt(1) + table.turnAt(1) * radius);
    expectClose(way, 5.6 * 38 * DEGREE, { rtol: 1e-5, why: "arc" }, "way of the tip");
    expect(toStation(last)[1]).toBeCloseTo(0, 12);
  });
});

describe("the tolerances", () => {
  const results = toleranceResults(inputs, mechanism, traced, points);
  const deviated: Readonly<Record<string, (x: number) => typeof NOMINAL>> = {
    "yokeHinge FS": (x) => ({ ...NOMINAL, yokeHinge: [NOMINAL.yokeHinge[0] + x, NOMINAL.yokeHinge[1]] }),
    "yokeHinge WL": (x) => ({ ...NOMINAL, yokeHinge: [NOMINAL.yokeHinge[0], NOMINAL.yokeHinge[1] + x] }),
    "boomHinge FS": (x) => ({ ...NOMINAL, boomHinge: [NOMINAL.boomHinge[0] + x, NOMINAL.boomHinge[1]] }),
    "boomHinge WL": (x) => ({ ...NOMINAL, boomHinge: [NOMINAL.boomHinge[0], NOMINAL.boomHinge[1] + x] }),
    "jack.from FS": (x) => ({ ...NOMINAL, jackFrom: [NOMINAL.jackFrom[0] + x, NOMINAL.jackFrom[1]] }),
    "jack.from WL": (x) => ({ ...NOMINAL, jackFrom: [NOMINAL.jackFrom[0], NOMINAL.jackFrom[1] + x] }),
  };

  it.each(Object.keys(deviated))("finds what %s does to the pitch, jack held", (name) => {
    for (const result of results) {
      const nominal = result.boomAngle_deg * DEGREE;
      const length = jackLength(NOMINAL, nominal);
      const pitch = (x: number) => {
        const bar = deviated[name](x);
        return pitchAt(bar, angleAt(bar, length, nominal));
      };
      const slope = (pitch(1e-5) - pitch(-1e-5)) / 2e-5;
      const found = result.contributors.find((one) => one.dimension === name);
      expectClose(
        found?.derivative_deg_mm ?? 0,
        slope / DEGREE / 1e3,
        { rtol: 1e-5, atol: 1e-9, why: "differences of the closed form" },
        `${name} ${result.pose}`,
      );
    }
  });

  it("adds up, ranks, and agrees with sampling where the stack is linear", () => {
    expect(results.map((one) => one.pose)).toEqual(["stowed", "mid", "extended"]);
    for (const { worst_deg, rss_deg, contributors, monteCarlo } of results) {
      const sizes = contributors.map((one) => one.contribution_deg);
      expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
      expectClose(
        worst_deg,
        sizes.reduce((a, b) => a + b, 0),
        { rtol: 1e-12, why: "sum" },
        "worst",
      );
      expectClose(rss_deg, Math.hypot(...sizes), { rtol: 1e-12, why: "root of squares" }, "rss");
      // A tolerance is three standard deviations; 1000 samples know the deviation to 2.2 % (one standard error).
      expectClose(monteCarlo.standardDeviation_deg, rss_deg / 3, { rtol: 0.09, why: "four standard errors" }, "σ");
      expect(monteCarlo.largest_deg).toBeLessThan(worst_deg);
      expect(monteCarlo.notClosed).toBe(0);
    }
    // Near the flat link the same tolerances turn the aircraft much more.
    expect(results[0].rss_deg).toBeGreaterThan(3 * results[2].rss_deg);
  });
});
