import { beforeAll, describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { holdDemo } from "../../../test/support/load-demo.ts";
import type { HoldPartContext } from "../hold/index.ts";
import type { HoldDepthResult } from "../hold-depth/index.ts";
import { runScaling, type ScaledModel } from "./index.ts";

let result: HoldDepthResult;
let model: ScaledModel;
beforeAll(() => {
  result = holdDemo("Rev B", [], ["scaling"]);
  model = result.parts!.scaling!.models[0];
});

const named = (name: string, mass = "full") =>
  model.states.find((state) => state.mass === mass)!.quantities.find((each) => each.name === name)!;

describe("a similar model of the demo pair", () => {
  it("weighs what displaces the same share of air", () => {
    const sigma = 1.225 / result.points[0].density_kg_m3;
    expectClose(named("mass").model, 2600 * sigma * 0.2 ** 3, { rtol: 1e-6, why: "1.225 is rounded" });
    expectClose(named("pitching inertia Iyy").model, 5700 * sigma * 0.2 ** 5, { rtol: 1e-6, why: "1.225 is rounded" });
    expectClose(named("true airspeed").model, result.points[0].airspeed_m_s_TAS * Math.sqrt(0.2), {
      rtol: 1e-12,
      why: "Froude",
    });
  });

  it("keeps the damping ratios, and the frequencies that its own mass and stiffness give", () => {
    const spring = (value: "full" | "model") =>
      Math.sqrt(named("axial stiffness at the tip")[value] / named("effective tip mass")[value]);
    expectClose(spring("model") / spring("full"), 1 / Math.sqrt(0.2), { rtol: 1e-12, why: "Froude" });
    for (const state of model.states) {
      const point = result.points.find((each) => each.mass === state.mass)!;
      const computed = point.modes.filter((mode) => mode.imag_rad_s > 0);
      expect(state.modes.map((mode) => mode.dampingRatio)).toEqual(computed.map((mode) => mode.dampingRatio));
      state.modes.forEach((mode, i) => {
        expectClose(mode.modelFrequency_Hz, computed[i].frequency_Hz / Math.sqrt(0.2), { rtol: 1e-12, why: "Froude" });
      });
    }
  });

  it("brings a measurement back beside the nearest oscillation of its plane", () => {
    const [back] = model.measured;
    expectClose(back.fullFrequency_Hz, 1.66 * Math.sqrt(0.2), { rtol: 1e-12, why: "Froude" });
    const modes = result.points
      .find((point) => point.mass === "full")!
      .modes.filter((mode) => mode.plane === "longitudinal" && mode.imag_rad_s > 0);
    const gaps = modes.map((mode) => Math.abs(Math.log(mode.frequency_Hz / back.fullFrequency_Hz)));
    expect(back.nearest!.frequency_Hz).toBe(modes[gaps.indexOf(Math.min(...gaps))].frequency_Hz);
  });

  it("refers C1 and C2 to the tip as the jack does, wherever they are stated", () => {
    const angle = "mechanism.snubber.atBoomAngle=52 deg";
    const there = holdDemo("Rev B", [angle], ["scaling"]).parts!.scaling!.models[0].states[0].quantities;
    expectClose(there.find((each) => each.name.startsWith("bleed"))!.full, 3000, { rtol: 1e-12, why: "same pose" });
    expectClose(there.find((each) => each.name.startsWith("orifice"))!.full, 5000, { rtol: 1e-12, why: "same pose" });
  });

  it("says which Reynolds and Mach number it does not share, as findings and in the numbers", () => {
    expect(model.reynoldsRatio_1).toBeGreaterThan(0.05);
    expect(model.reynoldsRatio_1).toBeLessThan(0.2);
    expect(model.machRatio_1).toBeLessThan(1);
    const finding = result.findings.find((each) => each.id === "hold.hook.scaling.tunnel model.mass.full")!;
    expect(finding.note).toContain("Reynolds number");
    expect(finding.rests).toContain("studies.hold.scaling.tunnel model.length");
  });

  it("does not run without a model", () => {
    const reads = () => ({ pair: { studies: { hold: {} } }, paths: () => [] });
    expect(runScaling({ reads } as unknown as HoldPartContext)).toBeNull();
  });

  it("refuses a measurement at a loading that does not exist", () => {
    const set = "studies.hold.scaling.tunnel model.measured.0.mass=fool";
    expect(() => holdDemo("Rev B", [set])).toThrow(/unknown loading/);
  });
});
