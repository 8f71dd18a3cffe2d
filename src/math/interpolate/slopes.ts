/** Slopes at the nodes of a monotone curve. */

/** Weighted harmonic mean of the chord slopes, zero where they differ in sign. */
export function innerSlope(before: number, after: number, left: number, right: number): number {
  if (left * right <= 0) return 0;
  const leftWeight = 2 * after + before;
  const rightWeight = after + 2 * before;
  return (leftWeight + rightWeight) / (leftWeight / left + rightWeight / right);
}

/** Three-point slope at an end, no steeper than three chords and never against the first chord. */
export function endSlope(width: number, nextWidth: number, chord: number, nextChord: number): number {
  const slope = ((2 * width + nextWidth) * chord - width * nextChord) / (width + nextWidth);
  if (slope * chord <= 0) return 0;
  if (chord * nextChord <= 0 && Math.abs(slope) > 3 * Math.abs(chord)) return 3 * chord;
  return slope;
}
