/** Words of the study `balance`. */

/** A time of the mission: `4 h 05`, `35 min`. */
export function missionTime(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : `${h} h ${String(min).padStart(2, "0")}`;
}
