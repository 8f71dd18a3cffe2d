/** Fixture: stroke, clearances and gear × stroke map of the made-up pair by short formulas. Not physics. */
import type {
  ClearanceState,
  GearMap,
  MapMove,
  MapNode,
  MapPath,
  MapRegion,
  MapState,
  PairClearance,
  Station3,
  StrokePoint,
} from "../../studies/fit/types.ts";
import {
  FIXTURE_EXTENDED,
  FIXTURE_STOWED,
  fixtureCarriedPoint,
  fixturePitch,
  fixtureSocket,
} from "./fixture-fit-shapes.ts";

const RADIANS = Math.PI / 180;
const NEAR = 0.15;

function steps(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}

export const FIXTURE_ANGLES = steps(FIXTURE_STOWED, FIXTURE_EXTENDED, 39);

/** Part of the stroke travelled at a boom angle. */
function part(boomAngle: number): number {
  return (boomAngle - FIXTURE_STOWED) / (FIXTURE_EXTENDED - FIXTURE_STOWED);
}

function jackLength(boomAngle: number): number {
  const [c, s] = [Math.cos(boomAngle * RADIANS), Math.sin(boomAngle * RADIANS)];
  return Math.hypot(12.9 - (10.4 + 1.55 * c + 0.28 * s), 3.35 - (2.15 - 1.55 * s + 0.28 * c));
}

export function fixtureStroke(): StrokePoint[] {
  const first = jackLength(FIXTURE_STOWED);
  return FIXTURE_ANGLES.map((angle) => {
    const rate = (jackLength(angle + 0.01) - jackLength(angle - 0.01)) / (0.02 * RADIANS);
    const ratio = 5.6 / rate;
    const weight = (mass: number, share: number) => -mass * 9.80665 * share * Math.cos(angle * RADIANS) * ratio;
    return {
      boomAngle_deg: angle,
      jackLength_m: jackLength(angle),
      jackTravel_m: jackLength(angle) - first,
      tipPerJack_1: ratio,
      transmissionAngle_deg: Math.min(78 - 35 * part(angle), 27 + 48 * part(angle)),
      jackTransmissionAngle_deg: 78 - 35 * part(angle),
      couplerTransmissionAngle_deg: 27 + 48 * part(angle),
      jackLoads: [
        { mass: "full", weightShare_1: 1, load_N: weight(2600, 1) },
        { mass: "full", weightShare_1: 0.2, load_N: weight(2600, 0.2) },
        { mass: "empty", weightShare_1: 1, load_N: weight(1900, 1) },
      ],
      poses: [
        { body: "carried", position_m: fixtureCarriedPoint(angle, [-1.9, 0, -0.45]), attitude: [1, 0, 0, 0] },
        { body: "boom", position_m: [0, 0, 0], attitude: [1, 0, 0, 0] },
      ],
      carriedPitch_deg: fixturePitch(angle),
      socket_m: fixtureSocket(angle),
      cg: [
        { mass: "full", at_m: fixtureCarriedPoint(angle, [2.2, 0, -0.85]) },
        { mass: "empty", at_m: fixtureCarriedPoint(angle, [2.1, 0, -0.83]) },
      ],
      attitudeError_deg: { worst: 0.75 * Math.exp(-1.9 * part(angle)), rss: 0.42 * Math.exp(-1.55 * part(angle)) },
    };
  });
}

interface PairPlan {
  readonly pair: readonly [string, string];
  readonly zone?: boolean;
  readonly limit: number | null;
  /** Clearance against the part of the stroke. */
  readonly gap: (part: number) => number;
  /** Half the width of the certified band. */
  readonly doubt?: number;
  readonly state: ClearanceState;
  /** Nearest point, from the socket. */
  readonly where: Station3;
}

const PLANS: readonly PairPlan[] = [
  {
    pair: ["carrier.bay", "carried.tail"],
    limit: 0.075,
    gap: (u) => 0.16 - 0.55 * u + 3.2 * u * u,
    state: "near",
    where: [6.2, 0.6, -0.9],
  },
  {
    pair: ["mainDoorRight.door", "carried.wing"],
    limit: 0.075,
    gap: (u) => 0.16 + 1.9 * u ** 1.5,
    state: "near",
    where: [2.4, 3.7, -0.85],
  },
  {
    pair: ["carrier.fuselage", "boom.leg"],
    limit: 0.075,
    gap: (u) => Math.max(0, 0.09 - 0.42 * u + 0.9 * u * u),
    doubt: 0.012,
    state: "clear",
    where: [-1.2, 0.2, 0.1],
  },
  {
    pair: ["carrier.bay", "carried.fuselage"],
    limit: 0.075,
    gap: (u) => 0.3 + 2.4 * u,
    state: "clear",
    where: [4.8, 0.4, -0.4],
  },
  {
    pair: ["aftYoke.leg", "carrier.bay"],
    limit: 0.075,
    gap: (u) => 0.21 + 0.1 * Math.sin(5 * u) + 0.3 * u,
    state: "clear",
    where: [1.0, 0.5, 0.6],
  },
  {
    pair: ["mainGearRight.leg", "carried.wing"],
    limit: 0.075,
    gap: (u) => 0.8 + 1.5 * u,
    state: "clear",
    where: [2.6, 3.7, -0.85],
  },
  {
    pair: ["boom.leg", "carried.fuselage"],
    limit: 0.075,
    gap: (u) => 0.045 + 0.2 * u,
    doubt: 0.004,
    state: "clear",
    where: [0.3, 0.1, -0.4],
  },
  {
    pair: ["carrier.exhaustRight", "carried.tail"],
    zone: true,
    limit: null,
    gap: (u) => 1.9 + u,
    state: "outside the zone",
    where: [6.2, 1.6, -0.9],
  },
];

function clearanceOf({ pair, zone = false, limit, gap, doubt = 0.006, state, where }: PairPlan): PairClearance {
  const alongStroke = FIXTURE_ANGLES.map((angle, i) => {
    const next = FIXTURE_ANGLES[i + 1] ?? angle;
    const inside = steps(part(angle), part(next), 5).map(gap);
    return {
      boomAngle_deg: angle,
      lower_m: Math.max(0, Math.min(...inside) - doubt),
      upper_m: Math.max(0, Math.min(...inside)),
    };
  });
  const least = alongStroke.reduce((a, b) => (b.lower_m < a.lower_m ? b : a));
  const pointA = fixtureCarriedPoint(least.boomAngle_deg, where);
  const pointB: Station3 = [pointA[0], pointA[1], pointA[2] + least.lower_m];
  return {
    pair,
    kind: "moving",
    zone,
    alongStroke,
    least_m: least.lower_m,
    at: { boomAngle_deg: least.boomAngle_deg, pointA, pointB },
    atEnds_m: { stowed: alongStroke[0]!.lower_m, extended: alongStroke.at(-1)!.lower_m },
    leastAfterStack_m: { worst: least.lower_m - 0.047, rss: least.lower_m - 0.028 },
    criterion: limit === null ? null : { value_m: limit, source: "project criterion" },
    state,
  };
}

/** At rest in the first or last pose, where the pair is near. */
function atRest(moving: PairClearance): PairClearance[] {
  return [moving.alongStroke[0]!, moving.alongStroke.at(-1)!]
    .filter(({ lower_m }) => lower_m < NEAR)
    .map((end) => ({
      ...moving,
      kind: "static",
      alongStroke: [end],
      least_m: end.lower_m,
      at: { ...moving.at, boomAngle_deg: end.boomAngle_deg },
      leastAfterStack_m: { worst: end.lower_m - 0.047, rss: end.lower_m - 0.028 },
      criterion: { value_m: 0.0254, source: "project criterion" },
    }));
}

export function fixtureClearances(): PairClearance[] {
  return PLANS.map(clearanceOf).flatMap((one) => (one.zone ? [one] : [one, ...atRest(one)]));
}

/** Made-up clearance of gear door and wing tip over gear fraction and boom angle; negative where they meet. */
function doorGap(fraction: number, boomAngle: number, held: number | null): number {
  const swing = held ?? fraction;
  return Math.hypot((swing - 0.6) / 0.22, (boomAngle - 17) / 11) - 1;
}

/** Made-up clearance of wheel and tail: meets when the gear is down and the boom is half way. */
function wheelGap(fraction: number, boomAngle: number): number {
  return Math.hypot((fraction - 1) / 0.25, (boomAngle - 34) / 3.5) - 1;
}

function stateOf(gap: number): MapState {
  if (gap < -0.05) return "collides";
  if (gap < 0) return "unresolved";
  return gap < 0.28 ? "near" : "free";
}

const passes = (state: MapState | undefined) => state === "free" || state === "near";

function regionsOf(
  states: readonly MapState[],
  fractions: readonly number[],
  angles: readonly number[],
): { readonly regions: readonly MapRegion[]; readonly regionOf: readonly number[] } {
  const n = fractions.length;
  const regionOf = states.map(() => -1);
  const regions: MapRegion[] = [];
  for (let seed = 0; seed < states.length; seed++) {
    if (regionOf[seed] !== -1 || !passes(states[seed])) continue;
    const cells = [seed];
    regionOf[seed] = regions.length;
    for (let k = 0; k < cells.length; k++) {
      const cell = cells[k]!;
      const [row, column] = [Math.floor(cell / n), cell % n];
      const around = [
        column > 0 ? cell - 1 : -1,
        column < n - 1 ? cell + 1 : -1,
        row > 0 ? cell - n : -1,
        row < angles.length - 1 ? cell + n : -1,
      ];
      for (const next of around) {
        if (next < 0 || regionOf[next] !== -1 || !passes(states[next])) continue;
        regionOf[next] = regions.length;
        cells.push(next);
      }
    }
    const own = cells.map((cell) => [fractions[cell % n]!, angles[Math.floor(cell / n)]!] as const);
    regions.push({
      cells: cells.length,
      freeCells: cells.filter((cell) => states[cell] === "free").length,
      fractions_1: [Math.min(...own.map(([f]) => f)), Math.max(...own.map(([f]) => f))],
      boomAngles_deg: [Math.min(...own.map(([, a]) => a)), Math.max(...own.map(([, a]) => a))],
      holdsStart: cells.includes(0),
      holdsEnd: cells.includes(states.length - 1),
    });
  }
  return { regions, regionOf };
}

function pathOf(corners: readonly MapNode[]): MapPath {
  const moves = corners.slice(1).map((to, i): MapMove => {
    const from = corners[i]!;
    const boom = from.fraction_1 === to.fraction_1;
    const words = boom
      ? `Move the boom from ${from.boomAngle_deg}° to ${to.boomAngle_deg}° with the gear at ${Math.round(100 * to.fraction_1)} %.`
      : `Move the gear from ${Math.round(100 * from.fraction_1)} % to ${Math.round(100 * to.fraction_1)} % with the boom at ${to.boomAngle_deg}°.`;
    return { moves: boom ? "boom" : "group", from, to, leastClearance_m: 0.162 + 0.01 * i, words };
  });
  return {
    steps: moves.map(({ words }) => words),
    moves,
    nodes: corners,
    leastClearance_m: 0.162,
    leastPair: ["mainDoorRight.door", "carried.wing"],
    length: 84,
    throughNear: true,
  };
}

/** The made-up map; with a member held, the door stays where it is. */
export function fixtureMap(held: number | null = null): GearMap {
  const fractions = steps(0, 1, 41);
  const angles = steps(FIXTURE_STOWED, FIXTURE_EXTENDED, 41);
  const gaps = angles.flatMap((angle) =>
    fractions.map((fraction) => [doorGap(fraction, angle, held), wheelGap(fraction, angle)] as const),
  );
  const state = gaps.map(([door, wheel]) => stateOf(Math.min(door, wheel)));
  const count = (wanted: MapState) => state.filter((one) => one === wanted).length;
  const { regions, regionOf } = regionsOf(state, fractions, angles);
  const reachable = regions.some(({ holdsStart, holdsEnd }) => holdsStart && holdsEnd);
  const corners: MapNode[] = [
    { fraction_1: 0, boomAngle_deg: FIXTURE_STOWED },
    { fraction_1: 0, boomAngle_deg: 45.35 },
    { fraction_1: 1, boomAngle_deg: 45.35 },
    { fraction_1: 1, boomAngle_deg: FIXTURE_EXTENDED },
  ];
  return {
    id: held === null ? "gear" : `gear.mainDoorRight-held-${held}`,
    title: held === null ? "gear and boom" : `gear and boom, mainDoorRight stuck at ${100 * held} %`,
    group: "gear",
    held: held === null ? null : { body: "mainDoorRight", fraction_1: held },
    others: [{ group: "bayDoors", standsAt_1: 1 }],
    fractions,
    boomAngles_deg: angles,
    state,
    leastPair: gaps.map(([door, wheel]) => (Math.min(door, wheel) > 0.28 ? -1 : door < wheel ? 0 : 1)),
    pairs: [
      ["mainDoorRight.door", "carried.wing"],
      ["mainGearRight.wheel", "carried.tail"],
    ],
    near_m: NEAR,
    counts: {
      free: count("free"),
      near: count("near"),
      collides: count("collides"),
      unresolved: count("unresolved"),
    },
    regions,
    groupMayMove_deg: held === null ? [[38.4, FIXTURE_EXTENDED]] : [],
    boomMayMove_1: held === null ? [[0, 0.2]] : [],
    regionOf,
    path: reachable ? pathOf(corners) : null,
    wayBack: reachable ? pathOf([...corners].reverse()) : null,
    noPathBecause: reachable ? null : "start and end lie in different regions; the door stays where the wing tip is.",
  };
}
