import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { testPair } from "../../../test/support/hookon-pair.ts";
import { noAir } from "../../../test/support/vacuum.ts";
import { type AirLoad, derivativeModel, tableModel } from "../airloads/index.ts";
import { motionDerivatives } from "./airload-parameters.ts";

const pair = testPair();
const set = (pair.airloads as ReturnType<typeof derivativeModel>).set;

/** Tables that hold the polynomials of the derivative set, finely in α. */
function tables() {
  const alphas = Array.from({ length: 121 }, (_, i) => -0.2 + 0.005 * i);
  const betas = [-0.1, 0, 0.1];
  const grid = (of: (alpha: number, beta: number) => number): number[] =>
    alphas.flatMap((alpha) => betas.map((beta) => of(alpha, beta)));
  const drag = set.drag as Extract<typeof set.drag, { kind: "parabolic" }>;
  const induced = 1 / (Math.PI * (set.span ** 2 / set.area) * drag.efficiency);
  const lift = (a: number): number => set.lift.atReference + set.lift.alpha * a;
  const deflections = [-0.3, 0.3];
  const control = (slopes: Partial<Record<"CL" | "CD" | "CY" | "Cl" | "Cm" | "Cn", number>>) => ({
    axes: { alpha: [0], deflection: deflections },
    values: Object.fromEntries(
      (["CL", "CD", "CY", "Cl", "Cm", "Cn"] as const).map((key) => [
        key,
        deflections.map((d) => d * (slopes[key] ?? 0)),
      ]),
    ) as Record<"CL" | "CD" | "CY" | "Cl" | "Cm" | "Cn", number[]>,
  });
  const { side, roll, yaw } = set;
  return {
    still: {
      axes: { alpha: alphas, beta: betas, mach: [0.3] },
      values: {
        ...{ CL: grid((a) => lift(a)), CD: grid((a) => drag.zeroLift + induced * lift(a) ** 2) },
        ...{ CY: grid((_, b) => side.beta * b), Cl: grid((_, b) => roll.beta * b), Cn: grid((_, b) => yaw.beta * b) },
        Cm: grid((a) => set.pitch.atReference + set.pitch.alpha * a),
      },
    },
    elevator: control({ CL: set.lift.elevator, Cm: set.pitch.elevator }),
    aileron: control({ Cl: roll.aileron, Cn: yaw.aileron, CY: side.aileron }),
    rudder: control({ Cl: roll.rudder, Cn: yaw.rudder, CY: side.rudder }),
    rates: {
      axes: { alpha: [0], mach: [0.3] },
      values: {
        ...{ CLq: [set.lift.pitchRate], CLalphadot: [set.lift.alphaRate] },
        ...{ Cmq: [set.pitch.pitchRate], Cmalphadot: [set.pitch.alphaRate] },
        ...{ CYp: [side.rollRate], CYr: [side.yawRate], Clp: [roll.rollRate], Clr: [roll.yawRate] },
        ...{ Cnp: [yaw.rollRate], Cnr: [yaw.yawRate] },
      },
    },
    beyond: "hold" as const,
  };
}

describe("motionDerivatives", () => {
  it("takes a derivative set as it is, without an assumption", () => {
    expect(motionDerivatives(pair.airloads, pair)).toEqual({ set, assumptions: [] });
  });

  it("takes tables by their slopes at trim and says so: the same load there and beside it", () => {
    const model = tableModel(set, tables());
    const { set: local, assumptions } = motionDerivatives(model, pair);
    expect(assumptions.join()).toContain("slopes of the tables at trim");
    const [own, other]: AirLoad[] = [0, 1].map(() => ({
      load: new Float64Array(6),
      perAcceleration: new Float64Array(36),
    }));
    const { trueAirspeed: V, density, soundSpeed } = pair.air;
    for (const [alpha, beta, q] of [
      [0, 0, 0],
      [0.01, 0.01, 0.1],
    ]) {
      const a = pair.trim.alpha + alpha;
      const air = { u: V * Math.cos(a), v: V * beta, w: V * Math.sin(a), p: 0.1, q, r: -0.1, density, soundSpeed };
      model.evaluate(air, pair.trim.controls, own);
      derivativeModel(local).evaluate(air, pair.trim.controls, other);
      own.load.forEach((value, i) => {
        expectClose(
          other.load[i],
          value,
          { rtol: 2e-3, atol: 20, why: "parabola of the drag, bends of the table" },
          `${i}`,
        );
      });
      own.perAcceleration.forEach((value, i) => {
        expectClose(other.perAcceleration[i], value, { rtol: 1e-6, atol: 1e-6, why: "the same derivatives" });
      });
    }
  });

  it("refuses a model without coefficients", () => {
    expect(() => motionDerivatives(noAir, pair)).toThrow("derivatives or tables");
  });
});
