/** Fixture: a made-up result of the study `balance`. Not physics. */
import type {
  BalanceBranch,
  BalancePoint,
  BalanceResult,
  GroundState,
  StateChange,
} from "../../studies/balance/types.ts";
import type { Criterion, Finding } from "../../studies/finding/types.ts";

const RESTS = ["carrier.weights.empty.mass", "carrier.weights.envelope", "studies.balance.fuel.inner"];
const HOUR = 3600;

function point(time_s: number, leg: string, mass_kg: number, cg: number): BalancePoint {
  const fuel_kg = Math.max(0, mass_kg - 30e3);
  return { time_s, leg, fuel_kg, mass_kg, FS_m: 16 + 0.04 * cg, BL_m: 0.01, cg_percentMac: cg };
}

interface Course {
  readonly key: string;
  readonly kind: BalanceBranch["kind"];
  readonly title: string;
  readonly from_s: number;
  /** Hours, tonnes, per cent. */
  readonly rows: readonly (readonly [number, number, number])[];
}

const FORWARD = 16;

/** Rows as they are; the margin is that to a forward limit that does not vary. */
function branch({ key, kind, title, from_s, rows }: Course): BalanceBranch {
  const own = rows.filter(([hours]) => hours * HOUR >= from_s);
  const [hours, tonnes, cg] = own.reduce((a, b) => (b[2] < a[2] ? b : a));
  const [lastHours, lastTonnes, lastCg] = rows[rows.length - 1]!;
  return {
    ...{ key, kind, title, from_s },
    track: {
      time_s: rows.map((row) => row[0] * HOUR),
      mass_kg: rows.map((row) => row[1] * 1000),
      cg_percentMac: rows.map((row) => row[2]),
      margin_percentMac: rows.map((row) => row[2] - FORWARD),
    },
    worst: {
      ...point(hours * HOUR, "loiter", tonnes * 1000, cg),
      ...{ margin_percentMac: cg - FORWARD, side: "forward", limit_percentMac: FORWARD },
    },
    ...{ lateral_m: 0.01, zeroFuelMass_kg: 32e3 },
    end: point(lastHours * HOUR, "home", lastTonnes * 1000, lastCg),
  };
}

function change(key: string, kind: StateChange["kind"], hours: number, masses: readonly [number, number]): StateChange {
  const [before, after] = [
    point(hours * HOUR, "loiter", masses[0], 22),
    point(hours * HOUR, "loiter", masses[1], kind === "jettison" ? 20.5 : 23),
  ];
  const shift = after.cg_percentMac - before.cg_percentMac;
  return {
    ...{ key, kind, title: `${kind} at the start of loiter`, before, after, shift_percentMac: shift },
    trim: {
      ...{ loadFactorStep_1: masses[0] / masses[1] - 1, momentStep_Nm: 16e3, alpha_deg: -0.1, elevator_deg: 0.25 },
      ...{ handsOffAlpha_deg: 0.3, handsOffLoadFactor_1: 1.06 },
    },
  };
}

function ground(key: string, title: string, mass_kg: number): GroundState {
  return {
    ...{ key, title, mass_kg, cg_percentMac: 22, FS_m: 16.9, height_m: 3.5, noseShare_1: 0.12 },
    ...{ nose_N: 50e3, mainLeft_N: 180e3, mainRight_N: 182e3, tipBack_deg: 21 },
  };
}

function finding(id: string, title: string, value: number, unit: string, criterion?: Criterion): Finding {
  const verdict =
    criterion === undefined
      ? "information"
      : (criterion.sense === "at least" ? value >= criterion.limit : value <= criterion.limit)
        ? "met"
        : "not met";
  return {
    ...{ id, study: "balance", title, value, unit, verdict, rests: RESTS, inputHash: "9a3e55d1".repeat(8) },
    ...(criterion === undefined ? {} : { criterion }),
    ...{ version: "1.2.3", seed: null },
  };
}

const MARGIN: Criterion = {
  text: "margin to the c.g. limits at every moment at least 1 % of the chord",
  ...{ sense: "at least", limit: 1, source: "project criterion" },
};

/** A made-up result with every kind of course, change and ground state; the aircraft's names hold markup on purpose. */
export function fixtureBalance(variant: string): BalanceResult {
  const branches = [
    branch({
      ...{ key: "planned", kind: "planned", title: "as planned", from_s: 0 },
      rows: [
        [0, 50, 25],
        [2, 46, 24],
        [2, 44, 22],
        [5, 38, 21],
        [5, 40, 22],
        [6, 37, 22],
      ],
    }),
    branch({
      ...{ key: "not-recovered", kind: "not recovered", title: "not recovered", from_s: 5 * HOUR },
      rows: [
        [0, 50, 25],
        [2, 46, 24],
        [2, 44, 22],
        [5, 38, 21],
        [6, 36, 20.5],
      ],
    }),
    branch({
      ...{ key: "stuck-52-single-point", kind: "stuck with aircraft", title: "stuck at 52°", from_s: 2 * HOUR },
      rows: [
        [0, 50, 25],
        [2, 46, 19],
        [6, 40, 16.4],
      ],
    }),
  ];
  const item = (
    name: string,
    kind: BalanceResult["items"][number]["kind"],
    mass_kg: number,
    capacity: number | null,
  ) => ({
    ...{ name, kind, mass_kg, FS_m: 16.8, BL_m: 0, WL_m: 2, capacity_kg: capacity },
  });
  const total = (
    key: BalanceResult["totals"][number]["key"],
    name: string,
    mass_kg: number,
    largest: number | null,
  ) => ({
    ...{ key, name, mass_kg, FS_m: 16.9, cg_percentMac: 22, forward_percentMac: FORWARD, aft_percentMac: 33 },
    largest_kg: largest,
  });
  return {
    ...{ study: "balance", variant, chord: { leadingEdge_m: 16, length_m: 4 } },
    envelope: { mass_kg: [30e3, 60e3], forward_percentMac: [FORWARD, FORWARD], aft_percentMac: [33, 33] },
    largest: { takeOff_kg: 58e3, landing_kg: 54e3, zeroFuel_kg: 41e3 },
    condition: { name: "hook", airspeed_m_s_EAS: 95, altitude_m: 3000 },
    items: [
      item("empty carrier", "empty", 28e3, null),
      item("kit <b>of</b> the mechanism", "kit", 2e3, null),
      item("pilots", "crew", 200, null),
      item("carried aircraft, loading full", "carried aircraft", 2600, null),
      item("inner", "fuel", 17e3, 18e3),
    ],
    totals: [
      total("empty", "empty with kit", 30e3, null),
      total("zero-fuel", "without fuel", 32.8e3, 41e3),
      total("start", "at the start", 49.8e3, 58e3),
      total("end", "at the end, as planned", 37e3, 54e3),
    ],
    start: point(0, "climb", 50e3, 25),
    legs: [
      { name: "climb", from_s: 0, to_s: 1.9 * HOUR, aircraft: "stowed" },
      { name: "lowering", from_s: 1.9 * HOUR, to_s: 2 * HOUR, aircraft: "lowering" },
      { name: "loiter", from_s: 2 * HOUR, to_s: 5 * HOUR, aircraft: "away" },
      { name: "home", from_s: 5 * HOUR, to_s: 6 * HOUR, aircraft: "stowed" },
    ],
    branches,
    changes: [
      change("release", "release", 2, [46e3, 44e3]),
      change("hook-on", "hook-on", 5, [38e3, 40e3]),
      change("jettison", "jettison", 1, [48e3, 45.4e3]),
    ],
    ground: [
      ground("start", "as loaded for the mission", 50e3),
      ground("bare", "no aircraft, fuel, crew or payload", 30e3),
    ],
    findings: [
      ...branches.map(({ key, title, worst }) =>
        finding(`balance.cg.margin.${key}`, `Least margin of the c.g., ${title}`, worst.margin_percentMac, "%", MARGIN),
      ),
      finding("balance.change.release.cg-shift", "Shift of the c.g., release", 1, "%"),
      finding("balance.ground.tip-back", "Least tip-back angle", 21, "deg", {
        text: "tip-back angle at least the limit",
        ...{ sense: "at least", limit: 15, source: "project criterion" },
      }),
    ],
    limits: [
      {
        ...{ id: "balance.fuel.hanging", title: "Fuel aboard: the aircraft hanging", quantity: "fuel aboard" },
        ...{ lower: 4800, upper: 17e3, unit: "kg", status: "analysed", because: ["balance.cg.margin.planned"] },
      },
      {
        ...{ id: "balance.fuel.release", title: "Fuel aboard: release", quantity: "fuel aboard" },
        ...{ lower: null, upper: null, unit: "kg", status: "prohibited", because: ["balance.cg.margin.planned"] },
      },
    ],
    assumptions: ["Carrier balance: masses are points."],
    notAnalysed: ["Carrier balance: sloshing."],
  };
}
