import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  type BoomAttachment,
  type BoomLoading,
  forcesAlong,
  type HeldBoom,
  holdBoom,
  sectionForces,
  solveBoom,
} from "./index.ts";
import { ODD, SWING, twinTubes, uniform, unitSection } from "./test-booms.ts";

const near = { rtol: 1e-8, atol: 1e-7, why: "round-off of support forces" };
const hinge: BoomAttachment = { kind: "hinge", station: 0 };
const lug: BoomAttachment = { kind: "jack", station: 1.55, direction: SWING, stiffness: Number.POSITIVE_INFINITY };

function solved(boom: HeldBoom, loading: BoomLoading) {
  const equilibrium = solveBoom(boom, loading);
  if (equilibrium.outcome !== "solved") throw new Error(equilibrium.outcome);
  return equilibrium;
}

describe("sectionForces", () => {
  it("of an overhang: the moment rises from hinge and tip to the lug, the shear jumps there", () => {
    const boom = holdBoom({ sections: uniform(twinTubes(0.127, 0.006), 5.6), attachments: [hinge, lug], elements: 7 });
    const equilibrium = solved(boom, { loads: [{ station: 5.6, force: [500, 1e4, 0], moment: [70, 0, 0] }] });
    const at = (station: number, side: "inboard" | "outboard") => sectionForces(boom, equilibrium, station, side);
    const moment = 1e4 * 4.05;
    expectClose(at(1.55, "inboard").bendingSwing, moment, near, "moment at the lug");
    expectClose(at(1.55, "outboard").bendingSwing, moment, near, "moment at the lug, outboard");
    expectClose(at(1.55, "outboard").shearSwing, 1e4, near, "shear outboard");
    expectClose(at(1.55, "inboard").shearSwing, -moment / 1.55, near, "shear inboard");
    expectClose(at(0.5, "inboard").bendingSwing, (moment * 0.5) / 1.55, near, "between");
    expectClose(at(3, "inboard").tension, 500, near, "tension");
    expectClose(at(3, "inboard").torque, 70, near, "torque");
    expectClose(at(5.6, "outboard").bendingSwing, 0, near, "beyond the tip");
    const along = forcesAlong(boom, equilibrium);
    const largest = along.reduce((most, one) => (one.bendingSwing > most.bendingSwing ? one : most));
    expect(largest.station).toBeCloseTo(1.55, 9);
    expect(along.length).toBe(2 * boom.mesh.nodes.length - 2);
    expect(() => at(6, "inboard")).toThrow(DomainError);
  });

  it("gives the stress of two tubes: M·c/I and N/A, and a sum at the outermost fibre", () => {
    const boom = holdBoom({ sections: uniform(twinTubes(0.127, 0.006), 5.6), attachments: [hinge, lug], elements: 4 });
    const equilibrium = solved(boom, { loads: [{ station: 5.6, force: [-2e4, 1e4, 500] }] });
    const { stress } = sectionForces(boom, equilibrium, 1.55, "outboard");
    const inertia = (Math.PI * (0.127 ** 4 - 0.115 ** 4)) / 64;
    const area = (Math.PI * (0.127 ** 2 - 0.115 ** 2)) / 4;
    const swing = (1e4 * 4.05 * 0.0635) / (2 * inertia);
    expectClose(stress?.axial ?? Number.NaN, -2e4 / (2 * area), near, "axial");
    expectClose(stress?.bendingSwing ?? Number.NaN, swing, near, "swing");
    expectClose(stress?.bendingLateral ?? Number.NaN, swing / 20, near, "lateral");
    expectClose(stress?.largest ?? Number.NaN, swing * 1.05 + 1e4 / area, near, "all");
    const plain = holdBoom({ sections: uniform(unitSection, 5.6), attachments: [hinge, lug] });
    expect(sectionForces(plain, solved(plain, {}), 1, "inboard").stress).toBeUndefined();
  });

  it("of a weight: w(L − x)²/2, with the bodies on the boom", () => {
    const clamp: BoomAttachment = { kind: "clamp", station: 0 };
    const masses = [{ station: 1, mass: 3, offset: [0.2, 0, 0.1] as const }];
    const boom = holdBoom({ sections: uniform(unitSection, 1), attachments: [clamp], masses, elements: 4 });
    const equilibrium = solved(boom, { acceleration: [0, 10, 4] });
    const { bendingSwing, bendingLateral, torque, shearSwing } = sectionForces(boom, equilibrium, 0.3, "inboard");
    expectClose(bendingSwing, 5 * 0.49 + 30 * 0.9, near, "swing");
    expectClose(bendingLateral, 2 * 0.49 + 12 * 0.9, near, "lateral");
    expectClose(torque, -0.1 * 30, near, "torque");
    expectClose(shearSwing, 7 + 30, near, "shear");
  });

  it("agrees with EI·u″ from the elements' own ends", () => {
    const strut: BoomAttachment = {
      kind: "strut",
      station: 2.2,
      direction: [-1, 1, 0.4],
      axialStiffness: 4e6,
      length: 1.5,
    };
    const boom = holdBoom({ sections: ODD, attachments: [hinge, lug, strut], elements: 9 });
    const equilibrium = solved(boom, { loads: [{ station: 4, force: [300, 900, -400], moment: [50, 60, 70] }] });
    const { nodes, order } = boom.mesh;
    for (let e = 0; e + 1 < nodes.length; e++) {
      const forces = elementEnd(boom, equilibrium.displacement, e, order);
      const carried = sectionForces(boom, equilibrium, nodes[e + 1], "inboard");
      const expected = [carried.tension, carried.shearSwing, carried.shearLateral, carried.torque];
      const ends = { rtol: 1e-6, atol: 1e-3, why: "differences of elastic forces of 1e9 N/m" };
      expected.forEach((value, i) => void expectClose(forces[i], value, ends, `element ${e}, ${i}`));
      expectClose(forces[5], carried.bendingSwing, ends, "swing");
      expectClose(-forces[4], carried.bendingLateral, ends, "lateral");
    }
  });
});

/** Forces of element e on its outer node, by the coupling block alone: K₁₀ times what the inner node moves beyond a rigid motion. */
function elementEnd(boom: HeldBoom, u: Float64Array, e: number, order: number): Float64Array {
  const { nodes, stiffness } = boom.mesh;
  const h = nodes[e + 1] - nodes[e];
  const inner = u.subarray(6 * e, 6 * e + 6);
  // motion of the inner node if the element moved rigidly with the outer one
  const outer = u.subarray(6 * e + 6, 6 * e + 12);
  const rigid = Float64Array.from(outer);
  rigid[1] -= h * outer[5];
  rigid[2] += h * outer[4];
  return Float64Array.from({ length: 6 }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < 6; j++) sum += stiffness[(6 * e + 6 + i) * order + 6 * e + j] * (inner[j] - rigid[j]);
    return sum;
  });
}
