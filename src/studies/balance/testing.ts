/** A small carrier for tests of the study: round numbers, one tank or two, a boom that hangs behind its hinge. */
import type { BalanceInputs, Leg } from "./inputs.ts";

const project = (value: number) => ({ value, source: "project criterion" });

export function leg(name: string, aircraft: Leg["aircraft"], more: Partial<Leg> = {}): Leg {
  return { name, time: 600, fuel: 500, aircraft, held: "three point", share: 1, emptyBoom: "stowed", ...more };
}

/** Empty 30 t at FS 17, one tank of 10 t at FS 18, aircraft of 2 t, chord 4 m from FS 16, limits 10 to 60 % of it. */
export function smallCarrier(more: Partial<BalanceInputs> = {}): BalanceInputs {
  const aircraft = (name: string, mass: number) => ({ name, mass, fromProbe: [2, 0, -1] as const });
  return {
    chord: { leadingEdge: 16, length: 4 },
    envelope: {
      masses: Float64Array.of(25e3, 50e3),
      forward: Float64Array.of(0.1, 0.1),
      aft: Float64Array.of(0.6, 0.6),
    },
    largest: { takeOff: 50e3, landing: 45e3, zeroFuel: 40e3 },
    items: [{ name: "empty carrier", kind: "empty", mass: 30e3, FS: 17, BL: 0, WL: 2 }],
    kitBoom: null,
    tanks: [{ name: "main", capacity: 10e3, start: 10e3, contents: [0], FS: [18], BL: [0], WL: [3] }],
    burnOrder: [[0]],
    boom: { hinge: [10, 0, 2], length: 5, stowed: 0, extended: Math.PI / 3, pitch: null },
    carried: { out: aircraft("full", 2000), back: aircraft("return", 1500), light: aircraft("empty", 1200) },
    legs: [
      leg("climb", "stowed"),
      leg("lowering", "lowering", { fuel: 0 }),
      leg("hanging", "extended", { held: "single point", share: 0.5 }),
      leg("apart", "away", { fuel: 4000 }),
      leg("rejoin", "away", { emptyBoom: "extended" }),
      leg("hooked", "extended", { held: "single point", share: 0 }),
      leg("raising", "raising", { fuel: 0 }),
      leg("home", "stowed"),
    ],
    stuck: [Math.PI / 3],
    ground: { noseFS: 5, mainFS: 20, mainBL: 4, line: -2, rotation: null },
    condition: { name: "hook", equivalentAirspeed: 95, altitude: 3000 },
    air: null,
    criteria: {
      ...{ margin: project(0.01), lateral: project(0.05), loadFactorStep: project(0.05), tipBack: project(0.2) },
      ...{ noseShare: { from: project(0.05), to: project(0.3) }, elevatorStep: null },
    },
    ...more,
  };
}
