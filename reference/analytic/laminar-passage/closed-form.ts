/**
 * Flow through a straight laminar passage by integration of the velocity profile, per pressure gradient and viscosity.
 *
 *     w(r) = (1/4)·(R² − r²)                                   round tube of radius R
 *
 * The annulus: w = (1/4)·(R² − r² − (R² − a²)·ln(r/R)/ln(a/R)), zero at r = R and r = a. The flow ∫w·2πr dr is taken by Simpson's rule
 * over the gap, so that no closed form of the flow enters.
 *
 * @param outer R [m], @param inner a [m]; 0 for a tube
 * @returns Q·μ·l/Δp [m⁴]
 */
export function flowFactor(outer: number, inner: number): number {
  const profile = (r: number): number => {
    const tube = outer ** 2 - r ** 2;
    if (inner === 0) return tube / 4;
    return (tube - ((outer ** 2 - inner ** 2) * Math.log(r / outer)) / Math.log(inner / outer)) / 4;
  };
  const steps = 4000;
  const h = (outer - inner) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const r = inner + i * h;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * profile(r) * 2 * Math.PI * r;
  }
  return (sum * h) / 3;
}
