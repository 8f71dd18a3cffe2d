import { bracketedRoot } from "../../math/roots/index.ts";
import { attachedPair, linearise } from "../../physics/bodies/index.ts";
import { deadBandShare } from "../../physics/links/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import { type HoldInputs, type ModePlane, type Operating, planeModes, settingsAt } from "../hold/index.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import { energyAt, namesOf, pinsAt } from "./states.ts";

/** Amplitudes looked at: largest travel beyond its clearance, over the clearance. */
const LEAST = 1e-5;
const MOST = 1e4;
const POINTS = 46;
/** Rounds in which the shape settles at one amplitude. */
const ROUNDS = 60;
const SETTLED = 1e-10;

/** A direction of a pin as one element with a dead band. */
interface Element {
  readonly pin: "left" | "right";
  readonly key: "along" | "lateral";
  readonly clearance: number;
  readonly stiffness: number;
  /** Travel per coordinate of the aircraft, shape (6). */
  readonly slope: Float64Array;
  /** What the element adds to the linear model at full contact, shape (n²). */
  readonly adds: Float64Array;
}

/** The pair with both pins latched and unloaded: linear model with the pins free, and what each element adds. */
export interface UnloadedPair {
  readonly size: number;
  readonly open: Float64Array;
  readonly elements: readonly Element[];
  /** Square roots of the masses and inertias by which mode shapes are weighted, shape (6). */
  readonly weights: readonly number[];
  readonly modes: (shares: readonly number[], plane: ModePlane) => PairMode[];
}

/** Socket without its friction: an equivalent rate for large motion means nothing inside a clearance. */
export function centringOnly(own: AttachmentInputs): { socket?: { centring: number; damping: number } } {
  return own.socket === null ? {} : { socket: { centring: own.socket.linear.centring, damping: 0 } };
}

/**
 * Linear model of the pair with unloaded pins as a sum over their elements.
 *
 *     A(N) = A_open + Σ N_j·ΔA_j                                      (README eq. 4)
 *
 * @returns `null` without trim
 * @source own derivation, README eq. 4
 * @verified limit-cycle.test.ts (all elements at full contact give the closed state)
 */
export function unloadedPair(inputs: HoldInputs, own: AttachmentInputs, at: Operating): UnloadedPair | null {
  const pins = own.pins!;
  const names = ["left", "right"] as const;
  const build = (only: { pin: string; key: "along" | "lateral" } | null) => {
    const open = pinsAt(pins, at, names, "open");
    const closed = pinsAt(pins, at, names, "closed");
    return attachedPair({
      pair: settingsAt(inputs, at),
      pitch: pins.pitch(at.boomAngleDown),
      elevator: "pins unloaded",
      pins: open.map((pin, i) =>
        only !== null && pin.name === only.pin
          ? { ...pin, misfit: { along: 0, lateral: 0 }, [only.key]: closed[i][only.key] }
          : { ...pin, misfit: { along: 0, lateral: 0 } },
      ),
      ...centringOnly(own),
    });
  };
  const base = build(null);
  if (base.outcome !== "trimmed") return null;
  const linear = linearise(base.motion, base.state);
  const energy = energyAt(inputs, at, base.motion, linear);
  const elements = names.flatMap((pin, i) =>
    (["along", "lateral"] as const).map((key, k): Element => {
      const one = build({ pin, key });
      const other = linearise(one.motion, one.state);
      const adds = other.matrix.map((value, j) => value - linear.matrix[j]);
      const { slope } = base.links[i].springs(base.motion.linkLoads!.view)[k];
      return { pin, key, clearance: pins.clearance[key], stiffness: pins.stiffness[key], slope, adds };
    }),
  );
  const A = new Float64Array(linear.size * linear.size);
  const { mass, Ixx, Iyy, Izz } = at.mass.properties;
  return {
    size: linear.size,
    open: linear.matrix,
    elements,
    weights: [mass, mass, mass, Ixx, Iyy, Izz].map(Math.sqrt),
    modes: (shares, plane) => {
      A.set(linear.matrix);
      elements.forEach(({ adds }, j) => {
        for (let i = 0; i < A.length; i++) A[i] += shares[j] * adds[i];
      });
      return planeModes(A, linear.size, namesOf(linear), energy, plane);
    },
  };
}

/** A balance of the fundamental: what decays and what drives are equal over a cycle. */
export interface Balance {
  /** Largest travel over its clearance [1]. */
  readonly ratio: number;
  readonly frequency: number;
  readonly stable: boolean;
  /** Amplitude of travel by element [m]. */
  readonly travel: readonly number[];
  /** Amplitude of the fundamental of the force by element [N]. */
  readonly force: readonly number[];
  readonly mode: PairMode;
  /** Coordinates of the aircraft, [re, im] each, scaled to the amplitude; shape (12). */
  readonly shape: Float64Array;
}

/**
 * Steady oscillations of the pair with unloaded pins, by harmonic balance: at each amplitude the shape that agrees with the
 * describing functions of the elements, and the amplitudes at which its root lies on the imaginary axis.
 *
 *     Re λ(a) = 0,  N_j = N(|h_jᵀq|/δ_j),  max |h_jᵀq|/δ_j = a            (README eq. 5)
 *
 * @param pair  from `unloadedPair`
 * @param plane which motion
 * @returns balances by rising amplitude; none when nothing changes between growing and decaying
 * @source own derivation, README eq. 5
 * @verified limit-cycle.test.ts: one degree of freedom in closed form; the motion in time
 */
export function balances(pair: UnloadedPair, plane: ModePlane): Balance[] {
  const grid = Array.from({ length: POINTS }, (_, i) => Math.log(LEAST) + (Math.log(MOST / LEAST) * i) / (POINTS - 1));
  let shares: number[] = pair.elements.map(({ clearance }) => (clearance === 0 ? 1 : 0));
  const real = (s: number, start: readonly number[]): { real: number; shares: number[] } => {
    const found = settle(pair, plane, 1 + Math.exp(s), start);
    return { real: found.mode?.real ?? -1, shares: found.shares };
  };
  const result: Balance[] = [];
  let before = real(grid[0], shares);
  for (let i = 1; i < grid.length; i++) {
    const next = real(grid[i], before.shares);
    if (before.real > 0 !== next.real > 0) {
      const start = before.shares;
      const root = bracketedRoot((s) => real(s, start).real, grid[i - 1], grid[i], 1e-10);
      const at = settle(pair, plane, 1 + Math.exp(root.x), start);
      // a jump from one root to another is no balance
      if (at.mode !== null && Math.abs(at.mode.real) < 1e-4 * at.mode.imag) {
        result.push(describe(pair, at.mode, 1 + Math.exp(root.x), at.shares, before.real > 0));
      }
    }
    before = next;
    shares = next.shares;
  }
  return result;
}

function settle(pair: UnloadedPair, plane: ModePlane, ratio: number, start: readonly number[]) {
  let shares = [...start];
  let mode: PairMode | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    mode = leastStable(pair.modes(shares, plane));
    if (mode === null) break;
    const sizes = travels(pair, mode);
    const scale = ratio / largest(pair, sizes);
    const next = pair.elements.map(({ clearance }, j) =>
      clearance === 0 ? 1 : deadBandShare((sizes[j] * scale) / clearance),
    );
    const change = Math.max(...next.map((value, j) => Math.abs(value - shares[j])));
    // half-way steps: the shape may swing between two elements
    shares = next.map((value, j) => (round < 3 ? value : 0.5 * (value + shares[j])));
    if (change < SETTLED) break;
  }
  return { mode, shares };
}

/** The oscillation that grows fastest or decays slowest. */
function leastStable(modes: readonly PairMode[]): PairMode | null {
  let found: PairMode | null = null;
  for (const mode of modes) if (mode.imag > 0 && (found === null || mode.real > found.real)) found = mode;
  return found;
}

/** Coordinates of the aircraft in a mode, [re, im] each, unscaled. */
function coordinates(pair: UnloadedPair, mode: PairMode): Float64Array {
  const q = new Float64Array(12);
  for (let i = 0; i < 12; i++) q[i] = mode.shape[i] / pair.weights[i >> 1];
  return q;
}

function travels(pair: UnloadedPair, mode: PairMode): number[] {
  const q = coordinates(pair, mode);
  return pair.elements.map(({ slope }) => {
    let [re, im] = [0, 0];
    for (let i = 0; i < 6; i++) {
      re += slope[i] * q[2 * i];
      im += slope[i] * q[2 * i + 1];
    }
    return Math.hypot(re, im);
  });
}

function largest(pair: UnloadedPair, sizes: readonly number[]): number {
  return Math.max(...pair.elements.map(({ clearance }, j) => (clearance > 0 ? sizes[j] / clearance : 0)), 1e-300);
}

function describe(
  pair: UnloadedPair,
  mode: PairMode,
  ratio: number,
  shares: readonly number[],
  stable: boolean,
): Balance {
  const sizes = travels(pair, mode);
  const scale = ratio / largest(pair, sizes);
  const q = coordinates(pair, mode).map((value) => value * scale);
  const travel = sizes.map((size) => size * scale);
  const force = pair.elements.map(({ stiffness }, j) => shares[j] * stiffness * travel[j]);
  return { ratio, frequency: mode.imag, stable, travel, force, mode, shape: q };
}
