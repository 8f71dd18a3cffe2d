import { boomAtRoot, jackAtRoot, PathFlexibility, type PathParts } from "./path-parts.ts";
import { SwingResponse, type SwingSystem } from "./swing-response.ts";
import type { Level, MapWindow, RootProblem, Seed } from "./types.ts";

/** A map of stiffness (x) and snubber rate (y), both as logarithms, of one pair at one trim. */
export interface PathMap {
  readonly swing: SwingSystem;
  /** Which stiffness is drawn along x. */
  readonly along: "bending" | "accumulator";
  /** The other values; that of `along` and the snubber are replaced. */
  readonly parts: PathParts;
  /** 2·ζ_s·√m of the hooked mass m [√kg]: structural damping c_b = damping·√k_b. */
  readonly damping: number;
}

/** Values of |s| at which seeds are looked for: from far below to far above every motion of a pair. */
const LOWEST = 0.01;
const HIGHEST = 1e4;
const SCAN = 241;
const LINES = 9;

/**
 * The root condition of a map of stiffness and snubber rate, with exact derivatives.
 *
 * @source README eq. 3
 * @verified stability-boundary.test.ts
 */
export function pathProblem({ swing, along, parts, damping }: PathMap): RootProblem {
  const response = new SwingResponse(swing.size);
  const path = new PathFlexibility();
  const now = { ...parts };
  const byX = along === "bending" ? path.byBending : path.byAccumulator;
  return {
    evaluate(sRe, sIm, x, y, out) {
      if (!response.evaluate(swing, sRe, sIm)) return false;
      now[along] = Math.exp(x);
      now.snubber = Math.exp(y);
      path.evaluate(now, damping, sRe, sIm);
      out.value[0] = response.re + path.value[0];
      out.value[1] = response.im + path.value[1];
      out.byRate[0] = response.slopeRe + path.bySlope[0];
      out.byRate[1] = response.slopeIm + path.bySlope[1];
      out.byX.set(byX);
      out.byY.set(path.bySnubber);
      return true;
    },
  };
}

/**
 * Points of every piece of a level in a map, by D-decomposition: for each |s| of a scan the two parameters in closed form.
 *
 * A piece is missed only when all of it lies between two neighbouring values of the scan, 4 % apart in |s|.
 *
 * @returns seeds inside the window, by rising |s|
 * @source README eq. 4–6; D-decomposition: Neimark (1949), as in Gryazina, Polyak and Tremba, Automation and Remote Control 69 (2008)
 * @verified stability-boundary.test.ts: every seed is an eigenvalue of the assembled matrix; count against a fine scan
 */
export function pathSeeds(map: PathMap, level: Level, window: MapWindow): Seed[] {
  return level.kind === "oscillation"
    ? oscillationSeeds(map, level.dampingRatio, window)
    : realSeeds(map, level.growth, window);
}

function oscillationSeeds(map: PathMap, zeta: number, window: MapWindow): Seed[] {
  const { swing, along, parts, damping } = map;
  const response = new SwingResponse(swing.size);
  const seeds: Seed[] = [];
  const imag = Math.sqrt(1 - zeta * zeta);
  for (let i = 0; i < SCAN; i++) {
    const frequency = LOWEST * (HIGHEST / LOWEST) ** (i / (SCAN - 1));
    const [sRe, sIm] = [-zeta * frequency, imag * frequency];
    if (!response.evaluate(swing, sRe, sIm)) continue;
    const { re, im } = response;
    const jack = along === "bending" ? null : jackAtRoot(re, im, sRe, sIm, parts.bending, damping);
    const pairs =
      along === "bending" ? boomAtRoot(re, im, sRe, sIm, parts.accumulator, damping) : jack === null ? [] : [jack];
    for (const { stiffness, snubber } of pairs) {
      if (!(stiffness > 0 && snubber > 0)) continue;
      const [x, y] = [Math.log(stiffness), Math.log(snubber)];
      if (inside(window, x, y)) seeds.push({ frequency, x, y });
    }
  }
  return seeds;
}

/** Stiffness that puts a real root at σ, for snubber rates on a few lines of the window. */
function realSeeds(map: PathMap, growth: number, window: MapWindow): Seed[] {
  const { swing, along, parts, damping } = map;
  const response = new SwingResponse(swing.size);
  if (!response.evaluate(swing, growth, 0)) return [];
  const needed = -response.re;
  const seeds: Seed[] = [];
  for (let i = 0; i < LINES; i++) {
    const y = window.y.from + ((window.y.to - window.y.from) * (i + 0.5)) / LINES;
    const snubber = Math.exp(y);
    const jack = parts.accumulator + growth * snubber;
    const boom = parts.bending + growth * damping * Math.sqrt(parts.bending);
    const rest = 1 / (needed - (along === "bending" ? 1 / jack : parts.bending === Infinity ? 0 : 1 / boom));
    let stiffness: number;
    if (along === "accumulator") stiffness = rest - growth * snubber;
    else {
      // k_b + σ·damping·√k_b = rest
      const half = 0.5 * growth * damping;
      const root = Math.sqrt(half * half + rest) - half;
      stiffness = root > 0 ? root * root : Number.NaN;
    }
    const x = Math.log(stiffness);
    if (stiffness > 0 && inside(window, x, y)) seeds.push({ frequency: Math.abs(growth), x, y });
  }
  return seeds;
}

function inside({ x: ex, y: ey }: MapWindow, x: number, y: number): boolean {
  return x >= ex.from && x <= ex.to && y >= ey.from && y <= ey.to;
}
