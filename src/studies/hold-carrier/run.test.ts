import { beforeAll, describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { holdDemo, loadDemo } from "../../../test/support/load-demo.ts";
import { hashInputs, type Pair, recordReads } from "../../inputs/index.ts";
import { type HoldPartContext, readHoldInputs } from "../hold/index.ts";
import type { HoldDepthResult } from "../hold-depth/index.ts";
import { type CarrierCase, type CarrierModel, type CarrierPoint, runCarrier } from "./index.ts";

let result: HoldDepthResult;
beforeAll(() => {
  result = holdDemo("Rev B", [], ["carrier"]);
});
const pointOf = (mass: string, of = result): CarrierPoint =>
  of.parts!.carrier!.points.find((point) => point.mass === mass)!;
const caseOf = (mass: string, model: CarrierModel, of = result): CarrierCase =>
  pointOf(mass, of).cases.find((each) => each.model === model)!;
/** ζ of the mode that comes from the least damped longitudinal oscillation of rigid-body type of the base. */
function nodding(mass: string, model: CarrierModel, of = result): number {
  const [base] = of.points
    .find((point) => point.mass === mass)!
    .modes.filter((mode) => mode.plane === "longitudinal" && mode.class === "rigid-body-type" && mode.imag_rad_s > 0)
    .sort((a, b) => a.dampingRatio - b.dampingRatio);
  return caseOf(mass, model, of).modes.find((mode) => mode.from === base.name)!.dampingRatio;
}

/** The part alone, on the base that does not depend on the carrier. */
function partAlone(set: string[], change: (carrier: Pair["carrier"]) => Partial<Pair["carrier"]> = () => ({})) {
  const loaded = loadDemo("Rev B", set);
  const reads = () => {
    const view = recordReads(loaded);
    const { carrier } = view.pair;
    return { ...view, pair: { ...view.pair, carrier: { ...carrier, ...change(carrier) } } };
  };
  const outcome = runCarrier({
    ...{ ...readHoldInputs(() => recordReads(loaded)), variant: "Rev B", reads, seed: 1, base: result, step: () => {} },
    findings: { study: "hold", version: "test", seed: 1, hash: (paths) => hashInputs(loaded, paths) },
  })!;
  return { ...result, ...outcome, limits: [], parts: { carrier: outcome.result } };
}

describe("the carrier in the motion of the demo pair", () => {
  it("has the modes of the base with a steady carrier and no flow", () => {
    for (const point of result.points) {
      const { modes } = caseOf(point.mass, "steady");
      expect(modes).toHaveLength(point.modes.length);
      for (const base of point.modes) {
        const same = modes.find(({ from }) => from === base.name)!;
        expectClose(same.real_1_s, base.real_1_s, { rtol: 1e-6, why: "two ways to one matrix" }, base.name);
        expectClose(
          same.imag_rad_s,
          base.imag_rad_s,
          { rtol: 1e-6, atol: 1e-9, why: "two ways to one matrix" },
          base.name,
        );
      }
    }
  });

  it("brings the carrier's own motions, near those that it has by itself", () => {
    const { alone } = result.parts!.carrier!;
    expect(alone[0].modes.map(({ name }) => name)).toEqual(["phugoid", "short period", "spiral", "Dutch roll", "roll"]);
    const own = caseOf("full", "rigid").modes.filter(({ from }) => from === null);
    for (const name of ["short period", "Dutch roll", "roll"]) {
      const free = alone[0].modes.find((mode) => mode.name === name)!;
      const far = own.map((mode) => Math.hypot(mode.real_1_s - free.real_1_s, mode.imag_rad_s - free.imag_rad_s));
      // a pair of 58 t and 2.6 t: a few percent
      expect(Math.min(...far) / Math.hypot(free.real_1_s, free.imag_rad_s), name).toBeLessThan(0.2);
    }
    for (const mode of caseOf("full", "rigid").modes) expect(mode.from === null).toBe(mode.carrierShare_1 > 0.5);
  });

  it("lowers the damping in the plane of symmetry: a carrier that gives way, more so in the flow", () => {
    for (const mass of ["full", "return", "empty"]) {
      expect(nodding(mass, "free mass")).toBeLessThan(nodding(mass, "steady"));
      expect(nodding(mass, "rigid")).toBeLessThan(nodding(mass, "free mass"));
      expect(nodding(mass, "rigid, flow with gradients")).toBeLessThan(nodding(mass, "rigid"));
      // the gradient along the stroke is a matter of trim, hardly one of damping
      const by = nodding(mass, "steady, flow with gradients") - nodding(mass, "steady, uniform flow");
      expect(Math.abs(by)).toBeLessThan(0.002);
      expect(by).not.toBe(0);
    }
  });

  it("changes with the carrier's mass as a carrier that grows heavy must: back to the steady one", () => {
    const [heavy, heavier] = [400, 800].map((tonnes) => partAlone([`carrier.dynamics.mass=${tonnes} t`]));
    const change = (of: HoldDepthResult): number => nodding("full", "free mass", of) - nodding("full", "steady", of);
    expectClose(change(heavy) / change(heavier), 2, { rtol: 0.05, why: "in proportion to 1/mass, to first order" });
  });

  it("trims in the flow: nose up by the downwash, more tow load, the same with and without gradient", () => {
    for (const mass of ["full", "return", "empty"]) {
      const [still, flow, even] = (["steady", "steady, flow with gradients", "steady, uniform flow"] as const).map(
        (model) => caseOf(mass, model).trim!,
      );
      const point = pointOf(mass);
      expectClose(flow.pitch_deg - flow.alpha_deg, point.flow!.downwash_deg, {
        rtol: 1e-9,
        why: "angle of the stream",
      });
      expect(flow.pitch_deg).toBeGreaterThan(still.pitch_deg + point.flow!.downwash_deg);
      expect(flow.towLoad_N).toBeGreaterThan(still.towLoad_N);
      expectClose(even.pitch_deg, flow.pitch_deg, { rtol: 1e-9, why: "same place" });
    }
    const at = pointOf("full").flow!;
    expect(at.downwashGradient_deg_m).toBeGreaterThan(0.13);
    expect(at.downwashGradient_deg_m).toBeLessThan(0.17);
  });

  it("says nothing beyond the flow table", () => {
    const shallow = ({ flow }: Pair["carrier"]): Partial<Pair["carrier"]> => {
      const { below, ...columns } = flow!.columns;
      return { flow: { ...flow!, columns: { ...columns, below: below.map((z) => z - 3) } } };
    };
    const steep = partAlone([], shallow);
    const outside = caseOf("full", "rigid, flow with gradients", steep);
    expect(outside.outcome).toBe("outside");
    expect(outside.trim).toBeNull();
    expect(outside.modes).toEqual([]);
    expect(pointOf("full", steep).flow).toBeNull();
    const finding = steep.findings.find(({ id }) => id === "hold.hook.carrier.full.longitudinal")!;
    expect(finding.value).toBeNull();
    expect(finding.verdict).toBe("not analysed");
    expect(steep.findings.some(({ id }) => id === "hold.hook.carrier.full.elevator")).toBe(false);
  });

  it("shows a gust at both: the distance hardly matters, the carrier's motion does", () => {
    const gust = pointOf("full").gust!;
    // carrier c.g. at FS 17.0; the other by probe, pitch and boom
    expectClose(gust.distance_m, -1.0, { atol: 0.1, why: "drawn place at FS 16" });
    expect(gust.lag_s).toBeLessThan(0);
    const [lagged, together, steady] = gust.curves.map(({ shear_N_per_m_s }) => Math.max(...shear_N_per_m_s));
    expect(Math.abs(lagged / together - 1)).toBeLessThan(0.05);
    expect(lagged).toBeGreaterThan(1.2 * steady);
    const spread = gust.curves.map(({ rms }) => rms.shear_N);
    // the spread of one velocity of 1 m/s cannot exceed its greatest response, and the spectrum puts some of it everywhere
    [lagged, together, steady].forEach((greatest, i) => {
      expect(spread[i]).toBeGreaterThan(0.05 * greatest);
      expect(spread[i]).toBeLessThan(greatest);
    });
    expect(Math.abs(spread[0] / spread[1] - 1)).toBeLessThan(0.05);
    expect(spread[1] / spread[2]).toBeGreaterThan(1.05);
    const finding = result.findings.find(({ id }) => id === "hold.hook.carrier.full.gust")!;
    expectClose(finding.value!, lagged, { rtol: 1e-12, why: "same number" });
  });

  it("does not speak of a response where the pair grows by itself", () => {
    const unstable = holdDemo("Rev A", [], ["carrier"]);
    expect(pointOf("full", unstable).gust!.curves).toEqual([]);
    expect(unstable.findings.find(({ id }) => id === "hold.hook.carrier.full.gust")!.verdict).toBe("not analysed");
    expect(unstable.findings.find(({ id }) => id === "hold.hook.carrier.full.longitudinal")!.verdict).toBe("not met");
  });

  it("answers the question with both sections, a part of it with one, and does not run without", () => {
    const noFlow = partAlone([], () => ({ flow: undefined }));
    expect(noFlow.answers).toEqual([]);
    expect(noFlow.notAnalysed.some((line) => line.includes("no carrier.flow"))).toBe(true);
    expect(pointOf("full", noFlow).cases.map(({ model }) => model)).toEqual(["steady", "free mass", "rigid"]);
    const noMotion = partAlone([], () => ({ dynamics: undefined }));
    expect(noMotion.notAnalysed.some((line) => line.includes("no carrier.dynamics"))).toBe(true);
    expect(pointOf("full", noMotion).gust).toBeNull();
    const open = (of: HoldDepthResult): boolean =>
      of.notAnalysed.some((line) => line.startsWith("The carrier's own motion and"));
    expect(open(result)).toBe(false);
    const finding = result.findings.find(({ id }) => id === "hold.hook.carrier.full.longitudinal")!;
    expect(finding.rests).toContain("carrier.dynamics.mass");
    expect(finding.rests).toContain("carrier.flow");
    const reads = () => ({ pair: { carrier: {} }, paths: () => [] });
    expect(runCarrier({ reads } as unknown as HoldPartContext)).toBeNull();
  });
});
