import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { hookedPair, linearise } from "../bodies/index.ts";
import {
  type AirLoad,
  type AirState,
  type CoefficientTables,
  type Controls,
  derivativeModel,
  localDerivatives,
  tableModel,
} from "./index.ts";

const range = (from: number, to: number, n: number) =>
  Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1));
const ALPHA = range(-0.2, 0.4, 61);
const BETA = range(-0.3, 0.3, 3);
const DEFLECTION = [-0.5, 0, 0.5];
const ZERO = { CL: 0, CD: 0, CY: 0, Cl: 0, Cm: 0, Cn: 0 };

/** The demo's derivative set as tables: linear coefficients, so that the tables hold them exactly, drag but for its curvature. */
function tables(change: Partial<CoefficientTables> = {}): CoefficientTables {
  const d = longshore().derivatives;
  const polar = d.drag as { zeroLift: number; efficiency: number };
  const induced = 1 / (Math.PI * (d.span ** 2 / d.area) * polar.efficiency);
  const still = (of: (alpha: number, beta: number) => number) => ALPHA.flatMap((a) => BETA.map((b) => of(a, b)));
  const lift = (a: number) => d.lift.atReference + d.lift.alpha * a;
  const control = (own: Partial<typeof ZERO>) => ({
    axes: { alpha: [0], deflection: DEFLECTION },
    values: Object.fromEntries(
      Object.keys(ZERO).map((key) => [key, DEFLECTION.map((x) => x * (own[key as keyof typeof ZERO] ?? 0))]),
    ) as Record<keyof typeof ZERO, number[]>,
  });
  return {
    still: {
      axes: { alpha: ALPHA, beta: BETA, mach: [0.3] },
      values: {
        CL: still((a) => lift(a)),
        CD: still((a) => polar.zeroLift + induced * lift(a) ** 2),
        CY: still((_, b) => d.side.beta * b),
        Cl: still((_, b) => d.roll.beta * b),
        Cm: still((a) => d.pitch.atReference + d.pitch.alpha * a),
        Cn: still((_, b) => d.yaw.beta * b),
      },
    },
    elevator: control({ CL: d.lift.elevator, Cm: d.pitch.elevator }),
    aileron: control({ CY: d.side.aileron, Cl: d.roll.aileron, Cn: d.yaw.aileron }),
    rudder: control({ CY: d.side.rudder, Cl: d.roll.rudder, Cn: d.yaw.rudder }),
    rates: {
      axes: { alpha: [0], mach: [0.3] },
      values: {
        ...{ CLq: [d.lift.pitchRate], CLalphadot: [d.lift.alphaRate] },
        ...{ Cmq: [d.pitch.pitchRate], Cmalphadot: [d.pitch.alphaRate] },
        ...{ CYp: [d.side.rollRate], CYr: [d.side.yawRate], Clp: [d.roll.rollRate], Clr: [d.roll.yawRate] },
        ...{ Cnp: [d.yaw.rollRate], Cnr: [d.yaw.yawRate] },
      },
    },
    beyond: "linear",
    ...change,
  };
}

const AIR: AirState = { u: 108, v: 4, w: 9, p: 0.1, q: -0.2, r: 0.3, density: 0.9, soundSpeed: 328 };
const CONTROLS: Controls = { elevator: 0, aileron: 0.1, rudder: -0.05, thrust: 500 };
const loadOf = (
  model: { evaluate: (air: AirState, controls: Controls, out: AirLoad) => void },
  air = AIR,
  controls = CONTROLS,
) => {
  const out: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  model.evaluate(air, controls, out);
  return out;
};

describe("coefficient tables", () => {
  const set = longshore().derivatives;

  it("give the load of the derivatives that they were filled with", () => {
    const [of, at] = [loadOf(derivativeModel(set)), loadOf(tableModel(set, tables()))];
    expectAllClose(at.load, of.load, { rtol: 1e-4, atol: 0.5, why: "curvature of the drag polar between nodes" });
    expectAllClose(at.perAcceleration, of.perAcceleration, { rtol: 1e-12, atol: 1e-12, why: "same terms" });
  });

  it("give the trim and the modes of those derivatives in the one equation set", () => {
    // the polar's drag on elevator lift is in no table of increments, so leave the elevator without lift
    const derivatives = { lift: { ...set.lift, elevator: 0 } };
    const own = tables();
    const noLift = { ...own.elevator, values: { ...own.elevator.values, CL: [0, 0, 0] } };
    const by = longshore({ derivatives });
    const [a, b] = [by, { ...by, airloads: tableModel(by.derivatives, tables({ elevator: noLift })) }].map(
      (settings) => {
        const pair = hookedPair(settings);
        return { pair, linear: linearise(pair.motion, pair.state) };
      },
    );
    expectClose(b.pair.trim.alpha, a.pair.trim.alpha, { rtol: 1e-9, why: "same lift" });
    const scale = Math.max(...a.linear.matrix.map(Math.abs));
    expectAllClose(b.linear.matrix, a.linear.matrix, { atol: 2e-5 * scale, why: "drag between nodes" });
  });

  it("are taken apart into the derivatives that a set was made of", () => {
    const air = { ...AIR, v: 0, p: 0, q: 0, r: 0 };
    const found = localDerivatives(derivativeModel({ ...set, referencePoint: [0, 0, 0] }), air, {
      ...CONTROLS,
      elevator: 0.1,
    });
    const same = { rtol: 1e-9, atol: 1e-10, why: "differences of straight lines" };
    expectClose(found.CLalpha, set.lift.alpha, same);
    expectClose(found.Cmalpha, set.pitch.alpha, same);
    expectClose(found.CYbeta, set.side.beta, same);
    expectClose(found.Clbeta, set.roll.beta, same);
    expectClose(found.Cnbeta, set.yaw.beta, same);
    expectClose(found.CLelevator, set.lift.elevator, same);
    expectClose(found.Cmelevator, set.pitch.elevator, same);
    expectClose(found.Claileron, set.roll.aileron, same);
    expectClose(found.Cnrudder, set.yaw.rudder, same);
    expectClose(found.CLmach, 0, { atol: 1e-9, why: "one Mach number" });
    const polar = 2 * found.CL * set.lift.alpha;
    const induced = 1 / (Math.PI * (set.span ** 2 / set.area) * 0.8);
    expectClose(found.CDalpha, polar * induced, { rtol: 1e-6, why: "parabola" });
  });

  it("follow the Mach number and the place below the carrier", () => {
    const base = tables();
    const fast = {
      axes: { ...base.still.axes, mach: [0.2, 0.4] },
      values: Object.fromEntries(
        Object.entries(base.still.values).map(([key, values]) => [
          key,
          Array.from(values).flatMap((value) => [value, key === "CL" ? value + 0.1 : value]),
        ]),
      ) as unknown as typeof base.still.values,
    };
    const near = {
      axes: { alpha: [0], aft: [0], below: [0, 4] },
      values: { CL: [-0.2, 0], CD: [0, 0], CY: [0, 0], Cl: [0, 0], Cm: [0.03, 0], Cn: [0, 0] },
    };
    const model = tableModel({ ...set, referencePoint: [0, 0, 0] }, tables({ still: fast, near }));
    const still = { ...AIR, p: 0, q: 0, r: 0 };
    const at = (change: Partial<AirState>) => {
      loadOf(model, { ...still, ...change });
      return { ...model.stillCoefficients, inside: model.inside };
    };
    const mach = Math.hypot(108, 4, 9) / 328;
    const [alone, close, far] = [at({}), at({ aft: 3, below: 1 }), at({ aft: 3, below: 4 })];
    expectClose(close.lift - alone.lift, -0.15, { rtol: 1e-12, why: "straight line in height" });
    expectClose(close.pitch - alone.pitch, 0.0225, { rtol: 1e-12, why: "straight line in height" });
    expectClose(far.lift, alone.lift, { rtol: 1e-14, why: "increment ends" });
    expect(close.inside).toBe(true);
    expect(at({ aft: 3, below: 5 }).inside).toBe(false);
    const slower = at({ soundSpeed: 328 * 1.1 });
    expectClose(alone.lift - slower.lift, (0.1 * (mach - mach / 1.1)) / 0.2, {
      rtol: 1e-9,
      why: "straight line in Mach",
    });
  });

  it("say when a state lies beyond them, and go on as they were told", () => {
    const hold = tableModel(set, tables({ beyond: "hold" }));
    const steep = { ...AIR, v: 0, w: 70, p: 0, q: 0, r: 0 };
    loadOf(hold, steep);
    expect(hold.inside).toBe(false);
    expectClose(hold.stillCoefficients.lift, set.lift.atReference + set.lift.alpha * 0.4, {
      rtol: 1e-12,
      why: "end value",
    });
    const straight = tableModel(set, tables());
    loadOf(straight, steep);
    const alpha = straight.alpha;
    expectClose(straight.stillCoefficients.lift, set.lift.atReference + set.lift.alpha * alpha, {
      rtol: 1e-9,
      why: "line",
    });
    loadOf(straight);
    expect(straight.inside).toBe(true);
  });

  it("are mirrored: sideslip and lateral controls the other way give the lateral load the other way", () => {
    const model = tableModel(set, tables());
    const [right, left] = [
      loadOf(model),
      loadOf(model, { ...AIR, v: -4, p: -0.1, r: -0.3 }, { ...CONTROLS, aileron: -0.1, rudder: 0.05 }),
    ];
    const sign = [1, -1, 1, -1, 1, -1];
    expectAllClose(
      left.load,
      right.load.map((value, i) => sign[i] * value),
      { rtol: 1e-10, atol: 1e-6, why: "mirror" },
    );
  });
});
