import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { type Longshore, longshore } from "../../../test/support/longshore.ts";
import { linearPair, rootsOf } from "../../../test/validation/hooked-support.ts";
import { type BodyVector, derivativeModel } from "../airloads/index.ts";
import { type Similitude, similitude } from "./index.ts";

const MASS = { mass: 1, length: 0, time: 0 };
const LENGTH = { mass: 0, length: 1, time: 0 };
const INERTIA = { mass: 1, length: 2, time: 0 };
const STIFFNESS = { mass: 1, length: 0, time: -2 };
const BLEED = { mass: 1, length: 0, time: -1 };
const SPEED = { mass: 0, length: 1, time: -1 };

/** The same pair as a model: every dimensional setting by its factor. */
function scaled(full: Longshore, like: Similitude): Longshore {
  const by = like.factor;
  const arm = (p: readonly [number, number, number]): BodyVector => [
    p[0] * by(LENGTH),
    p[1] * by(LENGTH),
    p[2] * by(LENGTH),
  ];
  const { mass, boom, derivatives: d, air } = full;
  const inertia = by(INERTIA);
  const derivatives = {
    ...d,
    area: d.area * by(LENGTH) ** 2,
    span: d.span * by(LENGTH),
    chord: d.chord * by(LENGTH),
    referencePoint: arm(d.referencePoint),
    thrust: { ...d.thrust, point: arm(d.thrust.point) },
  };
  return {
    ...full,
    derivatives,
    airloads: derivativeModel(derivatives),
    mass: {
      mass: mass.mass * by(MASS),
      ...{ Ixx: mass.Ixx * inertia, Iyy: mass.Iyy * inertia, Izz: mass.Izz * inertia },
      ...{ Ixz: mass.Ixz * inertia, Ixy: mass.Ixy * inertia, Iyz: mass.Iyz * inertia },
    },
    probe: arm(full.probe),
    air: { ...air, density: air.density * like.density, trueAirspeed: air.trueAirspeed * by(SPEED) },
    boom: {
      ...boom,
      length: boom.length * by(LENGTH),
      ...{ axial: boom.axial * by(STIFFNESS), lateral: boom.lateral * by(STIFFNESS) },
      ...{ bending: boom.bending * by(STIFFNESS), accumulator: boom.accumulator * by(STIFFNESS) },
      snubber: boom.snubber * by(BLEED),
      effectiveTipMass: boom.effectiveTipMass * by(MASS),
      ownMass: boom.ownMass * by(MASS),
      ownCentre: boom.ownCentre * by(LENGTH),
    },
  };
}

describe("a dynamically similar model", () => {
  const like = similitude({ length: 0.2, density: 1.225 / 0.9091 });
  const full = longshore({ revision: "Rev B", weightShare: 0.2 });
  const [big, small] = [linearPair(full), linearPair(scaled(full, like))];

  it("has the trim of the aircraft, with loads by the factor of a force", () => {
    expectClose(small.pair.trim.alpha, big.pair.trim.alpha, { rtol: 1e-9, why: "Newton" });
    expectClose(small.pair.trim.controls.elevator, big.pair.trim.controls.elevator, { rtol: 1e-9, why: "Newton" });
    const force = like.factor({ mass: 1, length: 1, time: -2 });
    expectClose(small.pair.tipLoad.tension, force * big.pair.tipLoad.tension, { rtol: 1e-9, why: "Newton" });
  });

  it("has the eigenvalues of the aircraft divided by the square root of the scale", () => {
    const rate = like.factor({ mass: 0, length: 0, time: -1 });
    expectClose(rate, 1 / Math.sqrt(0.2), { rtol: 1e-14, why: "Froude" });
    const sorted = (pair: typeof big) =>
      rootsOf(pair.linear.matrix, pair.linear.size).sort(
        (a, b) => Math.hypot(a.re, a.im) - Math.hypot(b.re, b.im) || a.im - b.im,
      );
    const [of, at] = [sorted(big), sorted(small)];
    expect(at).toHaveLength(of.length);
    of.forEach((root, i) => {
      if (Math.hypot(root.re, root.im) < 1e-4) return;
      expectClose(at[i].re, rate * root.re, { rtol: 1e-6, atol: 1e-6, why: "differences with fixed steps" });
      expectClose(at[i].im, rate * root.im, { rtol: 1e-6, atol: 1e-6, why: "differences with fixed steps" });
    });
  });
});

describe("factors", () => {
  it("keep the Froude number and the ratio of the masses of aircraft and air", () => {
    const { factor } = similitude({ length: 1 / 7, density: 3.1 });
    expectClose(factor(SPEED) ** 2 / factor(LENGTH), 1, { rtol: 1e-14, why: "V²/(g·l)" });
    expectClose(factor(MASS) / (3.1 * factor(LENGTH) ** 3), 1, { rtol: 1e-14, why: "m/(ρ·l³)" });
  });

  it("multiply like the quantities: a model of a model is a model", () => {
    const [a, b, both] = [
      similitude({ length: 0.5, density: 1.2 }),
      similitude({ length: 0.3, density: 2 }),
      similitude({ length: 0.15, density: 2.4 }),
    ];
    for (const of of [MASS, LENGTH, INERTIA, STIFFNESS, BLEED, SPEED]) {
      expectClose(a.factor(of) * b.factor(of), both.factor(of), { rtol: 1e-14, why: "group" });
      expect(similitude({ length: 1, density: 1 }).factor(of)).toBe(1);
    }
  });

  it("refuse scales that are none", () => {
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => similitude({ length: bad, density: 1 })).toThrow("scale of the model");
      expect(() => similitude({ length: 1, density: bad })).toThrow("density ratio");
    }
  });
});
