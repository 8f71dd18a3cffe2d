import { gaussLegendre } from "./quadrature.ts";
import type { SectionTable } from "./section-table.ts";

/** Points at which the mass of a piece is gathered, and points between two of them for what the deflection adds up. */
const SHAPE = gaussLegendre(8);
const BETWEEN = gaussLegendre(10);

/** What an element weighs and how it yields, as its two nodes feel it; matrices row-major. */
export interface ElementPart {
  readonly stiffness: Float64Array;
  readonly mass: Float64Array;
}

type Property = (row: number, station: number) => number;

/**
 * A bar between two nodes (stretching, or twisting) whose flexibility and mass vary along it.
 *
 *     a(s) = ∫₀ˢ flexibility,  N = [1 − a/a(h), a/a(h)],  k = [1, −1; −1, 1]/a(h),  m = ∫ mass·NᵀN      (README eq. 2)
 *
 * The shapes are the exact static ones, so loads at nodes give exact deflections whatever the variation.
 *
 * @param table       where the pieces end
 * @param from,to     stations of the nodes [m]
 * @param flexibility 1/EA [1/N] or 1/GJ [1/(N·m²)]
 * @param mass        per length [kg/m] or [kg·m]
 * @source own derivation, README eq. 2
 * @verified element.test.ts: uniform limit, linear taper against analytic/beam-statics (1e-8)
 */
export function barElement(
  table: SectionTable,
  from: number,
  to: number,
  flexibility: Property,
  mass: Property,
): ElementPart {
  const yields = [0, 0];
  const samples: { share: number; mass: number }[] = [];
  walk(
    table,
    from,
    to,
    (row, station, length) => {
      yields[0] += length * flexibility(row, station);
    },
    (row, station, length) => {
      samples.push({ share: yields[0], mass: length * mass(row, station) });
    },
  );
  const m = new Float64Array(4);
  for (const sample of samples) {
    const share = sample.share / yields[0];
    m[0] += sample.mass * (1 - share) ** 2;
    m[1] += sample.mass * (1 - share) * share;
    m[3] += sample.mass * share ** 2;
  }
  m[2] = m[1];
  const k = 1 / yields[0];
  return { stiffness: Float64Array.of(k, -k, -k, k), mass: m };
}

/** Properties of a beam in one plane of bending. */
export interface BendingProperties {
  /** 1/EI [1/(N·m²)] and 1/κGA [1/N]; the latter 0 without shear strain. */
  readonly bendingFlexibility: Property;
  readonly shearFlexibility: Property;
  /** ρA [kg/m] and ρI [kg·m]. */
  readonly mass: Property;
  readonly rotaryInertia: Property;
}

/**
 * A beam element in one plane, freedoms (w₀, ψ₀, w_h, ψ_h) with w′ = ψ + V/κGA and ψ′ = M/EI.
 *
 * With V and M_h at the outer end, M(s) = M_h + V·(h − s):
 *
 *     F = [A₂ + S, A₁; A₁, A₀],  A_k = ∫(h − s)ᵏ/EI,  S = ∫1/κGA
 *     B = [−1, −h, 1, 0; 0, −1, 0, 1],  k = Bᵀ F⁻¹ B
 *     m = ∫ ρA·N_wᵀN_w + ρI·N_ψᵀN_ψ,  N the exact static shapes                        (README eq. 3–5)
 *
 * For a uniform beam this is the Hermite element, with shear the classical element with Φ = 12EI/(κGA·h²): it does not lock,
 * because κGA enters as a flexibility.
 *
 * @param table    where the pieces end
 * @param from,to  stations of the nodes [m]
 * @returns matrices of shape (4, 4)
 * @source own derivation, README eq. 3–5; uniform limit: Przemieniecki, Theory of Matrix Structural Analysis (1968), §5.6
 * @verified element.test.ts: uniform limits, linear taper against analytic/beam-statics (1e-9), rigid motions
 */
export function beamElement(table: SectionTable, from: number, to: number, properties: BendingProperties): ElementPart {
  const h = to - from;
  // running ∫sᵏ/EI for k = 0, 1, 2 and ∫1/κGA from the inner node
  const p = [0, 0, 0, 0];
  const samples: { s: number; p: readonly number[]; mass: number; rotary: number }[] = [];
  walk(
    table,
    from,
    to,
    (row, station, length) => {
      const s = station - from;
      const bending = length * properties.bendingFlexibility(row, station);
      p[0] += bending;
      p[1] += bending * s;
      p[2] += bending * s * s;
      p[3] += length * properties.shearFlexibility(row, station);
    },
    (row, station, length) => {
      const mass = length * properties.mass(row, station);
      const rotary = length * properties.rotaryInertia(row, station);
      samples.push({ s: station - from, p: [...p], mass, rotary });
    },
  );
  const a1 = h * p[0] - p[1];
  const a2 = h * h * p[0] - 2 * h * p[1] + p[2] + p[3];
  const determinant = p[0] * a2 - a1 * a1;
  const ends = [
    [-1, -h, 1, 0],
    [0, -1, 0, 1],
  ];
  // rows of F⁻¹B: shear V and outer moment M_h for each freedom
  const shear = ends[0].map((b, j) => (p[0] * b - a1 * ends[1][j]) / determinant);
  const moment = ends[1].map((b, j) => (a2 * b - a1 * ends[0][j]) / determinant);
  const stiffness = new Float64Array(16);
  const mass = new Float64Array(16);
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j <= i; j++) {
      const value = ends[0][i] * shear[j] + ends[1][i] * moment[j];
      stiffness[4 * i + j] = value;
      stiffness[4 * j + i] = value;
    }
  }
  const deflection = [0, 0, 0, 0];
  const rotation = [0, 0, 0, 0];
  for (const { s, p: q, mass: weight, rotary } of samples) {
    const byShear = s * h * q[0] - (s + h) * q[1] + q[2] + q[3];
    const byMoment = s * q[0] - q[1];
    for (let j = 0; j < 4; j++) {
      deflection[j] = (j === 0 ? 1 : j === 1 ? s : 0) + byShear * shear[j] + byMoment * moment[j];
      rotation[j] = (j === 1 ? 1 : 0) + (h * q[0] - q[1]) * shear[j] + q[0] * moment[j];
    }
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j <= i; j++) {
        mass[4 * i + j] += weight * deflection[i] * deflection[j] + rotary * rotation[i] * rotation[j];
      }
    }
  }
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < i; j++) mass[4 * j + i] = mass[4 * i + j];
  }
  return { stiffness, mass };
}

/**
 * Goes along an element: `add` at the points of the running integrals, `sample` where the mass is gathered, in the order of
 * the stations, so that at each sample the running integrals have just reached its station.
 */
function walk(
  table: SectionTable,
  from: number,
  to: number,
  add: (row: number, station: number, length: number) => void,
  sample: (row: number, station: number, length: number) => void,
): void {
  for (const piece of table.pieces(from, to)) {
    const half = (piece.to - piece.from) / 2;
    const middle = (piece.from + piece.to) / 2;
    let reached = piece.from;
    const advance = (station: number): void => {
      const step = (station - reached) / 2;
      for (let i = 0; i < BETWEEN.points.length; i++) {
        add(piece.row, reached + step * (1 + BETWEEN.points[i]), step * BETWEEN.weights[i]);
      }
      reached = station;
    };
    for (let i = 0; i < SHAPE.points.length; i++) {
      const station = middle + half * SHAPE.points[i];
      advance(station);
      sample(piece.row, station, half * SHAPE.weights[i]);
    }
    advance(piece.to);
  }
}
