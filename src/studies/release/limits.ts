import type { Limit } from "../finding/index.ts";
import { NORMAL } from "./cases.ts";
import { slug } from "./ids.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { ComputedRelease, ReleaseCaseResult, ReleaseEnvelope } from "./types.ts";

/** What of the normal release comes nearest to its criterion, over poses, loadings, airspeeds and load factors; unclean first. */
export function limitingCase(
  cases: readonly ReleaseCaseResult[],
  envelopes: readonly ReleaseEnvelope[],
): string | null {
  const all = [
    ...cases
      .filter(({ name }) => name === NORMAL)
      .map(({ mass, boomAngle_deg, outcome, clearance_m }) => ({
        what: `${mass}, boom ${boomAngle_deg.toFixed(0)}°, level flight at the condition's airspeed`,
        ...{ outcome, clearance: clearance_m },
      })),
    ...envelopes.flatMap(({ mass, airspeed_m_s_EAS, loadFactor_1, outcome, clearance_m }) =>
      outcome.flatMap((row, i) =>
        row.map((cell, j) => ({
          what: `${mass}, ${airspeed_m_s_EAS[j].toFixed(0)} m/s EAS, load factor ${loadFactor_1[i]}`,
          ...{ outcome: cell, clearance: clearance_m[i][j] },
        })),
      ),
    ),
  ];
  const margin = ({ outcome, clearance }: (typeof all)[number]): number =>
    outcome === "clean" ? 1 + (clearance ?? 0) : outcome === "touches" || outcome === "hang-up" ? -1 : 0;
  if (all.length === 0) return null;
  const worst = all.reduce((a, b) => (margin(b) < margin(a) ? b : a));
  const said = worst.clearance === null ? "" : `, ${worst.clearance.toFixed(2)} m`;
  return `${worst.what}: ${worst.outcome}${said}`;
}

const NO_DATA = "no increments near the carrier: not analysed";

/** Limits of a normal release; without increments near the carrier nothing is cleared. */
export function releaseLimits(inputs: ReleaseInputs, computed: ComputedRelease): Limit[] {
  const data = inputs.proximity !== null && inputs.bodies !== null;
  const speeds = computed.edges.map(({ mass, quantity, limit, unit, wholeRange, because }): Limit => {
    const slow = quantity === "airspeed";
    const note = !data
      ? NO_DATA
      : limit === null
        ? `clean nowhere in the range: ${because}`
        : wholeRange
          ? "the whole range that was asked for"
          : `${slow ? "slower" : "more"}: ${because}`;
    return {
      id: `release.${quantity}.${slug(mass)}`,
      title: slow
        ? `Least airspeed of a release, ${mass}`
        : `Largest thrust of the carried aircraft in a release, ${mass}`,
      quantity: slow ? "airspeed" : "thrust",
      lower: slow && data ? limit : null,
      upper: !slow && data ? limit : null,
      unit,
      status: data && limit !== null ? "analysed" : "not cleared",
      because: [`release.${slow ? "least-speed" : "largest-thrust"}.${slug(mass)}`],
      note,
    };
  });
  return [
    ...speeds,
    ...computed.envelopes.map((map) => loadFactors(map, data)),
    ...inputs.settings.masses.map((mass) => poses(computed, mass, data)),
    ...sigmas(computed, data),
  ];
}

/** Poses from the first on from which the release is clean and its stroke meets both criteria. */
function poses({ cases, criteria }: ComputedRelease, mass: string, data: boolean): Limit {
  const own = cases.filter((one) => one.name === NORMAL && one.mass === mass);
  const good = ({ outcome, exitSpeed_m_s, exitPitchRate_deg_s }: ReleaseCaseResult): boolean =>
    outcome === "clean" &&
    (exitSpeed_m_s ?? 0) >= criteria.exitSpeed_m_s &&
    Math.abs(exitPitchRate_deg_s ?? Infinity) <= criteria.exitPitchRate_deg_s;
  const end = own.findIndex((one) => !good(one));
  const met = (end < 0 ? own : own.slice(0, end)).map(({ boomAngle_deg }) => boomAngle_deg);
  const found = data && met.length > 0;
  return {
    id: `release.boom-angle.${slug(mass)}`,
    title: `Boom angle of a release with its stroke inside both criteria, ${mass}`,
    quantity: "boom angle",
    lower: found ? Math.min(...met) : null,
    upper: found ? Math.max(...met) : null,
    unit: "deg",
    status: found ? "analysed" : "not cleared",
    because: [
      ...own.map(({ boomAngle_deg }) => `release.normal.${slug(mass)}.${boomAngle_deg.toFixed(0)}-deg`),
      ...["speed", "pitch-rate"].map((what) => `release.stroke.${what}.${slug(mass)}`),
    ],
    ...(data ? (found ? {} : { note: "not from the first pose" }) : { note: NO_DATA }),
  };
}

/** Widest run of load factors about level flight in which every airspeed from the condition's own on is clean. */
function loadFactors({ mass, loadFactor_1, outcome }: ReleaseEnvelope, data: boolean): Limit {
  const clean = outcome.map((row) => row.filter((cell) => cell === "clean").length === row.length);
  const level = loadFactor_1.findIndex((n) => n >= 1);
  let [low, high] = [level, level];
  while (low > 0 && clean[low - 1]) low--;
  while (high >= 0 && high + 1 < clean.length && clean[high + 1]) high++;
  const found = level >= 0 && clean[level];
  return {
    id: `release.load-factor.${slug(mass)}`,
    title: `Load factor of a release at every airspeed of the envelope, ${mass}`,
    quantity: "load factor",
    lower: data && found ? loadFactor_1[low] : null,
    upper: data && found ? loadFactor_1[high] : null,
    unit: "1",
    status: data && found ? "analysed" : "not cleared",
    because: [`release.envelope.${slug(mass)}`],
    ...(data ? (found ? {} : { note: "level flight is not clean at every airspeed" }) : { note: NO_DATA }),
  };
}

/** Strongest turbulence in which the share is shown with every loading. */
function sigmas({ batches, criteria }: ComputedRelease, data: boolean): Limit[] {
  const levels = [...new Set(batches.map(({ sigma_m_s }) => sigma_m_s))].sort((a, b) => a - b);
  if (levels.length === 0) return [];
  let upper: number | null = null;
  for (const level of levels) {
    const own = batches.filter(({ sigma_m_s }) => sigma_m_s === level);
    if (!own.every(({ clean }) => clean.lower_1 >= criteria.clean_1)) break;
    upper = level;
  }
  return [
    {
      id: "release.turbulence",
      title: "Turbulence in which the share of clean releases is shown with every loading",
      ...{ quantity: "intensity σ of the vertical gusts", lower: null, upper: data ? upper : null, unit: "m/s" },
      status: data && upper !== null ? "analysed" : "not cleared",
      because: batches.map(({ key }) => `release.rough-air.${slug(key)}`),
      ...(data ? (upper === null ? { note: "in none of those that were drawn" } : {}) : { note: NO_DATA }),
    },
  ];
}
