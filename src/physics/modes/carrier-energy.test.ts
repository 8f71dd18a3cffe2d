import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { noAir, vacuum, vacuumPair } from "../../../test/support/vacuum.ts";
import { freeMassCarrier, linearise, relativeToCarrier, rigidCarrier } from "../bodies/index.ts";
import { CARRIER_MOTIONS, dominantMotion, type EnergyModel, MOTIONS, ModeAnalysis } from "./index.ts";

const mass = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 0, Ixz: 250, Iyz: 0 };
const heavy = { mass: 9000, Ixx: 3e4, Iyy: 5e4, Izz: 7e4, Ixy: 0, Ixz: 2000, Iyz: 0 };
const HINGE = [3, 0, -0.4] as const;
const environment = vacuum([0, 0, 0]);
const boom = {
  geometry: { length: 5.6, angleDown: 0.9 },
  ...{ axial: 4e5, lateral: 3e5 },
  tangential: { bending: 9e4, bendingDamping: 0, accumulator: Number.POSITIVE_INFINITY, snubber: 0 },
};

/** Modes of a pair in empty space: springs alone restore, so that strain and kinetic energy are equal in each mode. */
function modes(turns: boolean) {
  const nothing = new Float64Array(6);
  const controls = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
  const carrier = turns
    ? rigidCarrier({ mass: heavy, airloads: noAir, controls, environment, hinge: HINGE, trimLoad: nothing })
    : freeMassCarrier(heavy.mass, nothing);
  const { motion, state } = vacuumPair({ mass, probe: [2.2, 0, -0.85], tipMass: 130, boom, environment, carrier });
  const { linear, carrier: at } = relativeToCarrier(linearise(motion, state), motion);
  const tip = state.subarray(motion.layout.tip);
  const energy: EnergyModel = {
    ...{ mass, tipMass: 130, basis: linear.basis, coordinates: linear.coordinates },
    boom: { ...boom.geometry, axial: 4e5, lateral: 3e5, bending: 9e4, accumulator: 0, snubberState: -1 },
    carrier: {
      ...{ mass: heavy, state: at, turns },
      tip: [HINGE[0] + tip[0], HINGE[1] + tip[1], HINGE[2] + tip[2]],
    },
  };
  return new ModeAnalysis(linear.size).modes(linear.matrix, energy, 0.1).filter((mode) => mode.imag > 0.1);
}

describe("a carrier among the energies of a mode", () => {
  it.each([true, false])(
    "has shares that add up to 1 with the pair's, and strain equal to motion; it turns: %s",
    (turns) => {
      const found = modes(turns);
      expect(found).toHaveLength(3);
      for (const mode of found) {
        const sum = [...mode.motion, ...mode.carrier!].reduce((a, b) => a + b, 0);
        expectClose(sum, 1, { rtol: 1e-12, why: "shares" });
        // wrong by the carrier's turning, the strain would miss the kinetic energy by tens of percent
        expectClose(mode.strainShare, 1, {
          rtol: 1e-5,
          why: "conservative motion on springs; linearised by differences",
        });
        expect(mode.class).toBe("structural");
        const turning = mode.carrier!.slice(3).reduce((a, b) => a + Math.abs(b), 0);
        if (turns) expect(turning).toBeGreaterThan(0.01);
        else expect(turning).toBe(0);
      }
    },
  );

  it("gives its name to a mode", () => {
    const carrier = new Float64Array(CARRIER_MOTIONS.length);
    carrier[2] = 0.5;
    carrier[4] = 0.3;
    const motion = new Float64Array(MOTIONS.length);
    motion[2] = 0.2;
    expect(dominantMotion({ motion, carrier })).toEqual({ name: "coupled carrier heave–carrier pitch", share: 0.8 });
    carrier[2] = 0.7;
    expect(dominantMotion({ motion, carrier }).name).toBe("carrier heave");
    expect(dominantMotion({ motion }).name).toBe("coupled surge–heave");
  });
});
