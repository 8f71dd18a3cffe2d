import { beforeAll, describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { holdDemo, loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { rootCondition, swingSystem } from "../../physics/stability-boundary/index.ts";
import { type HoldInputs, type HoldPartContext, operatingPoint, PointModel, readHoldInputs } from "../hold/index.ts";
import type { HoldDepthResult } from "../hold-depth/index.ts";
import { gridDistance, toLine } from "./check-curves.ts";
import { type BoundaryMap, runBoundary } from "./index.ts";
import { airspeedAxis, boomAngleAxis, snubberAxis } from "./map-axes.ts";
import { type RootList, scanSeeds } from "./seeds.ts";
import { FamilyInterpolant, familyProblem, pointAt, trimFamily } from "./trim-family.ts";
import { trimMaps } from "./trim-maps.ts";

let revA: HoldDepthResult;
let revB: HoldDepthResult;
let inputs: HoldInputs;
beforeAll(() => {
  revA = holdDemo("Rev A", [], ["boundary"]);
  revB = holdDemo("Rev B", [], ["boundary"]);
  const loaded = loadDemo("Rev A");
  inputs = readHoldInputs(() => recordReads(loaded)).inputs;
});

const mapOf = (result: HoldDepthResult, id: string): BoundaryMap =>
  result.parts!.boundary!.maps.find((map) => map.id === id)!;
const crossing = (result: HoldDepthResult, id: string, along: "x" | "y", level: number) =>
  mapOf(result, id).crossings.find((each) => each.along === along && each.level === level)!;

describe("maps of the demo pair", () => {
  it("are four, exact to 0.1 %, with the pair on the side that its modes say", () => {
    for (const [result, side] of [
      [revA, -1],
      [revB, 1],
    ] as const) {
      const { maps, missing } = result.parts!.boundary!;
      expect(missing).toEqual([]);
      expect(maps.map(({ id }) => id)).toEqual(
        ["accumulator-snubber", "bending-snubber", "airspeed-snubber", "boomAngle-airspeed"], // biome-ignore format: a list
      );
      for (const map of maps) {
        expect(map.check!.places).toBeGreaterThanOrEqual(8);
        expect(map.check!.largestMiss_1).toBeLessThan(1e-3);
        // the grids are coarse; their contour is near the exact curve all the same
        expect(map.check!.gridDistance_1!).toBeLessThan(0.02);
        expect(Math.sign(map.at.worst)).toBe(side);
        expect(Math.sign(map.distance_1!)).toBe(side);
        expect(map.at.growing).toBe(side < 0 ? 1 : 0);
      }
    }
  });

  it("agree with each other where they show the same thing, by different methods", () => {
    // along the snubber rate at the pair's own stiffness, airspeed and boom angle
    for (const level of [0, 0.03]) {
      const rates = ["accumulator-snubber", "bending-snubber", "airspeed-snubber"].map(
        (id) => crossing(revA, id, "y", level).above!,
      );
      for (const rate of rates) expectClose(rate, rates[0], { rtol: 2e-3, why: "two curves, each within 0.1 %" });
      const speeds = [crossing(revA, "airspeed-snubber", "x", level), crossing(revA, "boomAngle-airspeed", "y", level)];
      expectClose(speeds[0].below!, speeds[1].below!, { rtol: 2e-3, why: "two curves, each within 0.1 %" });
    }
  });

  it("agree with the roots of the pair at the crossing, found without any curve", () => {
    const at = operatingPoint(inputs, inputs.conditions[0], "full");
    const worst = (speed: number): number => {
      const model = new PointModel(inputs, { ...at, airspeed: { kind: "EAS", value: speed } });
      return Math.min(
        ...model
          .modes(model.rates, "longitudinal")
          .filter(({ imag }) => imag > 0)
          .map(({ real, imag }) => -real / Math.hypot(real, imag)),
      );
    };
    const { below, above } = crossing(revA, "airspeed-snubber", "x", 0);
    for (const [speed, inward] of [
      [below!, 1],
      [above!, -1],
    ] as const) {
      expect(worst(speed * (1 + 1e-3 * inward))).toBeLessThan(0);
      expect(worst(speed * (1 - 1e-3 * inward))).toBeGreaterThan(0);
    }
  });

  it("draw the levels that the pair asks for beside the limit and the criterion", () => {
    const levels = (map: BoundaryMap) => [
      ...new Set(map.curves.filter(({ kind }) => kind === "oscillation").map(({ level }) => level)),
    ];
    expect(levels(mapOf(revA, "accumulator-snubber"))).toEqual([0, 0.03, 0.05, 0.1]);
    const other = holdDemo("Rev A", ["studies.hold.boundary.levels=[0.2]"], ["boundary"]);
    expect(levels(mapOf(other, "accumulator-snubber")).filter((level) => level > 0.03)).toEqual([0.2]);
  });

  it("become findings that rest on the pair and say how exact they are", () => {
    const own = revA.findings.filter(({ id }) => id.startsWith("hold.hook.boundary."));
    expect(own.map(({ id }) => id.split(".").at(-1))).toEqual(
      ["snubber-limit", "bending-limit", "accumulator-limit", "airspeed-limit", "boom-angle-limit", "distance", "accuracy"], // biome-ignore format: a list
    );
    const snubber = own[0];
    expectClose(snubber.value!, 1e3 * crossing(revA, "bending-snubber", "y", 0).above!, { rtol: 1e-12, why: "kN·s/m" });
    expect([snubber.unit, snubber.verdict]).toEqual(["N·s/m", "information"]);
    expect(snubber.rests).toContain("mechanism.boom.bending");
    expect(snubber.rests).toContain("studies.hold.sweeps.snubber.from");
    expect(own.at(-1)!.verdict).toBe("met");
  });

  it("are not drawn when the pair does not ask for them", () => {
    const reads = () => ({ pair: { studies: { hold: {} } }, paths: () => [] });
    expect(runBoundary({ reads } as unknown as HoldPartContext)).toBeNull();
  });

  it("say why they are missing, and begin where the aircraft trims", () => {
    const weak = holdDemo("Rev A", ["carried.airloads.pitch.Cmelevator=-0.001 1/rad"], ["boundary"]);
    expect(weak.parts!.boundary!.maps).toEqual([]);
    expect(weak.notAnalysed.join(" ")).toContain("the aircraft does not trim at the condition");
    const loaded = loadDemo("Rev A", ["studies.hold.sweeps.airspeed.from=25 m/s EAS"]);
    const slow = readHoldInputs(() => recordReads(loaded)).inputs;
    const { maps } = trimMaps(slow, operatingPoint(slow, slow.conditions[0], "full"), []);
    const { x, check } = maps.find(({ id }) => id === "airspeed-snubber")!;
    expect(x.from).toBeGreaterThan(30);
    expect(x.from).toBeLessThan(60);
    expect(check!.largestMiss_1).toBeLessThan(1e-3);
  });
});

describe("family of linear models over a map", () => {
  it("stands for models of its own between the nodes, over one axis and over two", () => {
    const at = operatingPoint(inputs, inputs.conditions[0], "full");
    const cases = [
      [
        [airspeedAxis(inputs, at), snubberAxis(inputs, at)],
        [17, 1],
      ],
      [
        [boomAngleAxis(inputs, at), airspeedAxis(inputs, at)],
        [13, 13],
      ],
    ] as const;
    for (const [axes, counts] of cases) {
      const family = trimFamily(inputs, at, axes, counts)!;
      const interpolant = new FamilyInterpolant(family);
      for (const [p, q] of [
        [0.13, 0.41],
        [0.52, 0.77],
        [0.93, 0.06],
      ]) {
        const u = axes.map(({ toLength, from, to }, k) => {
          const [a, b] = [toLength(from), toLength(to)];
          return a + [p, q][k] * (b - a);
        });
        interpolant.at(u[0], u[1]);
        const model = new PointModel(inputs, pointAt(axes, at, u[0], u[1]));
        const direct = swingSystem(model.base, inputs.boom.length, interpolant.swing.kept);
        const largest = Math.max(...direct.matrix.map(Math.abs));
        expectAllClose(interpolant.swing.matrix, direct.matrix, { atol: 1e-7 * largest, why: "geometric convergence" });
        const mass = model.pair.hookedMass.tangential;
        expectClose(interpolant.damping, 2 * inputs.boom.structuralDamping * Math.sqrt(mass), {
          rtol: 1e-7,
          why: "the same",
        });
      }
    }
  });

  it("has the derivatives that wider differences have, and goes on smoothly beyond the ends of the mechanism", () => {
    const at = operatingPoint(inputs, inputs.conditions[0], "full");
    const axes = [boomAngleAxis(inputs, at), airspeedAxis(inputs, at)] as const;
    const problem = familyProblem(trimFamily(inputs, at, axes, [9, 9])!);
    const out = rootCondition();
    const value = (x: number, y: number): number[] => {
      expect(problem.evaluate(-0.05, 4, x, y, out)).toBe(true);
      return Array.from(out.value);
    };
    const [x, y] = [axes[0].toLength(0.8), axes[1].toLength(100)];
    const h = 1e-3;
    const slope = [0, 1].map((i) => (value(x + h, y)[i] - value(x - h, y)[i]) / (2 * h));
    value(x, y);
    const scale = Math.hypot(...slope);
    expectAllClose(Array.from(out.byX), slope, {
      atol: 2e-3 * scale,
      why: "differences of order two, piecewise ratio",
    });
    const end = axes[0].toLength(axes[0].to);
    const jump = Math.abs(value(end + 1e-6, y)[0] - value(end - 1e-6, y)[0]);
    expect(jump).toBeLessThan(1e-4 * scale);
    expect(problem.evaluate(0, 4, end + 10, y, out)).toBe(false);
  });
});

describe("scanSeeds", () => {
  // one oscillation whose damping ratio is r − 1 at a distance r from the origin: the level is a circle
  const rootsAt = (x: number, y: number): RootList => {
    const zeta = Math.max(-0.9, Math.min(0.9, Math.hypot(x, y) - 1));
    const imag = 3 * Math.sqrt(1 - zeta * zeta);
    return { re: Float64Array.of(-3 * zeta, -3 * zeta), im: Float64Array.of(imag, -imag), count: 2 };
  };
  const grid = Array.from({ length: 8 }, (_, i) => -2 + (4 * i) / 7);

  it("finds places on every side of a closed curve, with the magnitude of the root", () => {
    const seeds = scanSeeds(grid, grid, { kind: "oscillation", dampingRatio: 0 }, rootsAt);
    expect(seeds.length).toBeGreaterThan(8);
    for (const { x, y, frequency } of seeds) {
      expect(Math.abs(Math.hypot(x, y) - 1)).toBeLessThan(0.02);
      expectClose(frequency, 3, { rtol: 1e-9, why: "|λ| = 3 everywhere" });
    }
    for (const side of [-1, 1]) {
      expect(seeds.some(({ x }) => side * x > 0.7)).toBe(true);
      expect(seeds.some(({ y }) => side * y > 0.7)).toBe(true);
    }
    const still = scanSeeds(grid, grid, { kind: "oscillation", dampingRatio: -0.95 }, rootsAt);
    expect(still).toEqual([]);
  });

  it("counts real roots for a growth rate, not oscillations", () => {
    const line = (x: number): RootList => ({ re: Float64Array.of(x, 9, 9), im: Float64Array.of(0, 1, -1), count: 3 });
    const seeds = scanSeeds(grid, [0, 1], { kind: "real root", growth: 0.5 }, line);
    expect(seeds).toHaveLength(2);
    for (const { x } of seeds) expect(Math.abs(x - 0.5)).toBeLessThan(0.02);
  });
});

describe("distances", () => {
  it("are to chords and their ends", () => {
    expectClose(toLine([0, 2], [0, 0], 1, 0.5), 0.5, { rtol: 1e-15, why: "above the middle" });
    expectClose(toLine([0, 2], [0, 0], 5, 4), 5, { rtol: 1e-15, why: "3-4-5 from the end" });
    const piece = {
      ...({ level: { kind: "oscillation", dampingRatio: 0 }, class: "rigid-body-type", border: true } as const),
      ...{ x: [0.5, 0.5], y: [0.25, 0.75], frequency: [1, 1] },
    };
    // z = x − 0.4 on a grid: its contour is the line x = 0.4
    expectClose(gridDistance([piece], [0, 1], [0, 1], [-0.4, 0.6, -0.4, 0.6], 0)!, 0.1, {
      atol: 1.1e-6,
      why: "rounded up to a millionth",
    });
    expect(gridDistance([], [0, 1], [0, 1], [-0.4, 0.6, -0.4, 0.6], 0)).toBeNull();
    expect(gridDistance([piece], [0, 1], [0, 1], [1, 1, 1, 1], 0)).toBeNull();
  });
});

describe("a pair outside the map", () => {
  it("has no distance and no limit along its own line, with the snubber out or locked", () => {
    for (const rate of ["0 N*s/m", "1000 MN*s/m"]) {
      const result = holdDemo("Rev A", [`mechanism.snubber.equivalent=${rate}`], ["boundary"]);
      const found = (key: string) => result.findings.find(({ id }) => id === `hold.hook.boundary.${key}-limit`)!;
      // along the snubber itself the line of the pair lies in the map
      expect(found("snubber").value).toBeGreaterThan(1e3);
      for (const key of ["bending", "accumulator", "airspeed"]) {
        expect(found(key)).toMatchObject({ value: null, verdict: "not analysed" });
        expect(found(key).note).toContain("0.1 to 100 kN·s/m was searched");
      }
      const distance = mapOf(result, "accumulator-snubber").distance_1;
      if (rate.startsWith("0")) expect(distance).toBeNull();
      else expect(distance!).toBeGreaterThan(0);
    }
  });
});
