import { beforeAll, describe, expect, it } from "vitest";
import type { Finding } from "../../src/studies/finding/index.ts";
import type { HoldResult } from "../../src/studies/hold/index.ts";
import { holdDemo } from "../support/load-demo.ts";

let revA: HoldResult;
let revB: HoldResult;
beforeAll(() => {
  revA = holdDemo();
  revB = holdDemo("Rev B");
});

function finding(result: HoldResult, id: string): Finding {
  const found = result.findings.find((each) => each.id === id);
  if (found === undefined)
    throw new Error(`no finding ${id} among ${result.findings.map((each) => each.id).join(", ")}`);
  return found;
}

describe("the lesson of the demo pair", () => {
  it("says that Rev A grows in pitch and heave and that Rev B does not", () => {
    const a = finding(revA, "hold.hook.longitudinal");
    expect(a.verdict).toBe("not met");
    expect(a.value).toBeLessThan(0);
    const growing = revA.points[0].modes.filter((mode) => mode.plane === "longitudinal" && mode.real_1_s > 0);
    expect(growing).toHaveLength(1);
    expect(growing[0].imag_rad_s).toBeGreaterThan(0);
    const b = finding(revB, "hold.hook.longitudinal");
    expect(b.verdict).toBe("met");
    expect(
      revB.points.every((point) => point.modes.every((mode) => mode.plane === "lateral" || mode.real_1_s < 0)),
    ).toBe(true);
  });

  it("says that Rev B misses the lateral criterion with controls fixed", () => {
    const lateral = finding(revB, "hold.hook.lateral");
    expect(lateral.verdict).toBe("not met");
    expect(lateral.value).toBeGreaterThan(0);
    expect(lateral.title).toContain("controls fixed");
  });

  it("meets the lateral criterion with the roll hold engaged", () => {
    const held = holdDemo("Rev B", ["control.rollHold.engaged=yes"]);
    const lateral = finding(held, "hold.hook.lateral");
    expect(lateral.value).toBeGreaterThan(finding(revB, "hold.hook.lateral").value!);
    expect(lateral.title).toContain("roll hold engaged");
  });
});

describe("modes", () => {
  it("class the axial spring mode near 9 Hz as structural and the slow ones as rigid-body type", () => {
    for (const point of [...revA.points, ...revB.points]) {
      const oscillating = point.modes.filter((mode) => mode.imag_rad_s > 0 && mode.plane === "longitudinal");
      const structural = oscillating.filter((mode) => mode.class === "structural");
      expect(structural).toHaveLength(1);
      expect(structural[0].frequency_Hz).toBeGreaterThan(8);
      expect(structural[0].frequency_Hz).toBeLessThan(11);
      expect(structural[0].strain.axial).toBeGreaterThan(0.9);
      for (const mode of oscillating) if (mode.frequency_Hz < 2) expect(mode.class).toBe("rigid-body-type");
    }
  });

  it("state shares that add up and names that are unique at a point", () => {
    for (const point of revB.points) {
      const names = point.modes.map((mode) => mode.name);
      expect(new Set(names).size).toBe(names.length);
      for (const mode of point.modes) {
        const total = Object.values(mode.energy).reduce((sum, share) => sum + share, 0);
        expect(total).toBeCloseTo(1, 9);
        if (!mode.name.startsWith("coupled")) expect(mode.share).toBeGreaterThanOrEqual(0.6);
      }
    }
  });

  it("agree between the point and the sweeps that pass through it", () => {
    for (const sweep of revB.sweeps) {
      const before = sweep.values.findLastIndex((value) => value <= sweep.at * (1 + 1e-12));
      if (before < 0 || Math.abs(sweep.values[before] - sweep.at) > 1e-9 * Math.abs(sweep.at)) continue;
      const swept = sweep.tracks.map((track) => track.dampingRatio[before]).filter((zeta) => zeta !== null);
      for (const mode of revB.points[0].modes) {
        const nearest = Math.min(...swept.map((zeta) => Math.abs(zeta - mode.dampingRatio)));
        expect(nearest, `${sweep.id} ${mode.name}`).toBeLessThan(1e-6);
      }
    }
  });
});

describe("choices", () => {
  it("find a snubber rate that neighbours do not beat", () => {
    for (const curve of [...revA.snubber, ...revB.snubber]) {
      // the optimum is looked at between the airspeeds of the curve too, which may only lower it
      expect(curve.optimum.dampingRatio).toBeGreaterThanOrEqual(Math.max(...curve.worstDampingRatio) - 1e-3);
      const inside =
        curve.rate_N_s_m[0] < curve.optimum.rate_N_s_m && curve.optimum.rate_N_s_m < curve.rate_N_s_m.at(-1)!;
      expect(inside, "boom bending in series gives an interior optimum").toBe(true);
    }
  });

  it("find no usable snubber rate for Rev A and one for Rev B", () => {
    expect(finding(revA, "hold.hook.longitudinal.snubber-optimum-damping").verdict).toBe("not met");
    expect(finding(revB, "hold.hook.longitudinal.snubber-optimum-damping").verdict).toBe("met");
  });

  it("give the stiffness above which everything up to rigid meets the criterion", () => {
    for (const need of [...revA.stiffness, ...revB.stiffness]) {
      expect(need.headline_N_m).not.toBeNull();
      const { stiffness_N_m: k, worstDampingRatio: zeta } = need.curve;
      k.forEach((value, i) => {
        if (value > need.headline_N_m!) expect(zeta[i]).toBeGreaterThanOrEqual(need.criterion_1);
      });
      const below = k.findLastIndex((value) => value < need.headline_N_m!);
      expect(zeta[below]).toBeLessThan(need.criterion_1);
      expect(need.stable.at(-1)!.from_N_m).toBeLessThan(need.headline_N_m!);
    }
  });

  it("take the equivalent snubber rate of the law when the pair gives no override", () => {
    const law = holdDemo("Rev B", ["mechanism.snubber.equivalent=~"]);
    // own closed form: C1 + (8/3π)·C2·(2π·f)·X
    const expected = 3000 + (8 / (3 * Math.PI)) * 5000 * (2 * Math.PI * 0.83) * 0.0225;
    expect(law.points[0].snubberRate_N_s_m).toBeCloseTo(expected, 6);
  });

  it("leave the pilot seconds, as the growth of the mode says", () => {
    expect(revA.pilotTime.length).toBeGreaterThan(0);
    expect(revB.pilotTime).toHaveLength(0);
    for (const entry of revA.pilotTime) {
      expect(entry.outcome).toBe("limit reached");
      // the upset lies only in part in the growing mode, so that the simulation takes longer, but not by much
      expect(entry.time_s).toBeGreaterThan(0.7 * entry.linearEstimate_s!);
      expect(entry.time_s).toBeLessThan(2 * entry.linearEstimate_s!);
    }
  });

  it("limit the airspeed where the modes cross the criterion, within what was searched", () => {
    const limits = revB.limits.filter((each) => each.id.startsWith("hold.hook.airspeed-lateral"));
    expect(limits.map(({ status }) => status)).toEqual(["prohibited", "analysed"]);
    expect(limits[0].lower).toBe(70);
    expect(limits[1].upper).toBe(140);
    expect(limits[0].upper).toBe(limits[1].lower);
    const at = (speed: number) => holdDemo("Rev B", [`conditions.hook.airspeed=${speed} m/s EAS`]);
    expect(finding(at(limits[1].lower! + 0.01), "hold.hook.lateral").verdict).toBe("met");
    expect(finding(at(limits[0].upper! - 0.01), "hold.hook.lateral").verdict).toBe("not met");
  });

  it("prohibit airspeeds at which a mass stalls", () => {
    const wide = holdDemo("Rev A", ["studies.hold.sweeps.airspeed={ from: 40 m/s EAS, to: 140 m/s EAS }"]);
    const allowed = wide.limits.filter(({ status }) => status === "analysed");
    // VS1 of the full mass: W = ½ρ₀V²·S·CLmax with the values of the pair
    const stall = Math.sqrt((2 * 2600 * 9.80665) / (1.225 * 8.2 * 1.35));
    for (const limit of allowed) expect(limit.lower).toBeGreaterThan(stall - 0.01);
  });

  it("find the weight share at which the jack load changes sign", () => {
    const { value } = finding(revA, "hold.hook.full.jack-sign-share");
    const load = (share: number) =>
      finding(holdDemo("Rev A", [`conditions.hook.weightShare=${share}`]), "hold.hook.full.jack-load").value!;
    expect(value).toBeGreaterThan(0);
    expect(load(value! - 0.002) * load(value! + 0.002)).toBeLessThan(0);
  });
});

describe("findings", () => {
  it("rest on what they use: a mass state moves its own findings only", () => {
    const moved = holdDemo("Rev B", ["carried.massStates.empty.mass=1880 kg"]);
    const changed = moved.findings.filter((each) => {
      const old = revB.findings.find((other) => other.id === each.id);
      return old?.inputHash !== each.inputHash;
    });
    expect(changed.length).toBeGreaterThan(0);
    for (const each of moved.findings) {
      const rests = each.rests.includes("carried.massStates.empty.mass");
      expect(changed.includes(each), each.id).toBe(rests);
    }
    expect(finding(moved, "hold.hook.full.longitudinal.damping").rests).not.toContain("carried.massStates.empty.mass");
    expect(finding(moved, "hold.hook.full.tow-load").rests).not.toContain("mechanism.snubber.C1");
  });

  it("are the same bytes in every run", () => {
    expect(JSON.stringify(holdDemo("Rev B"))).toBe(JSON.stringify(revB));
  });

  it("say when there is no trim instead of failing", () => {
    const powerless = ["carried.airloads.pitch.Cmelevator=0 1/rad", "carried.airloads.lift.CLelevator=0 1/rad"];
    const slow = holdDemo("Rev B", powerless);
    expect(slow.points[0].outcome).toBe("no trim");
    expect(finding(slow, "hold.hook.longitudinal").verdict).toBe("not met");
  });

  it("name the mode that decides, with the criterion that judges it", () => {
    const spinning = holdDemo("Rev B", ["carried.airloads.yaw.Cnbeta=-0.085 1/rad"]);
    const lateral = finding(spinning, "hold.hook.lateral");
    expect([lateral.verdict, lateral.unit, lateral.criterion?.limit]).toEqual(["not met", "s", 20]);
    expect(lateral.value).toBeLessThan(20);
    for (const each of [...revA.findings, ...revB.findings, ...spinning.findings]) {
      if (each.value === null || each.criterion === undefined) continue;
      const { sense, limit } = each.criterion;
      expect(each.verdict === "met", each.id).toBe(sense === "at least" ? each.value >= limit : each.value <= limit);
    }
  });

  it("judge aileron and rudder when the c.g. lies off the middle plane", () => {
    const off = holdDemo("Rev B", ["carried.massStates.full.cg.BL=0.5 m", "conditions.hook.masses=[full]"]);
    const aileron = finding(off, "hold.hook.full.aileron");
    expect(aileron.criterion?.source).toBe("control travel of the pair");
    expect(Math.abs(aileron.value!)).toBeGreaterThan(1);
    expect(off.points[0].trim?.aileron_deg).toBe(aileron.value);
  });

  it("refuse what is supersonic, with its path", () => {
    expect(() => holdDemo("Rev B", ["conditions.hook.altitude=19 km"])).toThrow(/studies.hold.speedBand.to.*Mach 1/s);
  });

  it("rest on the swing path in the plane that it moves only", () => {
    const stiffer = holdDemo("Rev B", ["mechanism.boom.bending=95 kN/m"]);
    const hash = (result: HoldResult, id: string) => finding(result, id).inputHash;
    expect(hash(stiffer, "hold.hook.lateral")).toBe(hash(revB, "hold.hook.lateral"));
    expect(hash(stiffer, "hold.hook.longitudinal")).not.toBe(hash(revB, "hold.hook.longitudinal"));
  });
});
