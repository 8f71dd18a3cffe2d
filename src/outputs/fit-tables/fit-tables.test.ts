import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fixtureFit } from "../testing/index.ts";
import {
  clearanceMatrix,
  heldRows,
  lowerAt,
  marginOf,
  mayMove,
  millimetres,
  refusal,
  strokeRows,
  telling,
} from "./index.ts";

const FIT = fixtureFit();

describe("clearance matrix", () => {
  const rows = clearanceMatrix(FIT);

  it("holds every pair once for each kind, the least margin first, zones last", () => {
    expect(rows).toHaveLength(FIT.clearances.length + FIT.gearClearances.length);
    const solid = rows.filter(({ zone }) => !zone);
    expect(rows.slice(0, solid.length)).toEqual(solid);
    const margins = solid.map(marginOf);
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
  });

  it("prints mirrored pairs that came out alike once, others apart", () => {
    const right = { ...FIT.clearances[1]!, pair: ["mainDoorRight.door", "carried.wing"] as const };
    const left = { ...right, pair: ["mainDoorLeft.door", "carried.wing"] as const };
    const both = clearanceMatrix({ ...FIT, clearances: [right, left], gearClearances: [] });
    expect(both.map(({ name }) => name)).toEqual(["main door – carried wing, either side"]);
    const apart = clearanceMatrix({
      ...FIT,
      clearances: [right, { ...left, least_m: left.least_m - 0.002, leastAfterStack_m: { worst: 0.05, rss: 0.06 } }],
      gearClearances: [],
    });
    expect(apart.map(({ name }) => name)).toEqual(["main door left – carried wing", "main door right – carried wing"]);
  });

  it("judges what the stack leaves", () => {
    const row = rows.find(({ kind, criterion }) => kind === "moving" && criterion !== null)!;
    expect(marginOf(row)).toBeCloseTo(row.afterStack!.worst - row.criterion!.value_m, 12);
    const gear = rows.find(({ where }) => where.startsWith("gear"))!;
    expect(gear.afterStack!.worst).toBeCloseTo(gear.least - FIT.stack.worst_m, 12);
  });

  it("never prints a pose below the least of its pair", () => {
    for (const { atPoses, least, kind } of rows) {
      if (kind === "moving")
        for (const value of atPoses) if (value !== null) expect(value).toBeGreaterThanOrEqual(least);
    }
  });

  it("reads the ends exactly, in between the stretch that holds the angle, nothing outside", () => {
    const one = {
      ...FIT.clearances[0]!,
      atEnds_m: { stowed: 0.5, extended: 0.1 },
      alongStroke: [
        { boomAngle_deg: 10, lower_m: 0.3, upper_m: 0.4 },
        { boomAngle_deg: 20, lower_m: 0.2, upper_m: 0.3 },
        { boomAngle_deg: 30, lower_m: 0.1, upper_m: 0.1 },
      ],
    };
    expect([9, 10, 10.5, 20, 29, 30, 31].map((angle) => lowerAt(one, angle))).toEqual([
      null,
      0.5,
      0.3,
      0.2,
      0.2,
      0.1,
      null,
    ]);
    const back = { ...one, alongStroke: [...one.alongStroke].reverse() };
    expect([30, 25, 20, 10, 9].map((angle) => lowerAt(back, angle))).toEqual([0.5, 0.1, 0.2, 0.3, null]);
    const rest = { ...one, alongStroke: [one.alongStroke[0]!] };
    expect([lowerAt(rest, 10), lowerAt(rest, 20)]).toEqual([0.3, null]);
  });

  it("prints no clearance larger than it is", () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 30, noNaN: true }), (length) => {
        const printed = Number(millimetres(length, "-"));
        expect(printed).toBeLessThanOrEqual(1000 * length + 2e-6);
        expect(printed).toBeGreaterThan(1000 * length - 1);
      }),
    );
    expect([millimetres(0.075), millimetres(0.0749), millimetres(-0.0001)]).toEqual(["75", "74", "−1"]);
  });
});

describe("order of moves", () => {
  it("says where the whole travel may be used, or that it may nowhere", () => {
    expect(mayMove(FIT.maps[0]!)).toBe(
      "The gear may move through the whole travel at boom angles 38.4° to 52.0°; the boom may move through the whole stroke with the gear at 0.0 % to 20.0 %.",
    );
    expect(mayMove(FIT.maps[1]!)).toContain(
      "at no boom angle; the boom may move through the whole stroke at no travel",
    );
  });

  it("refuses with the reason, once", () => {
    expect(refusal(FIT.maps[0]!)).toBeNull();
    expect(refusal(FIT.maps[1]!)).toMatch(/^No safe order of moves: .*wing tip is\.$/);
  });
});

describe("maps with a stuck member", () => {
  it("fold both sides and come with the most restrictive first", () => {
    const held = FIT.maps[1]!;
    const left = { ...held, held: { body: "mainDoorLeft", fraction_1: 0.6 } };
    const easy = { ...FIT.maps[0]!, held: { body: "mainGearRight", fraction_1: 0 } };
    const rows = heldRows([FIT.maps[0]!, easy, held, left]);
    expect(rows.map(({ name, at, boom, others }) => [name, at, boom, others])).toEqual([
      ["main door, either side", "60 %", "none", "none"],
      ["main gear right", "0 %", "0.0 % to 20.0 %", "38.4° to 52.0°"],
    ]);
  });

  it("print ranges no wider than they are", () => {
    const map = { ...FIT.maps[0]!, groupMayMove_deg: [[14.01, 33.57]] as const, boomMayMove_1: [[0.4834, 1]] as const };
    expect(mayMove(map)).toContain("14.1° to 33.5°");
    expect(mayMove(map)).toContain("48.4 % to 100.0 %");
  });
});

describe("zones", () => {
  it("name every part inside and the nearest other one of each zone, mirrored zones together", () => {
    const zone = FIT.zones[0]!;
    const told = telling([
      zone,
      { ...zone, part: "carried.wing", least_m: 0.7 },
      { ...zone, zone: "carrier.exhaustLeft", least_m: 1.2 },
      FIT.zones[1]!,
    ]);
    expect(told.map(({ part, least_m, inside }) => [part, least_m, inside])).toEqual([
      ["carried.wing", 0, true],
      ["carried.wing", 0.7, false],
    ]);
  });
});

describe("stroke rows", () => {
  it("keep first and last and never repeat", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 2, max: 20 }), (count, most) => {
        const stroke = Array.from({ length: count }, (_, i) => ({ ...FIT.stroke[0]!, boomAngle_deg: i }));
        const angles = strokeRows(stroke, most).map((point) => point.boomAngle_deg);
        expect(angles).toHaveLength(Math.min(count, most));
        expect(new Set(angles).size).toBe(angles.length);
        expect([angles[0], angles.at(-1)]).toEqual([0, count - 1]);
      }),
    );
  });
});
