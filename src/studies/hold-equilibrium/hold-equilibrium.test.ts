import { beforeAll, describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { holdDemo, loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { staticDeterminant } from "../../physics/equilibrium/index.ts";
import {
  atBoomAngle,
  type HoldInputs,
  type HoldPartContext,
  type Operating,
  operatingPoint,
  PointModel,
  readHoldInputs,
} from "../hold/index.ts";
import type { HoldDepthResult } from "../hold-depth/index.ts";
import { branchFamily } from "./balances.ts";
import { divergenceSearches, staticStiffness } from "./divergence.ts";
import { divergenceLimits, equilibriumFindings } from "./findings.ts";
import { bandCurve, hookLoadsInTrim, loadCurves } from "./hook-loads.ts";
import { type LoadCurve, runEquilibrium } from "./index.ts";

const DEGREE = Math.PI / 180;
const SPEEDS = { from: 60, to: 140 };
let result: HoldDepthResult;
let inputs: HoldInputs;
let at: Operating;
/** A pair that lift ahead of its probe turns over: no aircraft, but a clear static divergence. */
let tipping: HoldInputs;
let atTipping: Operating;
function inputsOf(set: string[]): HoldInputs {
  const loaded = loadDemo("Rev B", set);
  return readHoldInputs(() => recordReads(loaded)).inputs;
}
beforeAll(() => {
  result = holdDemo("Rev B", [], ["equilibrium"]);
  inputs = inputsOf([]);
  at = operatingPoint(inputs, inputs.conditions[0], "full");
  tipping = inputsOf(["carried.airloads.pitch.Cmalpha=9.3 1/rad", "carried.airloads.lift.CL0=0"]);
  atTipping = operatingPoint(tipping, tipping.conditions[0], "full");
});

describe("loads on the hook in trim", () => {
  it("are those of the trim at the condition, and of statics by hand", () => {
    const trim = result.points.find(({ mass }) => mass === "full")!.trim!;
    const loads = hookLoadsInTrim(inputs, at)!;
    const same = { rtol: 1e-12, why: "one trim" };
    expectClose(loads.tow, trim.towLoad_N, same);
    expectClose(loads.axial, trim.tipAxialLoad_N, same);
    expectClose(loads.tangential, trim.tipTangentialLoad_N, same);
    expectClose(loads.jack, trim.jackLoad_N, same);
    expectClose(loads.stallMargin, trim.stallMargin, same);
    // tow load is drag less thrust; the thrust turns with the aircraft
    const [c, s] = [Math.cos(loads.alpha), Math.sin(loads.alpha)];
    const pushed = hookLoadsInTrim(inputs, { ...at, thrust: 1500, weightShare: 0 })!;
    expectClose(loads.tow - pushed.tow, 1500, { rtol: 0.02, why: `thrust tilts by ${(loads.alpha / DEGREE).toFixed(1)}°, cos ${c.toFixed(3)}, and lifts ${s.toFixed(3)} of itself` }); // biome-ignore format: one check
    const half = hookLoadsInTrim(inputs, { ...at, weightShare: 0.25 })!;
    expectClose(half.support, 0.25 * 2600 * 9.80665, { rtol: 1e-12, why: "weight share" });
    // resultant and components along and normal to the boom are one force, the boom's own weight apart
    expect(inputs.boom.ownMass).toBe(0);
    expectClose(Math.hypot(half.axial, half.tangential), half.hook, { rtol: 1e-12, why: "one force" });
  });

  it("along each quantity end where it ends and meet the condition's own value", () => {
    const curves = loadCurves(inputs, at, SPEEDS, { from: 0, to: 4000 });
    expect(curves.map(({ along }) => along)).toEqual(["airspeed", "boomAngle", "weightShare", "thrust"]);
    for (const curve of curves) {
      const lengths = new Set(
        Object.values(curve)
          .filter(Array.isArray)
          .map((values) => values.length),
      );
      expect([...lengths]).toEqual([57]);
    }
    expect(curves[3].values.at(-1)).toBe(4);
    expect(loadCurves(inputs, at, SPEEDS, null)).toHaveLength(3);
    // more weight on the trapeze, more load along the boom, all the way
    const axial = curves[2].axialLoad_N as number[];
    expect(axial.every((load, i) => i === 0 || load > axial[i - 1])).toBe(true);
  });

  it("have no value where the aircraft does not trim", () => {
    const weak = inputsOf(["carried.airloads.pitch.Cmelevator=-0.02 1/rad"]);
    const [curve] = loadCurves(weak, operatingPoint(weak, weak.conditions[0], "full"), SPEEDS, null);
    expect(curve.hookLoad_N.some((load) => load === null)).toBe(true);
  });
});

describe("balances with the jack at its length", () => {
  it("are one at the condition, the trim itself, on a branch that says what its modes say", () => {
    for (const elevator of ["fixed", "holds weight share"] as const) {
      const family = branchFamily(inputs, at, SPEEDS, elevator)!;
      expect(family.atCondition).toBe(1);
      expect(family.branches).toHaveLength(1);
      expect(family.branches[0].complete).toBe(true);
      const trim = result.points.find(({ mass }) => mass === "full")!.trim!;
      const own = family.branches[0].points.reduce((a, b) =>
        Math.abs(b.airspeed_m_s_EAS - 105) < Math.abs(a.airspeed_m_s_EAS - 105) ? b : a,
      );
      expectClose(own.boomAngle_deg, 52, { atol: 0.3, why: "a point of the branch within a few m/s" });
      expectClose(own.alpha_deg, trim.alpha_deg, { atol: 0.5, why: "a point of the branch within a few m/s" });
      expect(own.growing).not.toBeNull();
    }
  });

  it("are none, two, three or one of a pair that tips over, and meet where a real root passes zero", () => {
    const over = inputsOf(["carried.airloads.pitch.Cmalpha=9.6 1/rad", "carried.airloads.lift.CL0=0"]);
    const family = branchFamily(
      over,
      operatingPoint(over, over.conditions[0], "full"),
      { from: 30, to: 140 },
      "fixed",
    )!;
    expect(family.folds_m_s_EAS).toHaveLength(2);
    const counts = family.counts.map(({ balances }) => balances);
    expect(new Set(counts)).toEqual(new Set([0, 2, 3, 1]));
    // the number changes by two at a fold; elsewhere a branch leaves the angles that are searched, one by one
    const [low, high] = [Math.min(...family.folds_m_s_EAS), Math.max(...family.folds_m_s_EAS)];
    for (const { airspeed_m_s_EAS: speed, balances } of family.counts) {
      if (speed < low) expect(balances).toBe(0);
      if (speed > high) expect(balances).toBe(1);
    }
    // along the branch diverging and other balances take turns, and the turn lies at a fold
    const other = branchFamily(tipping, atTipping, { from: 30, to: 140 }, "fixed")!;
    const points = other.branches.flatMap((branch) => branch.points).filter(({ diverging }) => diverging !== null);
    const turns = points.filter((point, i) => i > 0 && point.diverging !== points[i - 1].diverging);
    expect(turns.length).toBeGreaterThan(0);
    for (const { airspeed_m_s_EAS: speed } of turns) {
      const away = Math.min(...other.folds_m_s_EAS.map((fold) => Math.abs(speed - fold)));
      expect(away).toBeLessThan(1.5);
    }
  });

  it("are nothing for a pair that does not trim", () => {
    const weak = inputsOf([
      "carried.airloads.pitch.Cmelevator=-0.0001 1/rad",
      "carried.airloads.lift.CLelevator=0 1/rad",
    ]);
    expect(branchFamily(weak, operatingPoint(weak, weak.conditions[0], "full"), SPEEDS, "fixed")).toBeNull();
  });
});

describe("static divergence", () => {
  it("is none for the demo pair, and where it is, a real root is zero", () => {
    for (const search of divergenceSearches(inputs, at, SPEEDS)) {
      expect([search.at, search.growingBelow]).toEqual([[], 0]);
    }
    const [speeds] = divergenceSearches(tipping, atTipping, { from: 30, to: 140 });
    expect(speeds.at.length).toBeGreaterThan(0);
    for (const { value, plane } of speeds.at) {
      expect(plane).toBe("longitudinal");
      const slowest = (speed: number): number => {
        const model = new PointModel(tipping, { ...atTipping, airspeed: { kind: "EAS", value: speed } });
        const real = model.modes(model.rates, "longitudinal").filter(({ imag }) => imag === 0);
        return real.reduce((a, b) => (Math.abs(b.real) < Math.abs(a.real) ? b : a)).real;
      };
      expect(Math.sign(slowest(value * 1.001))).toBe(-Math.sign(slowest(value * 0.999)));
      expect(Math.abs(slowest(value * (1 + 1e-6)))).toBeLessThan(1e-3);
    }
  });

  it("along the tangential stiffness lies where the determinant passes zero", () => {
    for (const [pair, point] of [
      [inputs, at],
      [inputs, atBoomAngle(inputs, { ...at, boomAngleDown: 20 * DEGREE, thrust: 4e3 })],
    ] as const) {
      const { needed_N_m: needed, present_N_m: present } = staticStiffness(pair, point);
      expectClose(present, 1 / (1 / point.bending + 1 / point.accumulator), { rtol: 1e-12, why: "springs in series" });
      const model = new PointModel(pair, point);
      const sign = (stiffness: number): number => {
        // elastic path: bending alone, with a negative stiffness allowed in this check
        const { matrix, size } = model.matrix({ bending: Math.abs(stiffness), bendingDamping: 0, accumulator: Infinity, snubber: 0 }); // biome-ignore format: one path
        return staticDeterminant(matrix, size).sign;
      };
      if (needed !== null && needed > 0) expect(sign(1.01 * needed)).not.toBe(sign(0.99 * needed));
      else expect(sign(1)).toBe(sign(1e9));
    }
  });

  it("prohibits the airspeeds above it, and nothing when there is none", () => {
    const searches = divergenceSearches(tipping, atTipping, { from: 30, to: 140 }).map((each) => ({ ...each, growingBelow: 0 })); // biome-ignore format: one list
    const [limit, ...more] = divergenceLimits(searches, "hold.hook.equilibrium");
    expect(more).toEqual([]);
    expect([limit.lower, limit.upper, limit.status]).toEqual([searches[0].at[0].value, 140, "prohibited"]);
    expect(limit.because).toEqual(["hold.hook.equilibrium.full.divergence-airspeed"]);
    expect(result.limits.filter(({ id }) => id.includes("divergence"))).toEqual([]);
  });
});

describe("findings", () => {
  const named = (id: string) => result.findings.find((finding) => finding.id === `hold.hook.equilibrium.full.${id}`)!;

  it("say how many balances there are, that nothing diverges, and what hook and jack carry against their limits", () => {
    expect(named("balances-fixed").value).toBe(1);
    expect(named("divergence-airspeed").value).toBeNull();
    expect(named("divergence-airspeed").note).toContain("none in the range");
    const hook = named("hook-load");
    expect([hook.verdict, hook.criterion!.limit, hook.unit]).toEqual(["met", 18e3, "N"]);
    expect(hook.rests).toContain("studies.hold.equilibrium.hookLoadLimit");
    expect(hook.rests).not.toContain("mechanism.boom.bending");
    const jack = named("jack-load-band");
    expect([jack.verdict, jack.criterion!.limit]).toEqual(["met", 142e3]);
    const last = hookLoadsInTrim(inputs, { ...at, airspeed: { kind: "EAS", value: 125 } })!;
    expectClose(hook.value!, last.hook, { rtol: 1e-12, why: "the tow load rises to the end of the band" });
  });

  it("judge nothing without a limit, and say so where the band does not trim", () => {
    const part = result.parts!.equilibrium!;
    const rests = { trim: ["a"], swing: ["b"], band: ["c"], limit: ["d"] };
    const overBand = bandCurve(inputs, at, { from: 85, to: 125 });
    const evidence = { ...part, overBand, hookLoadLimit: null, jackCapacity: null };
    const free = equilibriumFindings(evidence, "x", "full", rests);
    expect(free.filter(({ criterion }) => criterion !== undefined)).toEqual([]);
    expect(free.find(({ id }) => id === "x.full.hook-load")!.note).toContain("states no limit");
    const gaps = (curve: LoadCurve): LoadCurve => ({ ...curve, hookLoad_N: curve.values.map(() => null), jackLoad_N: curve.values.map(() => null) }); // biome-ignore format: one copy
    const none = equilibriumFindings({ ...evidence, overBand: gaps(overBand) }, "x", "full", rests);
    expect(none.at(-1)!.verdict).toBe("not analysed");
  });

  it("take the ends of the band, however narrow it is", () => {
    for (const band of [
      { from: 85, to: 125 },
      { from: 104.95, to: 105.05 },
    ]) {
      const part = result.parts!.equilibrium!;
      const evidence = { ...part, overBand: bandCurve(inputs, at, band), hookLoadLimit: null, jackCapacity: null };
      const rests = { trim: ["a"], swing: ["b"], band: ["c"], limit: ["d"] };
      const found = equilibriumFindings(evidence, "x", "full", rests).find(({ id }) => id === "x.full.hook-load")!;
      // above its least, the tow load rises with airspeed
      const last = hookLoadsInTrim(inputs, { ...at, airspeed: { kind: "EAS", value: band.to } })!;
      expectClose(found.value!, last.hook, { rtol: 1e-12, why: "the same trim" });
    }
  });

  it("say where the aircraft does not trim instead of that nothing diverges", () => {
    // a weak elevator trims a part of the range, at last none of it
    const searched = (...set: string[]) => {
      const weak = inputsOf(["carried.airloads.pitch.Cmelevator=-0.02 1/rad", ...set]);
      const point = operatingPoint(weak, weak.conditions[0], "full");
      return {
        divergence: divergenceSearches(weak, point, SPEEDS).filter(({ along }) => along === "airspeed"),
        stiffness: [staticStiffness(weak, point)],
        ...{ families: [], overBand: bandCurve(weak, point, SPEEDS), hookLoadLimit: null, jackCapacity: null },
      };
    };
    const rests = { trim: ["a"], swing: ["b"], band: ["c"], limit: ["d"] };
    const [divergence, , load] = equilibriumFindings(searched(), "x", "full", rests);
    expect(divergence.verdict).toBe("information");
    expect(divergence.note).toMatch(/^none where it trims; .*no trim at \d+ of 29 places/);
    expect(load.note).toMatch(/no trim at \d+ of 57 airspeeds/);
    for (const nowhere of equilibriumFindings(searched("carried.airloads.pitch.Cm0=2"), "x", "full", rests))
      expect(nowhere.verdict).toBe("not analysed");
  });

  it("are not made when the pair does not ask", () => {
    const reads = () => ({ pair: { studies: { hold: {} } }, paths: () => [] });
    expect(runEquilibrium({ reads } as unknown as HoldPartContext)).toBeNull();
  });
});
