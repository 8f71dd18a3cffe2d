import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rockerAngle } from "../../../reference/analytic/four-bar/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import {
  assemble,
  coordinateRate,
  createLinkage,
  driveForce,
  generalisedLoad,
  jointForces,
  type LoadCase,
  pointPosition,
  traceStroke,
  unitMotion,
} from "./index.ts";
import { fourBarLinkage, leverLinkage, sliderCrankLinkage } from "./test-linkages.ts";

const FOUR = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
const four = () => fourBarLinkage(FOUR, 0.7, rockerAngle(FOUR, 0.7, 1));
const number = fc.double({ min: -1000, max: 1000, noNaN: true });

describe("driveForce", () => {
  test("lever: the moment balance about its hinge; a jack that is pressed pushes", () => {
    const linkage = leverLinkage([0, -2, 0], [1.5, 0, 0]);
    const weight: LoadCase = {
      loads: [{ point: { body: "lever", at: [4, 0, 0] }, force: [0, -100, 0], axes: "carrier" }],
    };
    const { state } = assemble(linkage, [{ joint: "A", value: 0 }]);
    // Jack from (0, −2) to (1.5, 0): its arm about the hinge is 1.5·2/2.5 = 1.2; it holds 400 N·m from below.
    expectClose(driveForce(linkage, state, "jack", weight) ?? 0, 400 / 1.2, { rtol: 1e-12, why: "hand calculation" });
    const above = leverLinkage([0, 2, 0], [1.5, 0, 0]);
    expectClose(driveForce(above, above.stated, "jack", weight) ?? 0, -400 / 1.2, {
      rtol: 1e-12,
      why: "hand calculation",
    });
    expectClose(driveForce(linkage, state, "A", weight) ?? 0, 400, { rtol: 1e-12, why: "moment about the hinge" });
  });

  test("there is none at a dead point", () => {
    const linkage = leverLinkage([2, 0, 0], [1, 0, 0]);
    expect(driveForce(linkage, linkage.stated, "jack", {})).toBeUndefined();
  });

  test("is the slope of the potential energy along the stroke", () => {
    const linkage = sliderCrankLinkage(1, 2.6, 0.3, 0.4);
    const masses = [
      { body: "crank", mass: 3, centre: [0.2, 0.4, 0] },
      { body: "rod", mass: 5, centre: [1.4, 0.1, 0.2] },
    ] as const;
    const loadCase: LoadCase = { masses, gravity: [1, -9, 2] };
    const energy = (state: Float64Array) =>
      -masses.reduce((sum, { body, mass, centre }) => {
        const [x, y, z] = pointPosition(linkage, state, { body, at: centre });
        return sum + mass * (x - 9 * y + 2 * z);
      }, 0);
    for (const at of [0.6, 1.3, 2.2, 4]) {
      const h = 1e-3;
      const { states } = traceStroke(linkage, { along: "A", values: [-2, -1, 0, 1, 2].map((k) => at + k * h) });
      const e = states.map(energy);
      const slope = (e[0] - 8 * e[1] + 8 * e[3] - e[4]) / (12 * h);
      const why = "differences of order four, step 1e-3";
      expectClose(driveForce(linkage, states[2], "A", loadCase) ?? 0, slope, { rtol: 1e-9, atol: 1e-9, why });
      // By the slider instead: the same work over another travel.
      const motion = unitMotion(linkage, states[2], ["A"], "A");
      if (motion === undefined) throw new Error("dead point");
      const travel = coordinateRate(linkage, states[2], motion, "guide");
      expectClose(driveForce(linkage, states[2], "guide", loadCase) ?? 0, slope / travel, {
        rtol: 1e-8,
        atol: 1e-8,
        why,
      });
    }
  });

  test("a force in body axes turns with the body", () => {
    const linkage = leverLinkage([0, -2, 0], [1.5, 0, 0]);
    const { state } = assemble(linkage, [{ joint: "A", value: 0.6 }]);
    const follower: LoadCase = {
      loads: [{ point: { body: "lever", at: [4, 0, 0] }, force: [3, -100, 0], axes: "body" }],
    };
    expectClose(driveForce(linkage, state, "A", follower) ?? 0, 400, { rtol: 1e-12, why: "moment arm 4 in body axes" });
    const pure: LoadCase = {
      loads: [{ point: { body: "lever", at: [4, 0, 0] }, force: [0, 0, 0], moment: [0, 0, 7], axes: "carrier" }],
    };
    expectClose(driveForce(linkage, state, "A", pure) ?? 0, -7, { rtol: 1e-12, why: "moment on the lever" });
  });
});

describe("jointForces", () => {
  test("lever: force balance, all determinate, drive as by virtual work", () => {
    const linkage = leverLinkage([0, -2, 0], [1.5, 0, 0]);
    const weight: LoadCase = {
      loads: [{ point: { body: "lever", at: [4, 0, 0.5] }, force: [0, -100, 0], axes: "carrier" }],
    };
    const found = jointForces(linkage, linkage.stated, ["jack"], weight);
    if (found.outcome !== "balanced") throw new Error(found.outcome);
    expect(found.determinate).toBe(true);
    const push = 400 / 1.2;
    expectClose(found.drives[0].force, push, { rtol: 1e-12, why: "hand calculation" });
    const [hinge] = found.joints;
    expectAllClose(hinge.f_onSecond_byFirst, [-0.6 * push, 100 - 0.8 * push, 0], {
      atol: 1e-10,
      why: "hand calculation",
    });
    // The load stands 0.5 beside the plane: −100·(0.5) about x is taken by the hinge.
    expectAllClose(hinge.m_onSecond_byFirst, [-50, 0, 0], { atol: 1e-10, why: "hand calculation" });
    expect(found.joints.length).toBe(1);
  });

  test("every body is in balance, whatever the load, and ideal joints do no work", () => {
    const linkage = four();
    const { state } = assemble(linkage, [{ joint: "A", value: 1.2 }]);
    const motion = unitMotion(linkage, state, ["A"], "A");
    if (motion === undefined) throw new Error("dead point");
    fc.assert(
      fc.property(fc.array(number, { minLength: 12, maxLength: 12 }), (v) => {
        const loadCase: LoadCase = {
          loads: [
            {
              point: { body: "coupler", at: [1, 2, 0.3] },
              force: [v[0], v[1], v[2]],
              moment: [v[3], v[4], v[5]],
              axes: "carrier",
            },
            {
              point: { body: "rocker", at: [3, 1, -1] },
              force: [v[6], v[7], v[8]],
              moment: [v[9], v[10], v[11]],
              axes: "body",
            },
          ],
        };
        const found = jointForces(linkage, state, ["A"], loadCase);
        if (found.outcome !== "balanced") throw new Error(found.outcome);
        const total = generalisedLoad(linkage, state, loadCase);
        const joints = found.joints.map(({ joint, f_onSecond_byFirst: f, m_onSecond_byFirst: m }): LoadCase => {
          const [first, second] = {
            A: ["carrier", "crank"],
            "crank pin": ["crank", "coupler"],
            "rocker pin": ["coupler", "rocker"],
            B: ["carrier", "rocker"],
          }[joint] ?? ["", ""];
          expect([first, second]).not.toContain("");
          const load = (on: "first" | "second", sign: number) => ({
            point: { joint, on },
            force: [sign * f[0], sign * f[1], sign * f[2]] as const,
            moment: [sign * m[0], sign * m[1], sign * m[2]] as const,
            axes: "carrier" as const,
          });
          return { loads: [load("second", 1), load("first", -1)] };
        });
        let workOfJoints = 0;
        for (const one of joints) {
          const q = generalisedLoad(linkage, state, one);
          for (let k = 0; k < q.length; k++) {
            total[k] += q[k];
            workOfJoints += q[k] * motion[k];
          }
        }
        const drive = {
          point: { body: "crank", at: [0, 0, 0] },
          force: [0, 0, 0],
          moment: [0, 0, found.drives[0].force],
          axes: "carrier",
        } as const;
        generalisedLoad(linkage, state, { loads: [drive] }).forEach((value, k) => {
          total[k] += value;
        });
        expectAllClose(total, new Float64Array(18), { atol: 1e-8, why: "rounding of loads up to 1000" });
        expectClose(workOfJoints, 0, { atol: 1e-8, why: "rounding of loads up to 1000" });
        expectClose(found.drives[0].force, driveForce(linkage, state, "A", loadCase) ?? 0, {
          atol: 1e-8,
          why: "rounding",
        });
      }),
      { numRuns: 30 },
    );
  });

  test("redundant hinges: forces in the plane are determinate, across it they are not", () => {
    const linkage = four();
    const { state } = assemble(linkage, [{ joint: "A", value: 1.2 }]);
    const found = jointForces(linkage, state, ["A"], {
      loads: [{ point: { body: "coupler", at: [1, 2, 0] }, force: [10, -20, 0], axes: "carrier" }],
    });
    if (found.outcome !== "balanced") throw new Error(found.outcome);
    expect(found.determinate).toBe(false);
    for (const joint of found.joints) expect(joint.determinate).toEqual([true, true, false, false, false, true]);
  });

  test("rods carry force along themselves", () => {
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "plate" }],
      joints: [
        { kind: "ball", name: "S", first: "carrier", second: "plate", pointOnFirst: [0, 0, 0] },
        {
          kind: "hinge",
          name: "never",
          first: "carrier",
          second: "plate",
          pointOnFirst: [0, 0, 0],
          axisOnFirst: [0, 0, 1],
        },
        {
          kind: "rod",
          name: "R",
          first: "carrier",
          second: "plate",
          pointOnFirst: [2, 3, 0],
          pointOnSecond: [2, 0, 0],
          length: 3,
        },
      ],
    });
    const found = jointForces(linkage, linkage.stated, [], {
      loads: [{ point: { body: "plate", at: [4, 0, 0] }, force: [0, -50, 0], axes: "carrier" }],
    });
    if (found.outcome !== "balanced") throw new Error(found.outcome);
    const rod = found.joints.find(({ joint }) => joint === "R");
    expectAllClose(rod?.f_onSecond_byFirst ?? [], [0, 100, 0], { atol: 1e-10, why: "moments about S" });
    // The hinge repeats the ball: their shares are not known.
    expect(found.joints.find(({ joint }) => joint === "S")?.determinate).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
    expect(rod?.determinate).toEqual([true, true, true, true, true, true]);
  });

  test("a load along a free motion is not held", () => {
    const linkage = leverLinkage([0, -2, 0], [1.5, 0, 0]);
    const load: LoadCase = {
      loads: [{ point: { body: "lever", at: [4, 0, 0] }, force: [0, -100, 0], axes: "carrier" }],
    };
    expect(jointForces(linkage, linkage.stated, [], load).outcome).toBe("not held");
    const along: LoadCase = {
      loads: [{ point: { body: "lever", at: [4, 0, 0] }, force: [-100, 0, 0], axes: "carrier" }],
    };
    expect(jointForces(linkage, linkage.stated, [], along).outcome).toBe("balanced");
    expect(() =>
      generalisedLoad(linkage, linkage.stated, { masses: [{ body: "lever", mass: Number.NaN, centre: [0, 0, 0] }] }),
    ).toThrow("mass on lever is NaN");
  });
});
