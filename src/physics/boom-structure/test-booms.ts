/** Booms of unit properties and tube sections for the tests of this folder. */
import type { BoomSection, BoomVector } from "./types.ts";

export const SWING: BoomVector = [0, 1, 0];
export const RIGHT: BoomVector = [0, 0, 1];
export const ALONG: BoomVector = [1, 0, 0];
export const DEGREE = Math.PI / 180;

/** EI = m = 1 in the swing plane; sideways, in torsion and along so stiff that these motions are far away. */
export const unitSection: Omit<BoomSection, "station"> = {
  ...{ bendingSwing: 1, bendingLateral: 1e3, torsion: 1e3, axial: 1e5, massPerLength: 1 },
};

/** A uniform boom of a length as a table of two rows. */
export function uniform(section: Omit<BoomSection, "station">, length: number): BoomSection[] {
  return [
    { station: 0, ...section },
    { station: length, ...section },
  ];
}

/** Steel with E = 210 GPa, ν = 0.3, 7850 kg/m³. */
const STEEL = { modulus: 210e9, poisson: 0.3, density: 7850 };

/** Two equal round tubes side by side that bend together; shear with Cowper's factor of a thin tube, 2(1 + ν)/(4 + 3ν). */
export function twinTubes(outer: number, wall: number): Omit<BoomSection, "station"> {
  const inner = outer - 2 * wall;
  const area = (2 * Math.PI * (outer ** 2 - inner ** 2)) / 4;
  const inertia = (2 * Math.PI * (outer ** 4 - inner ** 4)) / 64;
  const { modulus, poisson, density } = STEEL;
  const shear = ((modulus * area) / (2 * (1 + poisson))) * ((2 * (1 + poisson)) / (4 + 3 * poisson));
  return {
    ...{ bendingSwing: modulus * inertia, bendingLateral: modulus * inertia },
    ...{ torsion: (modulus / (1 + poisson)) * inertia, axial: modulus * area, massPerLength: density * area },
    ...{ shearSwing: shear, shearLateral: shear },
    ...{ rotaryInertiaSwing: density * inertia, rotaryInertiaLateral: density * inertia },
    ...{ fibreSwing: outer / 2, fibreLateral: outer / 2, youngsModulus: modulus },
  };
}

/** A boom that nothing has in common with its neighbours: tapers, a step, shear, every inertia. */
export const ODD: readonly BoomSection[] = [
  row(-0.4, 1.3, 0.9),
  row(0, 1.4, 1.1),
  row(1.5, 1.1, 0.8),
  row(1.5, 0.8, 0.7),
  row(4, 0.4, 0.3),
];

function row(station: number, size: number, mass: number): BoomSection {
  return {
    station,
    ...{ bendingSwing: 2e6 * size, bendingLateral: 5e6 * size, torsion: 1.5e6 * size, axial: 8e8 * size },
    ...{ massPerLength: 40 * mass, shearSwing: 2e8 * size, shearLateral: 1.5e8 * size },
    ...{ rotaryInertiaSwing: 0.1 * mass, rotaryInertiaLateral: 0.25 * mass },
    ...{ fibreSwing: 0.1, fibreLateral: 0.2, youngsModulus: 210e9 },
  };
}
