import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { branchesOf, plannedLegs, stateIn } from "./branches.ts";
import { stateChanges } from "./changes.ts";
import { fuelRanges, operations } from "./fuel-limits.ts";
import { groundStates } from "./ground.ts";
import { loadingItems, loadingTotals } from "./loading.ts";
import { computeBalance } from "./run.ts";
import { carriedAt, centreIn, contentsOf, fuelAtStart, type State, socketAt } from "./state.ts";
import { leg, smallCarrier } from "./testing.ts";
import { branchResult } from "./track.ts";

const alone = (burned: number): State => ({ burned, boomAngle: 0, carried: null, held: "three point", share: 1 });
const tank = (name: string, start: number, FS: number) => ({
  ...{ name, capacity: start, start, contents: [0], FS: [FS], BL: [0], WL: [3] },
});

describe("fuel", () => {
  const tanks = [tank("a", 3000, 17), tank("b", 1000, 18), tank("c", 2000, 19)];
  const inputs = smallCarrier({ tanks, burnOrder: [[2], [0, 1]] });

  it("burns group after group, in a group in proportion, and never makes or loses any", () => {
    expect(contentsOf(inputs, 500)).toEqual([3000, 1000, 1500]);
    expect(contentsOf(inputs, 4000)).toEqual([1500, 500, 0]);
    expect(contentsOf(inputs, 6000)).toEqual([0, 0, 0]);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 6000, noNaN: true }), (burned) => {
        const left = contentsOf(inputs, burned);
        expect(left.reduce((sum, one) => sum + one, 0)).toBeCloseTo(6000 - burned, 6);
        expect(Math.min(...left)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it("lies where the table of its tank says for its contents", () => {
    const moving = { ...tank("m", 4000, 0), contents: [0, 4000], FS: [16, 20], BL: [0, 0], WL: [1, 3] };
    const { mass, FS } = centreIn(smallCarrier({ tanks: [moving] }), alone(2000));
    expect(mass).toBe(32e3);
    expect(FS).toBeCloseTo((30e3 * 17 + 2e3 * 18) / 32e3, 12);
  });
});

describe("carried aircraft on the boom", () => {
  const { boom, carried } = smallCarrier();

  it("hangs on a circle about the hinge; at one point its weight acts at the socket, at three at its own c.g.", () => {
    const [FS, , WL] = socketAt(boom, Math.PI / 3);
    expect([FS, WL]).toEqual([expect.closeTo(12.5, 12), expect.closeTo(2 - 5 * Math.sin(Math.PI / 3), 12)]);
    expect(carriedAt(boom, Math.PI / 3, carried.out, "single point")).toMatchObject({ FS, WL });
    expect(carriedAt(boom, Math.PI / 3, carried.out, "three point").FS).toBeCloseTo(FS + 2, 12);
  });

  it("turns with the pitch of its yoke: nose up lowers what lies aft", () => {
    const pitch = { angles: Float64Array.of(0, 1), pitches: Float64Array.of(0.1, 0.1) };
    const tilted = carriedAt({ ...boom, pitch }, 0, carried.out, "three point");
    const level = carriedAt(boom, 0, carried.out, "three point");
    expect(tilted.WL - level.WL).toBeCloseTo(-(Math.cos(0.1) - 1) - 2 * Math.sin(0.1), 12);
    expect(Math.hypot(tilted.FS - 15, tilted.WL - 2)).toBeCloseTo(Math.hypot(2, 1), 12);
  });

  it("takes the swinging part of the kit along", () => {
    const inputs = smallCarrier({ kitBoom: { mass: 300, centreFromHinge: 2 } });
    const [up, down] = [alone(0), { ...alone(0), boomAngle: Math.PI / 3 }].map((state) => centreIn(inputs, state));
    expect(down!.mass).toBe(up!.mass);
    expect((down!.FS - up!.FS) * up!.mass).toBeCloseTo(300 * 2 * (Math.cos(Math.PI / 3) - 1), 6);
  });
});

describe("courses", () => {
  const inputs = smallCarrier();
  const branches = branchesOf(inputs);
  const byKey = (key: string) => branches.find((branch) => branch.key === key)!;

  it("are the plan, not recovered, light, jettisoned, and stuck with the aircraft held both ways and empty", () => {
    expect(branches.map(({ key }) => key)).toEqual([
      ...["planned", "not-recovered", "recovered-light", "jettisoned"],
      ...["stuck-60", "stuck-60-single-point", "stuck-60-empty"],
    ]);
    expect(plannedLegs(inputs).map(({ carried }) => carried?.name ?? null)).toEqual([
      ...["full", "full", "full", null, null, "return", "return", "return"],
    ]);
  });

  it("follow the plan until they leave it, with its times and its fuel", () => {
    const planned = plannedLegs(inputs);
    for (const { legs, first } of branches) {
      expect(legs.slice(0, first)).toEqual(planned.slice(0, first));
      expect(legs.map(({ from, burnedTo }) => [from, burnedTo])).toEqual(
        planned.map(({ from, burnedTo }) => [from, burnedTo]),
      );
    }
  });

  it("end as their names say", () => {
    const end = (key: string) => byKey(key).legs.at(-1)!;
    expect(end("not-recovered").carried).toBeNull();
    expect(end("recovered-light").carried!.name).toBe("empty");
    expect(byKey("jettisoned").legs.every(({ carried }) => carried === null)).toBe(true);
    expect(end("stuck-60")).toMatchObject({ boomTo: inputs.boom.extended, share: 1, held: "three point" });
    expect(end("stuck-60").carried!.name).toBe("full");
    expect(end("stuck-60-single-point").held).toBe("single point");
    expect(end("stuck-60-empty")).toMatchObject({ carried: null, boomTo: inputs.boom.extended });
  });

  it("have none of it where the aircraft never leaves", () => {
    const stays = smallCarrier({ legs: [leg("there and back", "stowed")] });
    expect(branchesOf(stays).map(({ key }) => key)).toEqual(["planned", "jettisoned"]);
  });
});

describe("track", () => {
  it("finds the worst moment between its rows", () => {
    // two tanks with far arms: the c.g. goes aft, turns where the first runs empty, and comes forward again
    const tanks = [tank("fore", 2345, 10), tank("rear", 3000, 22)];
    const legs = [leg("long", "away", { fuel: 5000 })];
    const inputs = smallCarrier({ tanks, burnOrder: [[0], [1]], legs });
    const { worst, track } = branchResult(inputs, branchesOf(inputs)[0]!);
    const kink = centreIn(inputs, alone(2345));
    expect(Math.max(...track.cg_percentMac)).toBeCloseTo(25 * (kink.FS - 16), 9);
    // forward limit here: the least margin is at the end that is farther forward
    const ends = [0, 5000].map((burned) => centreIn(inputs, alone(burned)).FS);
    expect(worst.FS_m).toBeCloseTo(Math.min(...ends), 9);
    const strict = smallCarrier({
      ...{ tanks, burnOrder: [[0], [1]], legs },
      envelope: { ...inputs.envelope, aft: Float64Array.of(0.4, 0.4), forward: Float64Array.of(-0.5, -0.5) },
    });
    const aft = branchResult(strict, branchesOf(strict)[0]!).worst;
    expect(aft).toMatchObject({ side: "aft", leg: "long", time_s: expect.closeTo((600 * 2345) / 5000, 6) });
  });

  it("refines a smooth worst moment inside a leg", () => {
    // the centre of the fuel runs forward and back with contents: a parabola of its moment
    const contents = Array.from({ length: 3 }, (_, i) => 5000 * i);
    const bent = { ...tank("bent", 10e3, 0), contents, FS: [30, 10, 18], BL: [0, 0, 0], WL: [3, 3, 3] };
    const inputs = smallCarrier({ tanks: [bent], legs: [leg("long", "away", { fuel: 10e3 })] });
    const { worst } = branchResult(inputs, branchesOf(inputs)[0]!);
    const dense = Array.from({ length: 20001 }, (_, i) => centreIn(inputs, alone(0.5 * i)).FS);
    const inTable = Math.min(...dense);
    expect(worst.FS_m).toBeLessThanOrEqual(inTable + 1e-12);
    expect(inTable - worst.FS_m).toBeLessThan(1e-6);
  });

  it("has two rows at one time where the aircraft comes or goes", () => {
    const inputs = smallCarrier();
    const { track } = branchResult(inputs, branchesOf(inputs)[0]!);
    const release = track.time_s.indexOf(1800);
    expect(track.time_s.lastIndexOf(1800)).toBe(release + 1);
    expect(track.mass_kg[release]! - track.mass_kg[release + 1]!).toBeCloseTo(0.5 * 2000, 9);
  });
});

describe("changes of state", () => {
  const air = { area: 100, chord: 4, dynamicPressure: 5000, referenceFS: 17, CLalpha: 5, Cmalpha: -1 };
  const changes = stateChanges(smallCarrier({ air: { ...air, elevator: { CL: 0.4, Cm: -1.5 } } }));

  it("are named in their order, the jettisons last", () => {
    expect(changes.map(({ key }) => key).slice(0, 6)).toEqual([
      ...["boom-lowered", "weight-taken", "release", "hook-on", "weight-taken-2", "boom-raised"],
    ]);
    expect(changes.slice(6).map(({ kind }) => kind)).toEqual(Array(6).fill("jettison"));
  });

  it("step the load factor by the share that was carried, s·m/M", () => {
    const release = changes.find(({ kind }) => kind === "release")!;
    expect(release.trim!.loadFactorStep_1).toBeCloseTo((0.5 * 2000) / release.after.mass_kg, 12);
    expect(changes.find(({ kind }) => kind === "hook-on")!.trim!.loadFactorStep_1).toBe(0);
    // the boom stays down while the aircraft goes: the shift is the load's alone
    const { before, after } = release;
    const socket = 12.5;
    expect(before.FS_m * before.mass_kg - after.FS_m * after.mass_kg).toBeCloseTo(1000 * socket, 4);
  });

  it("have no trim without derivatives, and no elevator without control power", () => {
    expect(stateChanges(smallCarrier()).every(({ trim }) => trim === null)).toBe(true);
    const [first] = stateChanges(smallCarrier({ air: { ...air, elevator: null } }));
    expect(first!.trim).toMatchObject({ elevator_deg: null, alpha_deg: null });
    expect(first!.trim!.handsOffAlpha_deg).not.toBeNull();
  });
});

describe("limits on fuel", () => {
  it("end where the c.g. crosses its limit, as solved by hand", () => {
    // hanging at the socket: (30 t·17 + F·18 + 2 t·12.5)/(32 t + F) = FS_limit
    const limit = 16.9;
    const margin = 0.01;
    const forward = (limit - 16) / 4 - margin;
    const inputs = smallCarrier({
      envelope: { ...smallCarrier().envelope, forward: Float64Array.of(forward, forward) },
    });
    const hanging = operations(inputs).find(({ key }) => key === "hanging")!;
    const [[from, to]] = fuelRanges(inputs, hanging, margin) as [[number, number]];
    const byHand = (32e3 * limit - 30e3 * 17 - 2e3 * 12.5) / (18 - limit);
    expect(from).toBeCloseTo(byHand, 3);
    expect(to).toBe(10e3);
  });

  it("are nowhere when a state is always outside", () => {
    const inputs = smallCarrier({
      envelope: { ...smallCarrier().envelope, forward: Float64Array.of(0.5, 0.5) },
    });
    expect(fuelRanges(inputs, operations(inputs)[0]!, 0)).toEqual([]);
  });
});

describe("ground and loading", () => {
  const inputs = smallCarrier();

  it("stands on its wheels at the start, at each end with the boom stowed, and while it is loaded", () => {
    const states = groundStates(inputs, branchesOf(inputs))!;
    expect(states.map(({ key }) => key)).toEqual([
      ...["start", "end-planned", "end-not-recovered", "end-recovered-light", "end-jettisoned"],
      ...["bare-with-aircraft", "bare"],
    ]);
    const bare = states.at(-1)!;
    expect(bare.noseShare_1).toBeCloseTo(3 / 15, 12);
    expect(bare.tipBack_deg).toBeCloseTo((Math.atan(3 / 4) * 180) / Math.PI, 9);
    expect(groundStates({ ...inputs, ground: null }, branchesOf(inputs))).toBeNull();
  });

  it("adds up to the first point of the track", () => {
    const total = loadingItems(inputs).reduce((sum, { mass_kg }) => sum + mass_kg, 0);
    const start = centreIn(inputs, stateIn(plannedLegs(inputs)[0]!, 0));
    expect(total).toBe(start.mass);
    const totals = new Map(loadingTotals(inputs).map((one) => [one.key, one]));
    expect(totals.get("start")!.FS_m).toBeCloseTo(start.FS, 12);
    expect(totals.get("start")!.mass_kg - totals.get("zero-fuel")!.mass_kg).toBe(fuelAtStart(inputs));
    expect(computeBalance(inputs, "x").start.mass_kg).toBe(total);
  });
});
