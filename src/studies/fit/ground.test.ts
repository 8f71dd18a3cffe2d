import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import type { FitInputs, GroundInput } from "./inputs.ts";
import { computeFit } from "./run.ts";
import { carriedPoint, NOMINAL } from "./testing/closed-form.ts";
import { mover, part, rig } from "./testing/rigs.ts";

const DEGREE = Math.PI / 180;
const GROUND: GroundInput = {
  ...{ line: -1.6, flatTyre: 0.2, bottomedStrut: 0.18, mainWheels: { FS: 18.6, BL: 4.5 } },
  ...{ aftCg: { FS: 17.4, WL: 1.9 }, rotation: null },
};
/** Stowed, the carried datum lies at FS 13.7337, WL −1.0548. */
const [ORIGIN_FS, ORIGIN_WL] = carriedPoint(NOMINAL, 14 * DEGREE, [-2.1, -1.85]);
const exact = { atol: 1e-9, why: "by hand" };
// Poses between nodes are interpolated; what is proven of that, a few micrometres, is taken off.
const stroke = { atol: 2e-5, why: "deviation of the stroke's table" };

function computed(changes: Partial<FitInputs> = {}, parts = [tail(), belly()]) {
  return computeFit(rig(parts, [], { ground: GROUND, ...changes }), "base");
}
const tail = () => part("carried.tail", "carried", { kind: "box", from: [7, -0.3, 0.3], to: [8, 0.3, 0.5] });
const belly = () => part("carrier.belly", "carrier", { kind: "box", from: [2, -1, 0], to: [12, 1, 1] });

describe("the ground line", () => {
  it("gives the height of the lowest corner in every state", () => {
    const states = computed().ground?.states ?? [];
    expect(states.map(({ name }) => name)).toEqual([
      "static",
      "flat tyre",
      "bottomed strut",
      "flat tyre and bottomed strut",
    ]);
    [-1.6, -1.4, -1.42, -1.22].forEach((line, i) => {
      expectClose(states[i].groundLine_m, line, exact, "line");
      expectClose(states[i].clearance_m, ORIGIN_WL + 0.3 - line, stroke, "height");
      expect(states[i].at.part).toBe("carried.tail");
      expectClose(
        states[i].parts.find(({ part: name }) => name === "carrier.belly")?.clearance_m ?? 0,
        -line,
        exact,
        "belly",
      );
    });
  });

  it("follows the stroke by the closed form", () => {
    const [state] = computed().ground?.states ?? [];
    for (const { boomAngle_deg, clearance_m } of state.alongStroke) {
      const angle = boomAngle_deg * DEGREE;
      const corners = [4.9, 5.9].map((behind) => carriedPoint(NOMINAL, angle, [behind, 0.3 - 1.85])[1]);
      expectClose(clearance_m, Math.min(0, ...corners) + 1.6, stroke, `at ${boomAngle_deg}`);
    }
  });

  it("limits rotation by the angle of the corner behind the wheels", () => {
    const states = computed().ground?.states ?? [];
    for (const { groundLine_m: line, rotationLimits, tipBack_deg } of states) {
      const [stowed, , extended] = rotationLimits;
      const angle = Math.atan2(ORIGIN_WL + 0.3 - line, ORIGIN_FS + 8 - 18.6) / DEGREE;
      expectClose(stowed.limit_deg ?? 0, angle, { atol: 1e-3, why: "table of the stroke" }, "stowed");
      expect(stowed.part).toBe("carried.tail");
      // Extended the tail is below the ground: no rotation is left.
      expect(extended.pose).toBe("stuck extended");
      expect(extended.limit_deg).toBe(0);
      const empty = rotationLimits.filter((one) => one.pose.endsWith("empty"));
      // Without the aircraft only the belly is left, which lies before the wheels.
      expect(empty.map((one) => one.limit_deg)).toEqual([null, null]);
      expectClose(tipBack_deg ?? 0, Math.atan2(1.2, 1.9 - line) / DEGREE, exact, "tip-back");
    }
  });

  it("does not measure bodies with wheels, and takes their group extended", () => {
    const leg = part(
      "gear.leg",
      "gear",
      { kind: "strut", from: [18.6, 4.5, 2], to: [18.6, 4.5, -1.5], radius: 0.1 },
      { group: "gear" },
    );
    const wheel = part(
      "gear.wheel",
      "gear",
      { kind: "wheel", centre: [18.6, 4.5, -1], radius: 0.6, width: 0.4, edgeRadius: 0 },
      { group: "gear" },
    );
    const door = part("door.plate", "gear", { kind: "box", from: [17, 3, 0.1], to: [18, 4, 0.2] }, { group: "gear" });
    const quarter = -Math.PI / 2;
    const movers = [mover("gear", [18.6, 4.5, 2], [0, 1, 0], 0), mover("door", [17, 3, 0.1], [1, 0, 0], quarter)];
    const result = computeFit(rig([belly(), leg, wheel, door], movers, { ground: GROUND }), "base");
    const parts = result.ground?.states[0].parts ?? [];
    expect(parts.map((one) => one.part).sort()).toEqual(["carrier.belly", "door.plate"]);
    // Its edge hangs 1 m below the hinge.
    expectClose(parts.find((one) => one.part === "door.plate")?.clearance_m ?? 0, 0.1 - 1 + 1.6, exact, "door");
  });
});

describe("loading", () => {
  const fin = () => part("carried.fin", "carried", { kind: "box", from: [6, -0.05, 0.5], to: [7, 0.05, 1.9] });
  const aft = () => part("carrier.belly", "carrier", { kind: "box", from: [10, -1, 0.2], to: [25, 1, 1] });
  const loading = { dollyHeight: 0.5, from: "aft" as const, margin: 0.05 };

  it("raises the carrier just so that the fin passes under the belly", () => {
    const result = computed({ loading }, [fin(), aft()]).loading;
    // On the dolly the fin ends 2.4 m above the ground; the belly lies 1.8 m above it.
    const needed = 2.4 + 0.05 - 1.8;
    expect(result?.requiredJacking_m).toBeGreaterThanOrEqual(needed);
    expectClose(result?.requiredJacking_m ?? 0, needed, { atol: 1.1e-3, why: "bisection to 1 mm" }, "raise");
    expect(result?.governing).toEqual(["carried.fin", "carrier.belly"]);
    expect(result?.unraisedClearance_m).toBe(0);
    const under = result?.steps.find((step) => step.name.includes("under"));
    expectClose(under?.leastClearance_m ?? 0, 0.05, { atol: 1.2e-3, why: "margin" }, "under");
    expectClose(under?.height_m ?? 0, 0.5, exact, "dolly");
    // Up in its place: 13.7337 + 6 … 7 in FS, its top in the belly. The shapes overlap there, and the step says so.
    expect(result?.steps.at(-1)?.leastClearance_m).toBe(0);
  });

  it("comes from forward as well, and needs nothing where everything passes", () => {
    const low = part("carried.fin", "carried", { kind: "box", from: [6, -0.05, 0.5], to: [7, 0.05, 0.9] });
    const result = computed({ loading: { ...loading, from: "forward" } }, [low, aft()]).loading;
    expect(result?.requiredJacking_m).toBe(0);
    expectClose(
      result?.unraisedClearance_m ?? 0,
      1.8 - 1.4,
      { atol: 6e-3, why: "tolerance of the bound" },
      "clearance",
    );
    expect(result?.steps[0].aftOfStowed_m).toBeLessThan(0);
  });

  it("says when no height helps", () => {
    const wall = part("carrier.keel", "carrier", { kind: "box", from: [22, -0.5, -6], to: [23, 0.5, 1] });
    expect(computed({ loading }, [fin(), wall]).loading?.requiredJacking_m).toBeNull();
  });
});
