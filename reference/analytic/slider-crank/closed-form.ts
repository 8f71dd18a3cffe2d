/**
 * Slider and crank: crank r about the origin, rod ℓ, the slider's pin on the line y = e, at the far side (larger x).
 *
 *     x = r cos α + √(ℓ² − (r sin α − e)²)
 */
export function sliderPosition(r: number, rod: number, offset: number, alpha: number): number {
  return r * Math.cos(alpha) + Math.sqrt(rod ** 2 - (r * Math.sin(alpha) - offset) ** 2);
}

/** dx/dα = −r sin α − (r sin α − e) r cos α / √(ℓ² − (r sin α − e)²) */
export function sliderRate(r: number, rod: number, offset: number, alpha: number): number {
  const rise = r * Math.sin(alpha) - offset;
  return -r * Math.sin(alpha) - (rise * r * Math.cos(alpha)) / Math.sqrt(rod ** 2 - rise ** 2);
}
