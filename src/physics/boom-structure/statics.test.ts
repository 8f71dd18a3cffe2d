import fc from "fast-check";
import { describe, expect, it } from "vitest";
// values of analytic/beam-statics
import {
  cantileverStiffness,
  overhangStiffness,
  strutAcross,
  supportedCantilever,
} from "../../../reference/analytic/beam-statics/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import {
  type BoomAttachment,
  type BoomEquilibrium,
  type BoomLoading,
  type HeldBoom,
  holdBoom,
  solveBoom,
  tipCompliance,
} from "./index.ts";
import { ALONG, ODD, RIGHT, SWING, uniform, unitSection } from "./test-booms.ts";

const closed = { rtol: 1e-9, why: "elements are exact under loads at nodes; round-off of 24 elements" };
const clamp: BoomAttachment = { kind: "clamp", station: 0 };

function unit(attachments: readonly BoomAttachment[], more: object = {}): HeldBoom {
  return holdBoom({ sections: uniform(unitSection, 1), attachments, elements: 8, ...more });
}
function solved(boom: HeldBoom, loading: BoomLoading): BoomEquilibrium {
  const equilibrium = solveBoom(boom, loading);
  if (equilibrium.outcome !== "solved") throw new Error(equilibrium.outcome);
  return equilibrium;
}
function tipStiffness(boom: HeldBoom, direction: 0 | 1 | 2 = 1): number {
  const tip = tipCompliance(boom);
  if (tip.outcome !== "solved") throw new Error(tip.outcome);
  return 1 / tip.translation[4 * direction];
}

describe("tip stiffness of uniform beams", () => {
  const spring = (station: number, stiffness: number): BoomAttachment => ({
    ...{ kind: "spring", station, stiffness, direction: SWING },
  });

  it("is 3 for a cantilever, 13 with a spring of 10 on its tip", () => {
    expectClose(tipStiffness(unit([clamp])), 3, closed);
    expectClose(tipStiffness(unit([clamp, spring(1, 10)])), 13, closed);
  });

  it.each([
    [0.75, Number.POSITIVE_INFINITY],
    [0.75, 100],
    [0.75, 1000],
    [0.5, Number.POSITIVE_INFINITY],
  ])("over a support at %s with stiffness %s, and its reaction", (at, k) => {
    const boom = unit([clamp, spring(at, k)]);
    const { stiffness, reaction } = supportedCantilever(1, 1, at, k);
    expectClose(tipStiffness(boom), stiffness, closed, "stiffness");
    const loads = [{ station: 1, force: SWING }];
    const { linkForces } = solved(boom, { loads });
    expectClose(linkForces[linkForces.length - 1], -reaction, closed, "reaction");
  });

  it("has the handed-down numbers of the supported cantilever", () => {
    const numbers = [
      [0.75, Number.POSITIVE_INFINITY, 59.0769231, 1.5],
      [0.75, 100, 26.3620567, 1.4004149],
      [0.75, 1000, 52.1888083, 1.4894086],
      [0.5, Number.POSITIVE_INFINITY, 96 / 7, 2.5],
    ];
    for (const [at, k, stiffness, reaction] of numbers) {
      const printed = { atol: 5e-8, why: "half a unit of the seventh decimal" };
      const found = supportedCantilever(1, 1, at, k);
      expectClose(found.stiffness, stiffness, printed);
      expectClose(found.reaction, reaction, printed);
    }
  });

  it("of an overhang on a hinge is 3EI/(c²(a + c)): 48", () => {
    const boom = unit([{ kind: "hinge", station: 0 }, spring(0.75, Number.POSITIVE_INFINITY)]);
    expectClose(overhangStiffness(1, 0.75, 0.25), 48, { rtol: 1e-15, why: "round-off" });
    expectClose(tipStiffness(boom), 48, closed);
  });

  it("adds the shear compliance L/κGA, in both planes, and none by Euler and Bernoulli", () => {
    const sections = uniform({ ...unitSection, shearSwing: 20, shearLateral: 5e3 }, 1);
    const boom = holdBoom({ sections, attachments: [clamp], elements: 3 });
    expectClose(tipStiffness(boom), cantileverStiffness(1, 1, 20), closed);
    expectClose(tipStiffness(boom, 2), cantileverStiffness(1e3, 1, 5e3), closed);
    const stiff = holdBoom({ sections, attachments: [clamp], elements: 3, theory: "Euler-Bernoulli" });
    expectClose(tipStiffness(stiff), 3, closed);
    expectClose(tipStiffness(stiff, 0), 1e5, closed, "along");
  });

  it("of a boom on a strut at its end is (EA/ℓ)·sin²θ: the boom turns, the bar holds it", () => {
    const angle = 0.6;
    const direction = [-Math.cos(angle), -Math.sin(angle), 0] as const;
    const strut: BoomAttachment = { kind: "strut", station: 1, direction, axialStiffness: 14, length: 2 };
    const stiff = uniform({ ...unitSection, axial: 1e9 }, 1);
    const boom = holdBoom({ sections: stiff, attachments: [{ kind: "hinge", station: 0 }, strut], elements: 4 });
    const along = { rtol: 1e-7, why: "the boom's own stretch: 7 of 1e9" };
    expectClose(tipStiffness(boom), strutAcross(14, 2, angle), along);
    const { linkForces, displacement } = solved(boom, { loads: [{ station: 1, force: SWING }] });
    expectClose(linkForces[linkForces.length - 1], 1 / Math.sin(angle), along, "the bar pushes against the load");
    expect(displacement[displacement.length - 5]).toBeGreaterThan(0);
  });

  it("is that of the table, whatever the number of elements", () => {
    const coarse = { sections: ODD, attachments: [clamp, spring(1.5, 3e5)] };
    const loads = [{ station: 4, force: [100, 200, -300], moment: [20, 30, 40] }] as const;
    const tips = [1, 2, 7, 24].map((elements) =>
      solved(holdBoom({ ...coarse, elements }), { loads }).displacement.slice(-6),
    );
    for (const tip of tips)
      expectAllClose(tip, tips[0], { rtol: 1e-9, why: "exact elements; quadrature and round-off" });
  });
});

describe("equilibrium", () => {
  const vector = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -1e3, max: 1e3, noNaN: true })));
  const direction = vector.filter((v) => Math.hypot(...v) > 10);
  const supports = fc
    .tuple(direction, direction, direction, vector, fc.double({ min: 1e4, max: 1e7, noNaN: true }))
    .map(([a, b, c, offset, stiffness]): BoomAttachment[] => [
      { kind: "hinge", station: 0 },
      { kind: "jack", station: 1.5, direction: [a[0], 1e3, a[2]], offset: [0, offset[1] / 5e3, 0.1], stiffness },
      { kind: "strut", station: 2.5, direction: b as never, axialStiffness: 1e7, length: 2 },
      { kind: "prop", station: 3, direction: c as never, travel: 1e-3 },
      { kind: "turning spring", station: 4, direction: ALONG, stiffness: 1e5 },
    ]);
  const masses = [{ station: 4, mass: 55, offset: [0.1, -0.2, 0.05] as const, inertia: [1, 2, 3] as const }];

  it("balances forces and moments of loads, weight and supports; and loads do the work that is stored", () => {
    fc.assert(
      fc.property(supports, vector, vector, (attachments, force, moment) => {
        const boom = holdBoom({ sections: ODD, attachments, masses, elements: 10 });
        const loads = [{ station: 4, force: force as never, moment: moment as never }];
        const { displacement, support, linkForces, strainEnergy } = solved(boom, { loads, acceleration: [3, 8, -1] });
        const total = new Float64Array(6);
        const add = (station: number, f: ArrayLike<number>) => {
          for (let i = 0; i < 6; i++) total[i] += f[i];
          total[4] -= station * f[2];
          total[5] += station * f[1];
        };
        boom.mesh.nodes.forEach((station, node) => void add(station, support.subarray(6 * node, 6 * node + 6)));
        add(4, [...force, ...moment]);
        const { table } = boom.mesh;
        for (const { row, from, to } of table.pieces(table.first, table.last)) {
          // mass per length is linear: Simpson's rule is exact for its first moment
          for (const [share, weight] of [
            [0, 1],
            [0.5, 4],
            [1, 1],
          ]) {
            const x = from + share * (to - from);
            const m = ((to - from) * weight * table.at("massPerLength", row, x, 0)) / 6;
            add(x, [3 * m, 8 * m, -m, 0, 0, 0]);
          }
        }
        const [x, y, z] = [3 * 55, 8 * 55, -55];
        add(4, [x, y, z, -0.2 * z - 0.05 * y, 0.05 * x - 0.1 * z, 0.1 * y + 0.2 * x]);
        expectAllClose(
          total,
          new Float64Array(6),
          { atol: 1e-5, why: "round-off of elastic forces up to 1e8 N" },
          "sum",
        );
        // the links together are the support
        const parts = new Float64Array(support.length);
        boom.links.forEach(({ station, row }, i) => {
          const first = 6 * boom.mesh.nodes.findIndex((node) => Math.abs(node - station) < 1e-9);
          row.forEach((b, r) => {
            parts[first + r] += b * linkForces[i];
          });
        });
        expectAllClose(parts, support, { atol: 1e-5, why: "round-off of elastic forces up to 1e8 N" }, "links");
        // 2·energy = (loads + weight)·u + forces of rigid links · travels
        const field = new Float64Array(boom.mesh.order).map((_, i) => [3, 8, -1, 0, 0, 0][i % 6]);
        const n = boom.mesh.order;
        let work = 0;
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) work += displacement[i] * boom.mesh.mass[i * n + j] * field[j];
        [...force, ...moment].forEach((f, i) => {
          work += f * displacement[n - 6 + i];
        });
        boom.links.forEach(({ travel }, i) => {
          work += travel * linkForces[i];
        });
        expectClose(
          2 * strainEnergy,
          work,
          { rtol: 1e-7, atol: 1e-6, why: "round-off of terms of 1e8 N·1 mm²" },
          "work",
        );
      }),
      { seed: 71, numRuns: 25 },
    );
  });

  it("of an own weight is that of a uniform load: wL⁴/8EI at the tip of a cantilever, wL²/2 at its root", () => {
    const { displacement, support } = solved(unit([clamp]), { acceleration: [0, 9.81, 0] });
    expectClose(displacement[displacement.length - 5], 9.81 / 8, closed, "tip");
    expectClose(support[1], -9.81, closed, "force at the root");
    expectClose(support[5], -9.81 / 2, closed, "moment at the root");
  });

  it("moves with a prescribed travel: a support that sinks by t under a hinge takes the tip along by t/a", () => {
    const prop: BoomAttachment = { kind: "prop", station: 0.4, direction: [0, -2, 0], travel: 0.01 };
    const { displacement, strainEnergy } = solved(unit([{ kind: "hinge", station: 0 }, prop]), {});
    expectClose(displacement[displacement.length - 5], -0.01 / 0.4, closed, "tip");
    expectClose(strainEnergy, 0, { atol: 1e-12, why: "rigid motion" });
  });

  it("keeps the planes apart for supports along them, and a lateral support does not stiffen the swing", () => {
    const sideways: BoomAttachment = { kind: "spring", station: 0.6, direction: RIGHT, stiffness: 50 };
    const tip = tipCompliance(unit([clamp, sideways]));
    if (tip.outcome !== "solved") throw new Error(tip.outcome);
    const between = [1, 2, 5].map((at) => tip.translation[at]);
    expect(between).toEqual([0, 0, 0]);
    expectClose(tip.translation[4], 1 / 3, closed);
  });
});
