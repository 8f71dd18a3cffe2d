import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { holdDemo, loadDemo } from "../../../test/support/load-demo.ts";
import { hashInputs, recordReads } from "../../inputs/index.ts";
import { readHoldInputs } from "../hold/index.ts";
import { readAttachment } from "./read-settings.ts";
import { inputsWith, uncertainValues } from "./uncertain.ts";

const part = (variant: string, set: string[] = []) => holdDemo(variant, set, ["attachment"]);
const quick = ["studies.hold.attachment.deviations=0", "conditions.hook.masses.0=full"];

describe("Rev B", () => {
  const result = part("Rev B");
  const found = result.parts!.attachment!;
  const finding = (id: string) => result.findings.find((one) => one.id === `hold.hook.attachment.${id}`)!;

  it("says from which boom angle on the pins must be latched, and what the sum is made of", () => {
    const rule = found.rules.find(({ plane }) => plane === "longitudinal")!;
    expect(rule.outcome).toBe("lost");
    expect(rule.rule_deg).toBe(Math.ceil(rule.nominal_deg! + rule.uncertainty_deg! + rule.margin_deg));
    const moves = rule.drivers.map(({ low_deg, high_deg }) => Math.max(low_deg!, high_deg!, rule.nominal_deg!));
    const squares = moves.reduce((sum, angle) => sum + (angle - rule.nominal_deg!) ** 2, 0);
    expectClose(Math.sqrt(squares), rule.uncertainty_deg!, { rtol: 1e-9, why: "root-sum-square" });
    expect(rule.drivers.map(({ path }) => path)).toContain("mechanism.accumulator.stiffness");
    const said = finding("retract.longitudinal");
    expect(said.value).toBe(rule.rule_deg);
    expect(said.verdict).toBe("met");
    expect(said.rests).toContain("mechanism.accumulator.stiffness");
    expect(said.rests).toContain("studies.hold.attachment.margin");
    const limits = result.limits.filter(({ id }) => id.startsWith("hold.hook.attachment"));
    // the lateral plane is not cleared for all that may be off
    expect(limits.map(({ status }) => status)).toEqual(["not cleared"]);
  });
  it("names the value that makes every pose unstable when it is off", () => {
    const said = finding("retract.lateral");
    expect([said.value, said.verdict]).toEqual([null, "not met"]);
    expect(said.note).toContain("carried.airloads.roll.Clbeta");
  });
  it("has a mode table for every state, and loads that carry what the wing does not", () => {
    const states = new Set(found.states.map(({ state }) => state));
    expect([...states]).toEqual([
      ...["free", "single point", "single point, socket", "left aft pin", "three point", "three point, in clearance"],
    ]);
    for (const point of found.states.filter(({ state }) => state === "three point")) {
      expect(point.outcome).toBe("trimmed");
      const { loads } = point;
      const up = loads!.socketUp_N + loads!.pins[0].up_N + loads!.pins[1].up_N;
      expect(up).toBeGreaterThan(0);
      expectClose(loads!.pins[0].tension_N, loads!.pins[1].tension_N, { rtol: 1e-6, why: "mirror images" });
    }
    const free = found.states.find(({ state, mass }) => state === "free" && mass === "full")!;
    expect(free.modes.filter(({ imag_rad_s }) => imag_rad_s > 0)).toHaveLength(3);
  });
  it("agrees with the modes of the base at single point", () => {
    const own = found.states.find(({ state, mass }) => state === "single point" && mass === "full")!;
    const base = result.points.find(({ mass }) => mass === "full")!;
    expect(own.modes.length).toBe(base.modes.length);
    const why = "linearised with its path, against the path added";
    own.modes.forEach((mode, i) => {
      expectClose(mode.real_1_s, base.modes[i].real_1_s, { rtol: 1e-6, atol: 1e-7, why });
      expect(mode.class).toBe(base.modes[i].class);
    });
  });
  it("loses damping along the stroke at single point alone", () => {
    const [stroke] = found.stroke;
    const of = (state: string) => stroke.states.find((one) => one.state === state)!.longitudinal;
    expect(of("single point")[0]).toBeLessThan(0);
    expect(of("single point").at(-1)).toBeGreaterThan(0);
    for (const value of of("three point")) expect(value).toBeGreaterThan(0.02);
  });
  it("answers what the modes left open", () => {
    expect(result.notAnalysed.join(" ")).not.toContain("Partly latched and three-point states.");
  });
});

describe("what the pair says or leaves out", () => {
  it("Rev A: no pose is enough", () => {
    const result = part("Rev A", quick);
    const said = result.findings.find(({ id }) => id === "hold.hook.attachment.retract.longitudinal")!;
    expect([said.value, said.verdict]).toEqual([null, "not met"]);
    expect(said.note).toContain("no pose is enough");
    expect(result.limits.find(({ id }) => id === "hold.hook.attachment.boom-angle")!.status).toBe("prohibited");
  });
  it("without uncertain values the rule is the boundary and the margin", () => {
    const [rule] = part("Rev B", quick).parts!.attachment!.rules;
    expect(rule.uncertainty_deg).toBe(0);
    expect(rule.rule_deg).toBe(Math.ceil(rule.nominal_deg! + 2));
  });
  it("a value changed inside gives what the pair changed outside gives", () => {
    const loaded = loadDemo("Rev B");
    const open = () => recordReads(loaded);
    const other = loadDemo("Rev B", ["mechanism.boom.bending=97 kN/m"]);
    const inside = inputsWith(open, "mechanism.boom.bending", 97e3);
    const outside = readHoldInputs(() => recordReads(other)).inputs;
    expect(inside.boom.tip.at(0.9)).toEqual(outside.boom.tip.at(0.9));
    expect(inside.jack).toEqual(outside.jack);
    const values = uncertainValues(open, ["mechanism.boom.bending", "mechanism.boom.length", "mechanism.boom.bending"]);
    expect(values.map(({ path }) => path)).toEqual(["mechanism.boom.bending"]);
    expectClose(values[0].sigma, 0.08 * 90e3, { rtol: 1e-12, why: "8 % (1σ)" });
    expect(hashInputs(loaded, ["mechanism.boom.bending"])).not.toBe(hashInputs(other, ["mechanism.boom.bending"]));
  });
  it("reads misfit, rates and fade from the pair", () => {
    const loaded = loadDemo("Rev B", [
      "mechanism.aftPins.misfit.along=0.5 mm",
      "mechanism.aftPins.misfit.lateral=0 mm",
    ]);
    const open = () => recordReads(loaded);
    const own = readAttachment(open, readHoldInputs(open).inputs)!;
    expect(own.pins!.misfit).toEqual({ along: 5e-4, lateral: 0 });
    const rate = (4 * 120) / (Math.PI * 2 * Math.PI * 0.8 * (Math.PI / 180));
    expectClose(own.socket!.linear.damping, rate, { rtol: 1e-9, why: "4·M/(π·Ω·Θ)" });
    expectClose(own.pins!.pitch((14 * Math.PI) / 180), 0, { atol: 1e-6, why: "drawn level when stowed" });
    expectClose(own.pins!.pitch((52 * Math.PI) / 180), Math.PI / 180, { rtol: 0.01, why: "about one degree extended" });
  });
});
