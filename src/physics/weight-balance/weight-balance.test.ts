import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { percentOfChord, tipBack } from "../../../reference/analytic/weight-balance/closed-form.ts";
import { loadPublished } from "../../../reference/load.ts";
import { expectClose } from "../../../test/support/close.ts";
import {
  centreOf,
  chordShare,
  envelopeMargin,
  type PlacedMass,
  type TrimAirloads,
  tipBackAngle,
  trimChange,
  wheelLoads,
} from "./index.ts";

const at = (mass: number, FS: number): PlacedMass => ({ mass, FS, BL: 0, WL: 0 });
const inch = 0.0254;

describe("centre of gravity", () => {
  const examples = loadPublished("weight-shift-examples");

  it("moves by published amounts when a load is moved", () => {
    for (const row of examples.table("moved")) {
      const [total, cg, load] = [row("weight"), row("cg"), row("mass")];
      const rest = (total.si * cg.si - load.si * row("from").si) / (total.si - load.si);
      const moved = centreOf([at(total.si - load.si, rest), at(load.si, row("to").si)]);
      expectClose(moved.mass, total.si, { rtol: 1e-12, why: "a moved load changes no weight" });
      expectClose(moved.FS, row("after").si, { atol: 0.5 * row("after").lastDigitSi, why: "half the last digit" });
    }
  });

  it("comes to its limit with the published load moved", () => {
    const [row] = examples.table("needed");
    const [total, load] = [row!("weight").si, row!("shift").si];
    const rest = (total * row!("cg").si - load * row!("from").si) / (total - load);
    const moved = centreOf([at(total - load, rest), at(load, row!("to").si)]);
    // the load is printed to 0.05 lb, which moves the c.g. by 0.05·120/7800 in
    expectClose(moved.FS, row!("limit").si, {
      atol: (0.05 * 120 * inch) / 7800,
      why: "half the last digit of the load",
    });
  });

  it("keeps its place among the masses wherever the datum is, and lies between the outermost", () => {
    const masses = fc.array(
      fc.record({
        mass: fc.double({ min: 1, max: 1e4, noNaN: true }),
        FS: fc.double({ min: -50, max: 50, noNaN: true }),
        BL: fc.double({ min: -5, max: 5, noNaN: true }),
        WL: fc.double({ min: -5, max: 5, noNaN: true }),
      }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(masses, (given) => {
        const centre = centreOf(given);
        const shifted = centreOf(given.map((one) => ({ ...one, FS: one.FS + 10 })));
        expect(shifted.FS - centre.FS).toBeCloseTo(10, 9);
        expect(centre.FS).toBeGreaterThanOrEqual(Math.min(...given.map(({ FS }) => FS)) - 1e-9);
        expect(centre.FS).toBeLessThanOrEqual(Math.max(...given.map(({ FS }) => FS)) + 1e-9);
      }),
    );
    expect(() => centreOf([at(0, 1)])).toThrow("total mass");
  });

  it("is given along the chord as handbooks do", () => {
    const [cg, leading, trailing] = [724, 517, 1706];
    const share = chordShare(cg, { leadingEdge: leading, length: trailing - leading });
    expectClose(100 * share, percentOfChord(cg, leading, trailing), { rtol: 1e-12, why: "one formula written twice" });
    expect(100 * share).toBeGreaterThan(17.4);
    expect(100 * share).toBeLessThan(17.5);
  });
});

describe("envelope", () => {
  const envelope = {
    masses: Float64Array.of(30e3, 50e3, 60e3),
    forward: Float64Array.of(0.16, 0.16, 0.2),
    aft: Float64Array.of(0.33, 0.33, 0.3),
  };

  it("says how far inside, which limit is nearer, and is straight between rows", () => {
    const inside = envelopeMargin(envelope, 55e3, 0.2);
    expect(inside).toMatchObject({ side: "forward" });
    expect(inside.forwardLimit).toBeCloseTo(0.18, 12);
    expect(inside.least).toBeCloseTo(0.02, 12);
    expect(inside.massInside).toBe(5e3);
    const outside = envelopeMargin(envelope, 40e3, 0.34);
    expect(outside.side).toBe("aft");
    expect(outside.least).toBeCloseTo(-0.01, 12);
  });

  it("keeps the limits of the nearest row beyond the rows and says how far the mass is out", () => {
    expect(envelopeMargin(envelope, 61e3, 0.25)).toMatchObject({ forwardLimit: 0.2, massInside: -1e3 });
    expect(envelopeMargin(envelope, 29e3, 0.25)).toMatchObject({ aftLimit: 0.33, massInside: -1e3 });
    expect(() => envelopeMargin({ ...envelope, masses: Float64Array.of(5, 5, 6) }, 5, 0.2)).toThrow("masses");
  });
});

describe("wheels", () => {
  it("carry what published scales read, from the c.g. that these give", () => {
    const [row] = loadPublished("weight-shift-examples").table("weighing");
    const cell = (name: string): number => row!(name).si;
    const track = 1.5;
    const weighed: PlacedMass[] = [
      { mass: cell("nose"), FS: cell("noseAt"), BL: 0, WL: 0 },
      { mass: cell("right"), FS: cell("mainAt"), BL: track, WL: 0 },
      { mass: cell("left"), FS: cell("mainAt"), BL: -track, WL: 0 },
    ];
    const centre = centreOf(weighed);
    const loads = wheelLoads(centre.mass, centre, { noseFS: cell("noseAt"), mainFS: cell("mainAt"), mainBL: track });
    for (const name of ["nose", "right", "left"] as const) {
      expectClose(loads[name], cell(name), { rtol: 1e-12, why: "statics both ways" }, name);
    }
  });

  it("share the weight, lose the nose load above the main wheels, and tip back behind them", () => {
    const places = { noseFS: 5, mainFS: 18, mainBL: 4 };
    const loads = wheelLoads(100, { FS: 16.7, BL: 0.4 }, places);
    expect(loads.nose + loads.left + loads.right).toBeCloseTo(100, 12);
    expect(loads.right).toBeGreaterThan(loads.left);
    expect(wheelLoads(100, { FS: 18, BL: 0 }, places).nose).toBe(0);
    expect(wheelLoads(100, { FS: 18.5, BL: 0 }, places).noseShare).toBeLessThan(0);
    expect(tipBackAngle(18, 18.5, 3)).toBeLessThan(0);
  });

  it("tip back at the angle of the closed form", () => {
    const angle = (tipBackAngle(17.55, 17.1, 1.5) * 180) / Math.PI;
    expectClose(angle, tipBack(0.45, 1.5), { rtol: 1e-12, why: "one formula written twice" });
  });
});

describe("change of trim", () => {
  const air: TrimAirloads = {
    ...{ area: 146, chord: 4.05, dynamicPressure: 5500, referenceFS: 17, CLalpha: 5.6, Cmalpha: -1.2 },
    elevator: { CL: 0.4, Cm: -1.5 },
  };
  const g = 9.80665;

  it("leaves no residual of lift and moment", () => {
    const [before, after] = [
      { mass: 52e3, FS: 17.2 },
      { mass: 49.4e3, FS: 17.15 },
    ];
    const { trimmed, handsOff, loadFactorStep } = trimChange(before, after, air, g);
    const qS = air.dynamicPressure * air.area;
    const arm = (FS: number): number => (FS - air.referenceFS) / air.chord;
    const [liftB, liftA] = [(before.mass * g) / qS, (after.mass * g) / qS];
    const { alpha, elevator } = trimmed!;
    expect(air.CLalpha * alpha + 0.4 * elevator).toBeCloseTo(liftA - liftB, 12);
    const moment = air.Cmalpha * alpha - 1.5 * elevator + liftA * arm(after.FS) - liftB * arm(before.FS);
    expect(moment).toBeCloseTo(0, 12);
    const lift = liftB + air.CLalpha * handsOff!.alpha;
    expect(air.Cmalpha * handsOff!.alpha + lift * arm(after.FS) - liftB * arm(before.FS)).toBeCloseTo(0, 12);
    expect(handsOff!.loadFactor).toBeCloseTo(lift / liftA, 12);
    expect(loadFactorStep).toBeCloseTo(2.6 / 49.4, 12);
  });

  it("pitches nose down when a load behind the c.g. goes, and wants the elevator up", () => {
    const after = { mass: 50e3, FS: 17 };
    const before = centreOf([at(50e3, 17), at(2e3, 20)]);
    const change = trimChange(before, after, air, g);
    // the load's own moment about the c.g. that stays
    expect(change.momentStep).toBeCloseTo(-2e3 * g * 3, 3);
    expect(change.handsOff!.alpha).toBeLessThan(0);
    const balanced = trimChange({ mass: 50e3, FS: before.FS }, after, air, g);
    expect(balanced.trimmed!.elevator).toBeLessThan(0);
  });

  it("is nothing when nothing changes, and says where there is no control power or no stability", () => {
    const same = { mass: 50e3, FS: 17.1 };
    const nothing = trimChange(same, same, air, g);
    expect(nothing.loadFactorStep).toBe(0);
    expect(nothing.trimmed!.elevator + 0).toBe(0);
    expect(nothing.handsOff!.loadFactor).toBe(1);
    expect(trimChange(same, same, { ...air, elevator: null }, g).trimmed).toBeNull();
    expect(trimChange(same, { mass: 50e3, FS: 18.5 }, air, g).handsOff).toBeNull();
    expect(() => trimChange(same, same, { ...air, dynamicPressure: 0 }, g)).toThrow("dynamic pressure");
  });
});
