/** The group × stroke map: two rigs whose only way differs, and every cell against poses from the closed form. */
import { describe, expect, it } from "vitest";
import { createDistanceQuery, createPose, minimumDistance, type Pose } from "../../src/physics/shapes/index.ts";
import { buildBodies } from "../../src/studies/fit/bodies.ts";
import { pitchedPose } from "../../src/studies/fit/frames.ts";
import type { FitInputs, PartInput } from "../../src/studies/fit/inputs.ts";
import { computeFit } from "../../src/studies/fit/run.ts";
import { NOMINAL, pitchAt, socketAt } from "../../src/studies/fit/testing/closed-form.ts";
import { mover, part, rig } from "../../src/studies/fit/testing/rigs.ts";
import type { GearMap } from "../../src/studies/fit/types.ts";

const DEGREE = Math.PI / 180;
const pod = part("carried.pod", "carried", { kind: "box", from: [3, -0.3, 1], to: [4, 0.3, 1.4] });
/** Swings down and inboard, to where the pod is stowed. */
const swinging = part(
  "arm.plate",
  "gear",
  { kind: "box", from: [16.8, 1.5, 0.13], to: [17.6, 2.9, 0.17] },
  { group: "gear" },
);
const swingingHinge = mover("arm", [17, 1.5, 0.15], [1, 0, 0], -Math.PI);
/** Closed it lies under the pod, open it hangs beside it. */
const closing = part(
  "lid.plate",
  "gear",
  { kind: "box", from: [16, -0.2, -0.42], to: [18, 1.5, -0.38] },
  { group: "gear" },
);
const closingHinge = mover("lid", [17, 1.5, -0.4], [1, 0, 0], 100 * DEGREE);

const late = rig([pod, swinging], [swingingHinge], { mapNodes: 41 });
const early = rig([pod, closing], [closingHinge], { mapNodes: 41 });
const mapOf = (inputs: FitInputs): GearMap => computeFit(inputs, "base").maps[0];

describe("the permitted order of moves", () => {
  it("is boom first where the swinging plate meets the stowed pod", () => {
    const { path, wayBack, groupMayMove_deg: may } = mapOf(late);
    expect(path?.steps).toEqual([
      "Lower the boom from 14.0° to 52.0° with the gear closed.",
      "Move the gear from closed to open with the boom at 52.0°.",
    ]);
    expect(wayBack?.steps).toEqual([
      "Move the gear from open to closed with the boom at 52.0°.",
      "Raise the boom from 52.0° to 14.0° with the gear closed.",
    ]);
    // The whole swing is only permitted once the boom has taken the pod out of the way.
    expect(may).toHaveLength(1);
    expect(may[0][0]).toBeGreaterThan(16);
    expect(may[0][1]).toBeCloseTo(52, 9);
  });

  it("is gear first where the closed plate lies under the pod", () => {
    const { path } = mapOf(early);
    expect(path?.steps).toEqual([
      "Move the gear from closed to open with the boom at 14.0°.",
      "Lower the boom from 14.0° to 52.0° with the gear open.",
    ]);
    expect(path?.leastClearance_m).toBeGreaterThan(0);
  });

  it("ends where nothing stands in the way any more", () => {
    for (const inputs of [late, early]) {
      const without = { ...inputs, parts: inputs.parts.filter(({ body }) => body !== "carried") };
      expect(mapOf(without).counts).toEqual({ free: 41 * 41, near: 0, collides: 0, unresolved: 0 });
      expect(mapOf(inputs).counts.collides).toBeGreaterThan(50);
    }
  });

  it("does not exist where a fixed part closes both ways, and the pair that closes it is named", () => {
    const floor = part("carrier.floor", "carrier", { kind: "box", from: [14, -1, -0.7], to: [20, 1, -0.6] });
    const { path, noPathBecause } = mapOf({ ...early, parts: [floor, ...early.parts] });
    expect(path).toBeNull();
    expect(noPathBecause).toContain("carrier.floor");
    expect(noPathBecause).toContain("carried.pod");
  });

  it("sees a part that lies wholly inside another", () => {
    const shell = part("carrier.shell", "carrier", { kind: "box", from: [8, -9, -9], to: [30, 9, 9] });
    expect(mapOf({ ...late, parts: [shell, ...late.parts] }).counts.collides).toBe(41 * 41);
  });
});

/** Distances from poses of the closed form, without the study's own motion. */
function exactDistance(inputs: FitInputs): (u: number, f: number) => number {
  const { parts } = buildBodies(inputs);
  const [plate, own] = [parts.find((one) => one.owner === "gear"), parts.find((one) => one.owner === "carried")];
  if (plate === undefined || own === undefined) throw new Error("both parts are there");
  const query = createDistanceQuery();
  const turn = inputs.movers[0].angles[1];
  const hinge = inputs.movers[0].hingeAt;
  return (u, f) => {
    const angle = 14 * DEGREE + u * 38 * DEGREE;
    const [fs, wl] = socketAt(NOMINAL, angle);
    const body = pitchedPose(pitchAt(NOMINAL, angle), [-2.1, 0, -1.85], [-fs, 0, -wl]);
    // A turn about the aft direction, −x: y and z in their plane.
    const [c, s] = [Math.cos(f * turn), -Math.sin(f * turn)];
    const pose: Pose = createPose();
    pose.rotation.set([1, 0, 0, 0, c, -s, 0, s, c]);
    const [y, z] = [hinge[1], -hinge[2]];
    pose.translation.set([0, y - c * y + s * z, z - s * y - c * z]);
    return minimumDistance(plate.tree, pose, own.tree, body, query).distance;
  };
}

describe("every cell of the map", () => {
  const cases: readonly [string, FitInputs][] = [
    ["swinging", late],
    ["closing", early],
  ];
  it.each(cases)("holds against dense sampling, %s plate", (_, inputs) => {
    const map = mapOf(inputs);
    const distance = exactDistance(inputs);
    const n = map.fractions.length;
    const dense = 6;
    let wrong = 0;
    for (let j = 0; j < n; j++) {
      for (let i = 0; i < n; i++) {
        let least = Infinity;
        for (let k = 0; k <= dense; k++) {
          for (let l = 0; l <= dense; l++) {
            const f = Math.min(1, Math.max(0, (i - 0.5 + k / dense) / (n - 1)));
            const u = Math.min(1, Math.max(0, (j - 0.5 + l / dense) / (n - 1)));
            least = Math.min(least, distance(u, f));
          }
        }
        const state = map.state[j * n + i];
        if (state === "free" && least < map.near_m) wrong += 1;
        if (state === "near" && !(least > 0)) wrong += 1;
        // Contact may lie between the samples, but not far from them: a sample is at most 1/12 of a cell away.
        if (state === "collides" && least > 0.012) wrong += 1;
        // Within one step of the subdivision a near cell has to be near.
        if (state === "near" && least > map.near_m + 0.012) wrong += 1;
      }
    }
    expect(wrong).toBe(0);
    // What cannot be decided is a thin line along contact.
    expect(map.counts.unresolved).toBeLessThan(0.02 * n * n);
  });

  it("is the same at any fineness where both certify it", () => {
    const coarse = mapOf({ ...late, mapNodes: 11 });
    const fine = mapOf(late);
    coarse.state.forEach((state, cell) => {
      if (state !== "free") return;
      const [i, j] = [cell % 11, Math.floor(cell / 11)];
      expect(fine.state[4 * j * 41 + 4 * i]).toBe("free");
    });
  });
});

describe("groups with several members", () => {
  const left = (one: PartInput): PartInput => one;
  const twin = rig([pod, left(swinging)], [{ ...swingingHinge, body: "arm", mirroredBody: "armLeft" }], {
    mapNodes: 31,
  });

  it("have maps with each member stuck", () => {
    const { maps } = computeFit(twin, "base");
    expect(maps.map(({ id }) => id)).toEqual([
      "gear",
      ...["arm", "armLeft"].flatMap((body) => [0, 0.5, 1].map((fraction) => `gear.${body}-held-${fraction}`)),
    ]);
    const of = (id: string) => maps.find((map) => map.id === id);
    // Stuck open in the pod's place: the boom can never be stowed, whatever the other does.
    expect(of("gear.arm-held-1")?.path).toBeNull();
    expect(of("gear.arm-held-1")?.boomMayMove_1).toEqual([]);
    // Stuck closed it is no worse than moving, and the mirror image says the same.
    expect(of("gear.arm-held-0")?.path?.steps).toEqual(of("gear")?.path?.steps);
    for (const fraction of [0, 0.5, 1]) {
      expect(of(`gear.armLeft-held-${fraction}`)?.state).toEqual(of(`gear.arm-held-${fraction}`)?.state);
    }
  });

  it("give the same bytes every time", () => {
    expect(JSON.stringify(computeFit(twin, "base"))).toBe(JSON.stringify(computeFit(twin, "base")));
  });
});
