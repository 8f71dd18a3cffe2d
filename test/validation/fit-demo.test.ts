/** What `fit` finds on the demo pair, against the drawing's own figures and bands that a regression would leave. */
import { beforeAll, describe, expect, it } from "vitest";
import type { FitResult } from "../../src/studies/fit/index.ts";
import { expectClose } from "../support/close.ts";
import { fitDemo } from "../support/load-demo.ts";

const DEGREE = Math.PI / 180;
let fit: FitResult;
beforeAll(() => {
  fit = fitDemo();
});

function finding(id: string) {
  const found = fit.findings.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no finding ${id} among ${fit.findings.map((each) => each.id).join(", ")}`);
  return found;
}

describe("gear door and wing tip", () => {
  // Drawn: inner edge of the open door at BL 3.860, tip of the wing at BL 3.700.
  const NOMINAL = 3.86 - 3.7;
  it.each(["Right", "Left"])("are certified to clear by almost the drawn gap, %s", (side) => {
    const found = fit.gearClearances.find(
      ({ pair }) => pair.includes(`mainInnerDoor${side}.door`) && pair.includes("carried.wing"),
    );
    if (found === undefined) throw new Error("the pair was not measured");
    expect(found.least_m).toBeLessThanOrEqual(NOMINAL);
    expectClose(
      found.least_m,
      0.148,
      { atol: 0.002, why: "bounds meet within 5 % below 0.5 m, less faceting" },
      "least",
    );
    // The tip is a faceted edge: it may lie inside the drawn one by its faceting error, never outside.
    const reached = Math.min(...found.alongFraction.map(({ upper_m }) => upper_m));
    expect(reached).toBeGreaterThanOrEqual(NOMINAL - 1e-9);
    expectClose(reached, NOMINAL, { atol: 0.002, why: "distance found at the poses" }, "reached");
    // The door is fully open from 60 % of the travel on.
    expectClose(found.at.fraction_1, 0.6, { atol: 0.02, why: "corner of the travel table" }, "where");
    expect(found.state).toBe("near");
    const { value, verdict } = finding(`fit.gear.mainInnerDoor${side}.door+carried.wing`);
    expectClose(value ?? Number.NaN, found.least_m - 0.047, { atol: 1e-12, why: "12 + 20 + 15 mm stack" }, "finding");
    expect(verdict).toBe("met");
  });

  it("leave the order of moves: boom first, then gear", () => {
    const map = fit.maps.find(({ id }) => id === "gear");
    expect(map?.path?.steps).toEqual([
      "Lower the boom from 14.0° to 52.0° with the gear retracted.",
      "Move the gear from retracted to extended with the boom at 52.0°.",
    ]);
    expect(map?.counts).toMatchObject({ collides: 0, unresolved: 0 });
  });
});

describe("motion between the solved poses", () => {
  it("is proven along the whole stroke, to some micrometres, and the assumptions say so", () => {
    const text = fit.assumptions.find((one) => one.includes("Proven from the equations of the joints"));
    const bound = /more than ([\d.]+) µm/.exec(text ?? "")?.[1];
    expect(Number(bound)).toBeGreaterThan(0);
    expect(Number(bound)).toBeLessThanOrEqual(20);
    expect(fit.assumptions.some((one) => one.includes("could not be proven"))).toBe(false);
  });

  it("leaves every lower bound below the distance that was found", () => {
    for (const { pair, alongStroke, least_m } of fit.clearances) {
      const found = Math.min(...alongStroke.map(({ upper_m }) => upper_m));
      expect(least_m, pair.join(" to ")).toBeLessThanOrEqual(found);
      for (const { lower_m, upper_m } of alongStroke) expect(lower_m).toBeLessThanOrEqual(upper_m);
    }
  });
});

describe("gear and doors against the carrier", () => {
  it("are measured but for the shapes that they hang on, and clear", () => {
    const of = (body: string) =>
      fit.leftOut.filter(({ pair }) => pair.includes(body)).map(({ pair }) => pair.find((name) => name !== body));
    expect(of("mainGearLeft")).toEqual(["carrier.nacelleInnerLeft", "carrier.gearFairingLeft"]);
    expect(of("bayDoorRight")).toEqual(["carrier.bay"]);
    const carrier = fit.gearClearances.filter(({ pair }) => pair.some((name) => name.startsWith("carrier.")));
    expect(carrier.length).toBeGreaterThan(100);
    expect(carrier.every(({ state }) => state === "clear")).toBe(true);
    // Closed: the door's top at WL 0.30, the nacelle's bottom at WL 1.95 − 1.40. The distance at the poses bounds from above.
    const door = carrier.find(
      ({ pair }) => pair.includes("mainInnerDoorRight.door") && pair.includes("carrier.nacelleInnerRight"),
    );
    expectClose(door?.alongFraction[0].upper_m ?? Number.NaN, 0.25, { atol: 0.001, why: "drawn, faceting" }, "closed");
    expect(finding("fit.gear.others").verdict).toBe("met");
  });
});

describe("loading on the ground", () => {
  it("needs the carrier raised by 0.41 m, for the probe under the lip of the aft fuselage", () => {
    const { loading } = fit;
    if (loading === null) throw new Error("no loading");
    // Drawn: belly at WL 0 behind the bay, ground at WL −1.60, probe 1.85 m above the dolly, margin 0.15 m.
    const straight = 1.85 + 0.15 - 1.6;
    expect(loading.requiredJacking_m).toBeGreaterThanOrEqual(straight);
    expectClose(loading.requiredJacking_m ?? Number.NaN, 0.41, { atol: 0.004, why: "1 mm steps, bounds" }, "raise");
    expect(loading.governing).toEqual(["carried.probe", "carrier.fuselageAft"]);
    expect(loading.unraisedClearance_m).toBe(0);
    const rolling = loading.steps.filter(({ name }) => /^(?:dolly|rolling)/.test(name));
    expect(rolling).toHaveLength(9);
    for (const step of rolling) expect(step.leastClearance_m).toBeGreaterThanOrEqual(loading.margin_m - 1e-9);
  });
});

describe("rotation", () => {
  it("is limited to 8.03° by the tail, with flat tyre and bottomed strut", () => {
    const state = fit.ground?.states.find(({ name }) => name === "flat tyre and bottomed strut");
    const limit = state?.rotationLimits.find(({ pose }) => pose === "stowed");
    if (state === undefined || limit === undefined || limit.point === null) throw new Error("no limit");
    expectClose(state.groundLine_m, -1.6 + 0.2 + 0.18, { atol: 1e-12, why: "drawn" }, "ground line");
    expect(limit.part).toBe("carried.tail");
    // By hand: trailing edge of the tail panel's tip; the probe tip (FS 2.100, WL 1.850) hangs at FS 15.834, WL 0.795.
    const fs = 15.834 - 2.1 + 6.94 + 1.02 * Math.tan(25 * DEGREE) + 0.45;
    const wl = 0.795 - 1.85 + 0.848 - 1.02 * Math.sin(35 * DEGREE);
    expectClose(limit.point[0], fs, { atol: 1e-3, why: "drawn to the millimetre" }, "FS of what touches");
    expectClose(limit.point[2], wl, { atol: 1e-3, why: "drawn to the millimetre" }, "WL of what touches");
    const byHand = Math.atan2(wl - state.groundLine_m, fs - 18.6) / DEGREE;
    expect(limit.limit_deg).toBeLessThanOrEqual(byHand);
    expectClose(limit.limit_deg ?? Number.NaN, byHand, { atol: 0.1, why: "faceting, 5 mm at 3 m" }, "by hand");
    expectClose(limit.limit_deg ?? Number.NaN, 8.03, { atol: 0.02, why: "the finding of the demo" }, "limit");
    const { value, verdict } = finding("fit.ground.flat-tyre-and-bottomed-strut.rotation.stowed");
    expect([value, verdict]).toEqual([limit.limit_deg, "met"]);
  });
});
