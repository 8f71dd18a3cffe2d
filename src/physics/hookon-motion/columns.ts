import { HOOKON_OUTCOMES } from "./types.ts";

/** A column of the table of runs; the shape of a sample column. */
export interface HookonColumn {
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  readonly words?: readonly string[];
}

const column = (name: string, title: string, unit = ""): HookonColumn => ({ name, title, unit });

/** Columns of a run's row, in order. NaN: did not happen. */
export const HOOKON_COLUMNS: readonly HookonColumn[] = [
  { name: "outcome", title: "Outcome", unit: "", words: HOOKON_OUTCOMES },
  column("locked", "Locked and stable: 1, else 0"),
  column("contact_s", "Time of first contact", "s"),
  column("closure_m_s", "Closure speed at first contact, into the mouth", "m/s"),
  column("lateral_m_s", "Speed across the socket's axis at first contact", "m/s"),
  column("contactAngle_rad", "Angle between probe and funnel at first contact", "rad"),
  column("missRight_m", "Head from the mouth's centre along k2 as it comes to the mouth", "m"),
  column("missUp_m", "Head from the mouth's centre along k3 as it comes to the mouth", "m"),
  column("miss_m", "Distance of the head from the mouth's centre as it comes to the mouth", "m"),
  column("impulse_N_s", "Impulse of all forces on the probe until lock or end", "N·s"),
  column("axialLoad_N", "Largest load on the probe along its axis", "N"),
  column("sideLoad_N", "Largest load on the probe across its axis", "N"),
  column("bufferTravel_m", "Largest travel of the buffer", "m"),
  column("bottomed", "Buffer bottomed: 1, else 0"),
  column("funnelTilt_rad", "Largest tilt of the funnel", "rad"),
  column("trip_s", "Time of the trip", "s"),
  column("lock_s", "Time of the lock", "s"),
  column("attempts", "Closing phases begun"),
  column("touches", "Separate touches"),
  column("ringDamping", "Damping ratio of the boom's swing after lock, from its peaks"),
  column("ringFrequency_Hz", "Frequency of the boom's swing after lock, from its peaks", "Hz"),
  column("sidewaysDamping", "Damping ratio of the sideways swing after lock, from its peaks"),
  column("sidewaysFrequency_Hz", "Frequency of the sideways swing after lock, from its peaks", "Hz"),
  column("tipTravel_m", "Largest travel of the tip from rest after lock", "m"),
  column("pitch_rad", "Largest pitch from trim after lock", "rad"),
  column("bank_rad", "Largest bank after lock", "rad"),
  column("duration_s", "Time the run lasted", "s"),
  column("closest_m", "Least distance of the head from the mouth's centre", "m"),
  column("events", "Events located"),
];

/** Place of a column by name. */
export const COLUMN = Object.fromEntries(HOOKON_COLUMNS.map(({ name }, i) => [name, i])) as Readonly<
  Record<string, number>
>;
