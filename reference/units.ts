/** SI value of one printed unit; exact by definition where the unit is defined in metres, kilograms and seconds. */
const foot = 0.3048;
const pound = 0.45359237;
const poundForce = pound * 9.80665;
const slug = poundForce / foot;
const degree = Math.PI / 180;

export const perUnit: Readonly<Record<string, number>> = {
  "-": 1,
  "1/rad": 1,
  rad: 1,
  deg: degree,
  s: 1,
  m: 1,
  km: 1000,
  ft: foot,
  in: foot / 12,
  m2: 1,
  ft2: foot * foot,
  "m/s": 1,
  "ft/s": foot,
  "m/s2": 1,
  "ft/s2": foot,
  "1/s": 1,
  "1/s2": 1,
  "1/ft": 1 / foot,
  "1/(s-ft)": 1 / foot,
  "rad/s": 1,
  "deg/s": degree,
  K: 1,
  Pa: 1,
  mb: 100,
  bar: 1e5,
  "lbf/ft2": poundForce / (foot * foot),
  "kg/m3": 1,
  "slug/ft3": slug / foot ** 3,
  "kg/(m-s)": 1,
  "N/m": 1,
  kg: 1,
  slug,
  lbf: poundForce,
  N: 1,
  "kg-m2": 1,
  "slug-ft2": slug * foot * foot,
  "m3/s2": 1,
  percent: 0.01,
};
