import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rockerAngle } from "../../../reference/analytic/four-bar/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { quaternionFromRotationVector, rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { assemble, coordinateAt, createLinkage, type JointSpec, pointPosition, poseOf, type Vector3 } from "./index.ts";
import { motionBetween, moveState } from "./place.ts";
import { createWork, settle } from "./settle.ts";
import { fourBarLinkage, sliderCrankLinkage } from "./test-linkages.ts";

const BAR = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
const START = 0.7;
const unit = fc.double({ min: -1, max: 1, noNaN: true });

function rigidMotion(turn: Vector3, shift: Vector3) {
  const q = new Float64Array(4);
  const matrix = new Float64Array(9);
  quaternionFromRotationVector(...turn, q, 0);
  rotationMatrix(q, 0, matrix);
  const rotate = (v: Vector3): Vector3 => {
    const out = new Float64Array(3);
    rotateToParent(matrix, Float64Array.from(v), 0, out, 0);
    return [out[0], out[1], out[2]];
  };
  return { rotate, move: (p: Vector3): Vector3 => rotate(p).map((x, k) => x + shift[k]) as unknown as Vector3 };
}

describe("assemble", () => {
  test("closes to below 1e-12 m, redundant hinges and all", () => {
    const linkage = fourBarLinkage(BAR, START, rockerAngle(BAR, START, 1));
    fc.assert(
      fc.property(fc.double({ min: -1.2, max: 2.5, noNaN: true }), (alpha) => {
        const found = assemble(linkage, [{ joint: "A", value: alpha }]);
        if (found.outcome !== "assembled") throw new Error(found.outcome);
        expect(found.residual).toBeLessThan(1e-12);
        expect(found.freedoms).toBe(0);
        expect(found.redundant).toBe(3);
        expect(found.smallestSingularValue).toBeGreaterThan(0.05);
      }),
    );
  });

  test("does not depend on where and how the drawing lies", () => {
    const beta = rockerAngle(BAR, START, 1);
    fc.assert(
      fc.property(
        fc.tuple(unit, unit, unit),
        fc.tuple(unit, unit, unit),
        fc.double({ min: -1, max: 2, noNaN: true }),
        (turn, shift, alpha) => {
          const { rotate, move } = rigidMotion(
            turn.map((x) => 3 * x) as unknown as Vector3,
            shift.map((x) => 30 * x) as unknown as Vector3,
          );
          const plain = fourBarLinkage(BAR, START, beta);
          const moved = fourBarLinkage(BAR, START, beta, move, rotate);
          const here = assemble(plain, [{ joint: "A", value: alpha }]);
          const there = assemble(moved, [{ joint: "A", value: alpha }]);
          expect(there.outcome).toBe("assembled");
          const pin = (found: typeof here, of: typeof plain) =>
            pointPosition(of, found.state, { joint: "rocker pin", on: "second" });
          const [x, y, z] = pin(here, plain);
          expectAllClose(pin(there, moved), move([x, y, z]), {
            atol: 1e-11,
            why: "rounding of coordinates up to 50 m",
          });
          expectClose(coordinateAt(moved, there.state, "B"), coordinateAt(plain, here.state, "B"), {
            atol: 1e-11,
            why: "as above",
          });
          if (here.outcome !== "assembled" || there.outcome !== "assembled") return;
          expect(there.residual).toBeLessThan(4e-12);
          expectClose(there.smallestSingularValue, here.smallestSingularValue, {
            rtol: 1e-5,
            why: "inverse iteration",
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  test("a body may have its origin and axes anywhere", () => {
    const spec = (position: Vector3, attitude: readonly [number, number, number, number]) => {
      const q = Float64Array.from(attitude);
      const matrix = new Float64Array(9);
      rotationMatrix(q, 0, matrix);
      const inBody = (p: Vector3): Vector3 => {
        const d = p.map((x, k) => x - position[k]);
        return [0, 1, 2].map(
          (k) => matrix[k] * d[0] + matrix[3 + k] * d[1] + matrix[6 + k] * d[2],
        ) as unknown as Vector3;
      };
      return createLinkage({
        fixed: "carrier",
        bodies: [{ name: "lever", position, attitude }],
        joints: [
          {
            kind: "hinge",
            name: "A",
            first: "carrier",
            second: "lever",
            pointOnFirst: [1, 0, 0],
            axisOnFirst: [0, 1, 0],
          },
          {
            kind: "jack",
            name: "jack",
            first: "carrier",
            second: "lever",
            pointOnFirst: [2, 0, 2],
            pointOnSecond: inBody([3, 0.3, 0.2]),
          },
        ],
      });
    };
    const plain = spec([0, 0, 0], [1, 0, 0, 0]);
    const other = spec([-40, 7, 3], [0.5, 0.5, -0.5, 0.5]);
    const [a, b] = [plain, other].map((linkage) => {
      const found = assemble(linkage, [{ joint: "jack", value: 1.5 }]);
      expect(found.outcome).toBe("assembled");
      return coordinateAt(linkage, found.state, "A");
    });
    expectClose(a, b, { atol: 1e-12, why: "rounding" });
    const pose = poseOf(other, other.stated);
    expectAllClose(pose.positions.slice(3), [-40, 7, 3], { atol: 1e-13, why: "rounding" });
    expectAllClose(pose.attitudes.slice(4), [0.5, 0.5, -0.5, 0.5], { atol: 1e-15, why: "rounding" });
  });

  test("what cannot close says by how much and where", () => {
    const linkage = fourBarLinkage(BAR, START, rockerAngle(BAR, START, 1));
    const joints: JointSpec[] = [
      {
        kind: "ball",
        name: "one",
        first: "carrier",
        second: "link",
        pointOnFirst: [0, 0, 0],
        pointOnSecond: [0, 0, 0],
      },
      {
        kind: "ball",
        name: "two",
        first: "carrier",
        second: "link",
        pointOnFirst: [3, 0, 0],
        pointOnSecond: [2, 0, 0],
      },
    ];
    const apart = createLinkage({ fixed: "carrier", bodies: [{ name: "link" }], joints });
    const found = assemble(apart, []);
    if (found.outcome !== "does not close") throw new Error(found.outcome);
    // Least squares share the metre that is missing between two equal gaps.
    expectClose(found.residual, 0.5, { atol: 1e-9, why: "closed form" });
    expect(["one", "two"]).toContain(found.worstJoint);
    expect(found.reason).toBe("gap");
    const long = assemble(sliderCrankLinkage(1, 3, 0, 0.4), [{ joint: "guide", value: 4.5 }]);
    expect(long.outcome).toBe("does not close");
    expect(assemble(linkage, [{ joint: "A", value: 0 }]).outcome).toBe("assembled");
  });

  test("axes that oppose each other are no assembly", () => {
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "lever" }],
      joints: [
        {
          kind: "hinge",
          name: "A",
          first: "carrier",
          second: "lever",
          pointOnFirst: [0, 0, 0],
          axisOnFirst: [0, 0, 1],
          axisOnSecond: [0, 0, -1],
        },
      ],
    });
    const found = assemble(linkage, []);
    expect(found).toMatchObject({ outcome: "does not close", reason: "turned over", worstJoint: "A" });
  });

  test("an exact assembly needs no step and a far guess still finds it", () => {
    const linkage = sliderCrankLinkage(1, 3, 0.2, 0.4);
    const work = createWork(linkage, []);
    const state = linkage.stated.slice();
    expect(settle(work, state)).toBe(true);
    expect(work.iterations).toBe(0);
    const motion = Float64Array.from({ length: 18 }, (_, k) => 0.4 * Math.sin(3 * k + 1));
    moveState(linkage, linkage.stated, motion, 1, state);
    expect(settle(work, state)).toBe(true);
    expect(work.residual).toBeLessThan(1e-12);
  });
});

describe("motions of states", () => {
  test("motionBetween is the inverse of moveState", () => {
    const linkage = sliderCrankLinkage(1, 3, 0.2, 0.4);
    fc.assert(
      fc.property(fc.array(unit, { minLength: 18, maxLength: 18 }), (parts) => {
        // Turns times ℓ of at most √3 ℓ: below half a circle.
        const motion = Float64Array.from(parts, (x) => x * linkage.size);
        const to = new Float64Array(linkage.stated.length);
        const back = new Float64Array(18);
        moveState(linkage, linkage.stated, motion, 1, to);
        motionBetween(linkage, linkage.stated, to, back);
        expectAllClose(back, motion, { atol: 1e-12, why: "rounding" });
      }),
    );
  });
});

describe("freedoms of each joint between one body and the carrier", () => {
  const common = { name: "J", first: "carrier", second: "body" } as const;
  const point = { pointOnFirst: [0.3, -0.2, 0.7] as Vector3, pointOnSecond: [1, 0.5, -0.4] as Vector3 };
  const axis = { axisOnFirst: [1, 2, -1] as Vector3, axisOnSecond: [0, 1, 1] as Vector3 };
  const side = { sideOnFirst: [0, 1, 0] as Vector3, sideOnSecond: [1, 0, 0] as Vector3 };
  const cases: [JointSpec, number][] = [
    [{ ...common, ...point, kind: "ball" }, 3],
    [{ ...common, ...point, ...axis, kind: "hinge" }, 1],
    [{ ...common, ...point, ...axis, kind: "cylindrical" }, 2],
    [{ ...common, ...point, ...axis, ...side, kind: "slider" }, 1],
    [{ ...common, ...point, ...axis, kind: "planar" }, 3],
    [{ ...common, ...point, ...axis, ...side, kind: "fixed" }, 0],
    [{ ...common, ...axis, ...side, kind: "attitude" }, 3],
    [{ ...common, ...point, kind: "rod", length: 0.8 }, 5],
    [{ ...common, ...point, kind: "jack" }, 6],
  ];
  test.each(cases)("%o leaves %d", (joint, freedoms) => {
    const linkage = createLinkage({ fixed: "carrier", bodies: [{ name: "body" }], joints: [joint] });
    // A guess within a quarter turn of the assembly; the relative attitude of the axes is solved for.
    const found = assemble(linkage, []);
    if (found.outcome !== "assembled") throw new Error(`${found.outcome} ${found.reason}`);
    expect(found.freedoms).toBe(freedoms);
    expect(found.redundant).toBe(0);
  });

  test("a cylindrical joint slides and turns, a slider only slides, along the first's axis", () => {
    for (const kind of ["cylindrical", "slider"] as const) {
      const joint: JointSpec = { ...common, ...point, axisOnFirst: [0, 0, 2], kind };
      const linkage = createLinkage({ fixed: "carrier", bodies: [{ name: "body" }], joints: [joint] });
      const found = assemble(linkage, [{ joint: "J", value: 1.25 }]);
      expect(found.outcome).toBe("assembled");
      const at = pointPosition(linkage, found.state, { joint: "J", on: "second" });
      expectAllClose(at, [0.3, -0.2, 1.95], { atol: 1e-12, why: "rounding" });
    }
  });
});

describe("createLinkage refuses", () => {
  const hinge = {
    kind: "hinge",
    name: "A",
    first: "carrier",
    second: "lever",
    pointOnFirst: [0, 0, 0],
    axisOnFirst: [0, 0, 1],
  } as const;
  const make = (...joints: JointSpec[]) => createLinkage({ fixed: "carrier", bodies: [{ name: "lever" }], joints });
  test.each<[string, () => unknown, string]>([
    ["an unknown body", () => make({ ...hinge, second: "boom" }), "body of joint A is boom; allowed: carrier, lever"],
    ["a name given twice", () => make(hinge, hinge), "joint name is A"],
    ["a joint of a body with itself", () => make({ ...hinge, second: "carrier" }), "second body of joint A"],
    ["an axis of no length", () => make({ ...hinge, axisOnFirst: [0, 0, 0] }), "axis of A"],
    ["a side along the axis", () => make({ ...hinge, sideOnFirst: [0, 0, 3] }), "side of A"],
    ["NaN", () => make({ ...hinge, pointOnFirst: [0, Number.NaN, 0] }), "point on first of A is NaN"],
    [
      "a rod of no length",
      () =>
        make({
          kind: "rod",
          name: "R",
          first: "carrier",
          second: "lever",
          pointOnFirst: [0, 0, 0],
          pointOnSecond: [1, 0, 0],
          length: 0,
        }),
      "length of R",
    ],
    ["no moving body", () => createLinkage({ fixed: "carrier", bodies: [], joints: [] }), "number of moving bodies"],
    ["a drive of an unknown joint", () => assemble(make(hinge), [{ joint: "B", value: 1 }]), "joint is B"],
    [
      "a drive twice",
      () =>
        assemble(make(hinge), [
          { joint: "A", value: 1 },
          { joint: "A", value: 2 },
        ]),
      "driven joint is A",
    ],
    [
      "a drive that is not finite",
      () => assemble(make(hinge), [{ joint: "A", value: Number.NaN }]),
      "drive of A is NaN",
    ],
  ])("%s", (_, make_, message) => {
    expect(make_).toThrow(DomainError);
    expect(make_).toThrow(message);
  });
});
