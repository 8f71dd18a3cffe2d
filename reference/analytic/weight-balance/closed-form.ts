/** Place on the mean aerodynamic chord in per cent, from stations in any one unit. */
export function percentOfChord(cg: number, leadingEdge: number, trailingEdge: number): number {
  return ((cg - leadingEdge) * 100) / (trailingEdge - leadingEdge);
}

/** Tip-back angle [deg] of a c.g. that lies `ahead` of the main wheel contact and `height` above the ground. */
export function tipBack(ahead: number, height: number): number {
  return (Math.atan(ahead / height) * 180) / Math.PI;
}
