/** A time as hours and minutes: `4 h 05 min`. */
export function clock(time: number): string {
  const minutes = Math.round(time / 60);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : `${h} h ${String(min).padStart(2, "0")} min`;
}
