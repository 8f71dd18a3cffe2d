import { chordShare, envelopeMargin } from "../../physics/weight-balance/index.ts";
import { type Branch, type BranchLeg, stateIn } from "./branches.ts";
import type { BalanceInputs } from "./inputs.ts";
import { centreIn, fuelAtStart, pointOf } from "./state.ts";
import type { BalanceBranch, Track, WorstMoment } from "./types.ts";

/** Even parts of a leg between which the track is drawn; corners of the fuel come in addition. */
const PARTS = 8;
/** Golden section; 60 steps shrink a bracket below 1e-12 of it. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const STEPS = 60;

/** One branch with its track, its worst moment and what it says about masses. */
export function branchResult(inputs: BalanceInputs, branch: Branch): BalanceBranch {
  const first = branch.legs[branch.first]!;
  const last = branch.legs[branch.legs.length - 1]!;
  const rows = branch.legs.flatMap((leg) => sharesOf(inputs, leg).map((t) => ({ leg, t })));
  const own = rows.filter(({ leg }) => leg.from >= first.from);
  const looked = own.map(({ leg, t }) => looks(inputs, leg, t));
  const all = rows.map(({ leg, t }) => looks(inputs, leg, t));
  const column = (read: (one: Look) => number): number[] => all.map(read);
  const track: Track = {
    time_s: rows.map(({ leg, t }) => timeIn(leg, t)),
    mass_kg: column(({ mass }) => mass),
    cg_percentMac: column(({ share }) => 100 * share),
    margin_percentMac: column(({ margin }) => 100 * margin),
  };
  const lateral = looked.reduce((most, { BL }) => (Math.abs(BL) > Math.abs(most) ? BL : most), 0);
  return {
    ...{ key: branch.key, kind: branch.kind, title: branch.title, from_s: first.from, track },
    worst: worstOf(inputs, own, looked),
    lateral_m: lateral + 0,
    zeroFuelMass_kg: Math.max(...looked.map(({ mass, fuel }) => mass - fuel)),
    end: pointOf(inputs, stateIn(last, 1), last.to, last.name),
  };
}

interface Look {
  readonly mass: number;
  readonly share: number;
  readonly margin: number;
  readonly BL: number;
  readonly fuel: number;
}

function looks(inputs: BalanceInputs, leg: BranchLeg, t: number): Look {
  const state = stateIn(leg, t);
  const { mass, FS, BL } = centreIn(inputs, state);
  const share = chordShare(FS, inputs.chord);
  const fuel = fuelAtStart(inputs) - state.burned;
  return { mass, share, BL, fuel, margin: envelopeMargin(inputs.envelope, mass, share).least };
}

const timeIn = (leg: BranchLeg, t: number): number => leg.from + t * (leg.to - leg.from);

/**
 * Shares of a leg at which it is looked at: even parts, and where a group of tanks runs empty or a tank passes a row of its table.
 *
 * Between them mass and moment are smooth.
 */
export function sharesOf(inputs: BalanceInputs, leg: BranchLeg): number[] {
  const shares = new Set(Array.from({ length: PARTS + 1 }, (_, i) => i / PARTS));
  const used = leg.burnedTo - leg.burnedFrom;
  if (used > 0) {
    for (const burned of cornersOf(inputs)) {
      const t = (burned - leg.burnedFrom) / used;
      if (t > 1e-9 && t < 1 - 1e-9) shares.add(t);
    }
  }
  return [...shares].sort((a, b) => a - b);
}

/** Burned masses at which something about the fuel bends [kg]. */
function cornersOf({ tanks, burnOrder }: BalanceInputs): number[] {
  const corners: number[] = [];
  let before = 0;
  for (const group of burnOrder) {
    const held = group.reduce((sum, tank) => sum + tanks[tank]!.start, 0);
    for (const index of group) {
      const { start, contents } = tanks[index]!;
      for (let i = 0; i < contents.length; i++) {
        if (start > 0 && contents[i]! < start) corners.push(before + held * (1 - contents[i]! / start));
      }
    }
    before += held;
    corners.push(before);
  }
  return corners;
}

interface Row {
  readonly leg: BranchLeg;
  readonly t: number;
}

/** The least margin of all moments: the least of the rows, then refined between its neighbours in the same leg. */
function worstOf(inputs: BalanceInputs, rows: readonly Row[], looked: readonly Look[]): WorstMoment {
  let index = 0;
  looked.forEach(({ margin }, i) => {
    if (margin < looked[index]!.margin) index = i;
  });
  const { leg, t } = rows[index]!;
  const neighbour = (i: number): number => (rows[i]?.leg === leg ? rows[i]!.t : t);
  const at = leastBetween((share) => looks(inputs, leg, share).margin, neighbour(index - 1), neighbour(index + 1), t);
  const state = stateIn(leg, at);
  const point = pointOf(inputs, state, timeIn(leg, at), leg.name);
  const margin = envelopeMargin(inputs.envelope, point.mass_kg, point.cg_percentMac / 100);
  return {
    ...point,
    margin_percentMac: 100 * margin.least,
    side: margin.side,
    limit_percentMac: 100 * (margin.side === "forward" ? margin.forwardLimit : margin.aftLimit),
  };
}

/** Place of the least value between two ends by golden section; the given place where nothing is lower. */
function leastBetween(value: (t: number) => number, from: number, to: number, given: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < STEPS && high > low; i++) {
    const [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (value(a) <= value(b)) high = b;
    else low = a;
  }
  const found = 0.5 * (low + high);
  return value(found) < value(given) ? found : given;
}
