import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { fitFindings } from "./findings.ts";
import type { FitInputs } from "./inputs.ts";
import { fitLimits } from "./limits.ts";
import type { ReadGroups } from "./read-pair.ts";
import { computeFit } from "./run.ts";
import { mover, part, rig } from "./testing/rigs.ts";
import { TOLERANCE_SEED } from "./tolerance.ts";

const GROUPS: ReadGroups = {
  bodies: new Map([
    ["carrier", ["carrier.shapes"]],
    ["carried", ["carried.shapes"]],
    ["door", ["carrier.moving.door"]],
  ]),
  ...{ linkage: ["linkage"], tolerances: ["tolerances"], masses: ["masses"], capacity: ["capacity"] },
  ...{
    ground: ["ground"],
    rotation: ["rotation"],
    loading: ["loading"],
    criteria: ["criteria"],
    settings: ["settings"],
  },
};
const CONTEXT = { study: "fit", version: "test", seed: null, hash: (paths: readonly string[]) => paths.join(" ") };
const CRITERIA: FitInputs["criteria"] = {
  staticClearance: { value: 0.0254, source: "a standard" },
  movingClearance: { value: 0.075, source: "project criterion" },
  transmissionAngle: { value: Math.PI / 6, source: "project criterion" },
};
const pod = (low: number) => part("carried.pod", "carried", { kind: "box", from: [3, -0.3, low], to: [4, 0.3, 1.4] });
const roof = part("carrier.roof", "carrier", { kind: "box", from: [16, -1, 0.445], to: [19, 1, 0.6] });
const judge = (inputs: FitInputs) => {
  const fit = computeFit(inputs, "base");
  return { fit, findings: fitFindings(inputs, fit, GROUPS, CONTEXT), limits: fitLimits(inputs, fit) };
};

describe("findings", () => {
  const inputs = rig([roof, pod(1)], [], {
    ...{
      criteria: CRITERIA,
      stack: [
        { name: "build", value: 0.03 },
        { name: "thermal", value: 0.04 },
      ],
    },
    ground: {
      ...{ line: -1.6, flatTyre: 0.2, bottomedStrut: 0.18, mainWheels: { FS: 17, BL: 4.5 }, aftCg: null },
      rotation: { value: 0.14, source: "project criterion" },
    },
  });
  const { findings, limits, fit } = judge(inputs);
  const of = (id: string) => findings.find((one) => one.id === id);

  it("have ids of their own, finite values and paths they rest on", () => {
    expect(new Set(findings.map(({ id }) => id)).size).toBe(findings.length);
    for (const { id, value, rests } of findings) {
      expect(id.startsWith("fit.")).toBe(true);
      expect(value === null || Number.isFinite(value)).toBe(true);
      expect(rests.length).toBeGreaterThan(0);
    }
    const ids = new Set(findings.map(({ id }) => id));
    for (const limit of limits) expect(limit.because.every((id) => ids.has(id))).toBe(true);
  });

  it("take the stack off before they judge", () => {
    // The pod's top lies 0.1 m under the roof when stowed (WL 0.345): 0.1 drawn, 0.03 after the stack of 0.07.
    const moving = of("fit.clearance.carrier.roof+carried.pod");
    const bound = { atol: 6e-4, why: "tolerance of the bound" };
    expectClose(moving?.value ?? 0, 0.03, bound, "moving");
    // WL 0.795 − 1.85 + 1.4 = 0.3452: a certified bound is never above the drawn gap.
    expect(moving?.value).toBeLessThan(0.445 - 0.3452 - 0.07 + 1e-5);
    expect(moving?.verdict).toBe("not met");
    expect(moving?.rests).toEqual(["carried.shapes", "carrier.shapes", "criteria", "linkage", "settings"]);
    const rss = fit.clearances.find((one) => one.kind === "moving")?.leastAfterStack_m.rss;
    expectClose(rss ?? 0, 0.05, bound, "root-sum-square");
    const still = of("fit.clearance.at-rest.stowed");
    expect(still?.verdict).toBe("met");
    expect(still?.criterion?.source).toBe("a standard");
    expectClose(still?.value ?? 0, 0.03, bound, "at rest");
  });

  it("name the seed where chance entered and only there", () => {
    for (const { id, seed } of findings) expect(seed).toBe(id.endsWith("sampled") ? TOLERANCE_SEED : null);
  });

  it("judge the mechanism", () => {
    expect(of("fit.stroke")?.verdict).toBe("met");
    expect(of("fit.transmission-angle")?.verdict).toBe("not met");
    expect(of("fit.transmission-angle")?.value).toBeCloseTo(9.28, 2);
    expect(of("fit.jack-load")?.verdict).toBe("met");
    expect(of("fit.jack-load")?.note).toContain("tension");
    const weak = { ...inputs, linkage: { ...inputs.linkage, jackCapacity: 90e3 } };
    expect(judge(weak).findings.find(({ id }) => id === "fit.jack-load")?.verdict).toBe("not met");
  });

  it("limit rotation to the worst state", () => {
    const limit = limits.find(({ id }) => id === "fit.rotation.stowed");
    expect(limit?.because).toEqual(["fit.ground.flat-tyre-and-bottomed-strut.rotation.stowed"]);
    expect(limit?.status).toBe("analysed");
  });
});

describe("what is wrong with the drawing", () => {
  it("is said of bodies that overlap as drawn, also where one swallows the other", () => {
    const inside = part("carrier.block", "carrier", { kind: "box", from: [14, -1, -1], to: [20, 1, 1] });
    const { findings } = judge(rig([inside, pod(1)]));
    const found = findings.find(({ id }) => id === "fit.overlap.carrier.block+carried.pod");
    expect(found?.verdict).toBe("not met");
  });

  it("is said of surfaces that are no solids", () => {
    const sheet = part("carrier.sheet", "carrier", {
      ...{ kind: "mesh", stations: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0), triangles: Uint32Array.of(0, 1, 2) },
    });
    const { findings } = judge(rig([sheet, pod(1)]));
    const found = findings.find(({ id }) => id === "fit.surface.carrier.sheet");
    expect(found?.verdict).toBe("not met");
    expect(found?.note).toContain("open");
  });
});

describe("what was left out", () => {
  const plate = part(
    "door.plate",
    "gear",
    { kind: "box", from: [16, 0.2, -0.2], to: [18, 1, -0.15] },
    { group: "doors" },
  );
  const hinged = { ...mover("door", [16, 1, -0.2], [1, 0, 0], 1.5), group: "doors" };
  const arm = part("boom.arm", "mechanism", { kind: "strut", from: [10.5, 0, 2.1], to: [15.6, 0, 0.85], radius: 0.06 });
  const probe = part("carried.probe", "carried", {
    kind: "strut",
    from: [2.1, 0, 1.2],
    to: [2.1, 0, 1.8],
    radius: 0.03,
  });
  const choose = (apart: FitInputs["apart"]) =>
    computeFit(rig([roof, plate, arm, pod(1), probe], [hinged], { apart }), "base");

  it("is what hangs on the carrier and the joints themselves", () => {
    const { leftOut, clearances, gearClearances } = choose([]);
    expect(leftOut.map(({ pair }) => pair.join(" ")).sort()).toEqual(["carrier door"]);
    const pairs = clearances.filter((one) => one.kind === "moving").map(({ pair }) => pair.join(" "));
    expect(pairs).toContain("carrier.roof carried.pod");
    expect(pairs).toContain("door.plate boom.arm");
    expect(gearClearances.map(({ pair }) => pair.join(" "))).toContain("door.plate carried.pod");
  });

  it("is only the carrier's shapes that a part hangs on, where the pair names them", () => {
    const sill = part("carrier.sill", "carrier", { kind: "box", from: [15, 1, -0.3], to: [17, 1.2, 0.1] });
    // 3 m to the left of the hinge line: far from the right door, in the way of a left one.
    const rail = part("carrier.railLeft", "carrier", { kind: "box", from: [15, -1.2, -0.3], to: [17, -1, 0.1] });
    const named = { ...hinged, mirroredBody: "doorLeft", hangsOn: ["sill"], mirroredHangsOn: ["railLeft"] };
    const { leftOut, gearClearances, maps } = computeFit(rig([roof, sill, rail, plate, arm], [named]), "base");
    expect(leftOut.map(({ pair }) => pair.join(" ")).sort()).toEqual([
      "carrier.railLeft doorLeft",
      "carrier.sill door",
    ]);
    const measured = gearClearances.map(({ pair }) => pair.join(" "));
    for (const pair of ["carrier.roof door.plate", "carrier.railLeft door.plate", "carrier.sill doorLeft.plate"])
      expect(measured).toContain(pair);
    expect(measured).not.toContain("carrier.sill door.plate");
    expect(maps[0].pairs.map((pair) => pair.join(" "))).toContain("carrier.roof door.plate");
    // Nothing named: measured against all, and the sill it hangs on is in contact.
    const bare = computeFit(rig([roof, sill, plate], [{ ...hinged, hangsOn: [] }]), "base");
    expect(bare.leftOut).toEqual([]);
    const own = bare.gearClearances.find(({ pair }) => pair.includes("carrier.sill"));
    expect([own?.state, own?.least_m]).toEqual(["contact", 0]);
  });

  it("is what the pair declares apart, by body or by part", () => {
    const parts = choose([["boom.arm", "door.plate"]]);
    expect(parts.leftOut.map(({ pair }) => pair.join(" "))).toContain("door.plate boom.arm");
    const bodies = choose([["carrier", "carried"]]);
    expect(bodies.clearances.some(({ pair }) => pair.includes("carrier.roof") && pair[1].startsWith("carried"))).toBe(
      false,
    );
  });
});
