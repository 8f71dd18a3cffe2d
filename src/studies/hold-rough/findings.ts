import { referenceGust } from "../../physics/turbulence/index.ts";
import type { FindingDraft, Limit } from "../finding/index.ts";
import { QUANTITIES, titleOf } from "./quantities.ts";
import type { RoughAirInputs } from "./settings.ts";
import type { QuantityKey, RoughAirPoint } from "./types.ts";

/** What the findings of one condition are made of. */
export interface ConditionEvidence {
  readonly condition: string;
  readonly altitude: number;
  /** Its points, one for each mass. */
  readonly points: readonly RoughAirPoint[];
  /** Where the named severities come from. */
  readonly chartSource: string;
  /** Pair paths of everything but settings and limits. */
  readonly rests: readonly string[];
}

const percent = (share: number): string => `${Number((100 * share).toPrecision(3))} %`;
const minutes = (seconds: number): string => `${Number((seconds / 60).toPrecision(3))} min`;
const speed = (sigma: number): string => sigma.toFixed(2);

/** Ids of the findings of a condition. */
const idOf = (condition: string): string => `hold.${condition}.rough-air`;

/**
 * Findings of one condition: the largest σ in which everything holds, each limit alone, the worst discrete gust and the
 * check by simulation. A mass that does not settle has no σ, and says so.
 */
export function roughAirFindings(settings: RoughAirInputs, evidence: ConditionEvidence): FindingDraft[] {
  const { points, condition } = evidence;
  const id = idOf(condition);
  const rests = [...evidence.rests, ...settings.paths, ...settings.limits.flatMap(({ paths }) => paths)];
  const asked = `${percent(settings.probability)} in ${minutes(settings.timeHooked)} hooked`;
  const criterion = {
    text: `limits hold with ${asked} in ${settings.design.name} turbulence, σ ${settings.design.sigma} m/s`,
    ...{ sense: "at least" as const, limit: settings.design.sigma, source: "project criterion" },
  };
  const title = `Largest turbulence intensity σ in which every limit holds (${asked}), all masses`;
  const unsettled = points.filter(({ outcome }) => outcome !== "stationary");
  if (unsettled.length > 0) {
    const note = unsettled.map(unsettledWords).join("; ");
    return [{ id, title, value: null, unit: "m/s", criterion, verdict: "not met", note, rests }];
  }
  const worst = worstPoint(points);
  const { sigma_m_s, limiting } = worst.answer!;
  const drafts: FindingDraft[] = [
    { id, title, value: sigma_m_s, unit: "m/s", criterion, rests, note: answerWords(evidence, worst) },
    ...aloneFindings(settings, evidence, id, asked),
    ...gustFinding(settings, evidence, id, rests),
    ...checkFinding(points, id, rests),
  ];
  if (sigma_m_s === 0) {
    const note = `${titleOf(limiting).toLowerCase()} is outside its limit at trim already, mass ${worst.mass}`;
    drafts[0] = { ...drafts[0], note };
  }
  return drafts;
}

function unsettledWords({ mass, outcome, timeToDouble_s }: RoughAirPoint): string {
  if (outcome === "no trim") return `mass ${mass} does not trim`;
  const doubles = timeToDouble_s === null ? "is neutral" : `doubles in ${Number(timeToDouble_s.toPrecision(3))} s`;
  return `mass ${mass} grows without rough air (${doubles}): there is no stationary response and no σ`;
}

function worstPoint(points: readonly RoughAirPoint[]): RoughAirPoint {
  return points.reduce((least, one) => (one.answer!.sigma_m_s < least.answer!.sigma_m_s ? one : least));
}

function answerWords({ chartSource }: ConditionEvidence, { mass, answer }: RoughAirPoint): string {
  const { limiting, severity, exceedance_1, sigma_m_s } = answer!;
  const name = severity === null ? `no severity name (${chartSource})` : `severity: ${severity} (${chartSource})`;
  const often = exceedance_1 === null ? "" : `; rougher air has a probability of about ${exceedance_1.toPrecision(2)}`;
  return `σ ${speed(sigma_m_s)} m/s at mass ${mass}; ${titleOf(limiting).toLowerCase()} gives way first; ${name}${often}. Limit load, not ultimate`;
}

/** σ at which each limit alone holds, least over the masses. */
function aloneFindings(
  settings: RoughAirInputs,
  { points, rests }: ConditionEvidence,
  id: string,
  asked: string,
): FindingDraft[] {
  return QUANTITIES.flatMap(({ key, title }): FindingDraft[] => {
    const own = points.map((point) => ({ point, q: point.quantities.find((one) => one.key === key)! }));
    if (own[0].q.limit === null) return [];
    const least = own.reduce((a, b) => (b.q.largestSigma_m_s! < a.q.largestSigma_m_s! ? b : a));
    const stated = settings.limits.find((one) => one.key === key);
    const { mean, unit, deviationPerSigma, crossings_1_s, limit } = least.q;
    const sigma = least.q.largestSigma_m_s!;
    if (deviationPerSigma === 0 || sigma > 1e3) return [];
    const number = (value: number): string => `${Number(value.toPrecision(3))}${unit === "1" ? "" : ` ${unit}`}`;
    const band = [limit!.lower, limit!.upper].map((end) => (end === null ? "open" : number(end))).join(" to ");
    return [
      {
        id: `${id}.${slugOf(key)}`,
        title: `${title}: largest σ at which its limit alone holds (${asked})`,
        ...{ value: sigma, unit: "m/s" },
        criterion: {
          text: `${title.toLowerCase()} stays within ${band} in ${settings.design.name} turbulence`,
          ...{ sense: "at least" as const, limit: settings.design.sigma, source: limit!.source },
        },
        note: `mass ${least.point.mass}: mean ${number(mean)}, spread ${number(deviationPerSigma)} per m/s of σ, N₀ ${crossings_1_s.toPrecision(3)} Hz`,
        rests: [...rests, ...settings.paths, ...(stated?.paths ?? [])],
      },
    ];
  });
}

const slugOf = (key: QuantityKey): string => key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

function gustFinding(
  { gust }: RoughAirInputs,
  { points, altitude }: ConditionEvidence,
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  if (gust === undefined) return [];
  const rows = points.flatMap((point) =>
    point.gusts!.rows.flatMap((row) =>
      row.share_1 === null ? [] : [{ ...row, share: row.share_1, mass: point.mass }],
    ),
  );
  if (rows.length === 0) return [];
  const worst = rows.reduce((a, b) => (b.share > a.share ? b : a));
  const published =
    altitude >= 0 && altitude <= 18288
      ? ` 14 CFR 25.341(a) would ask for ${referenceGust(altitude).toFixed(1)} m/s EAS at the design cruising speed (recalled, for comparison only)`
      : "";
  return [
    {
      id: `${id}.discrete-gust`,
      title: "Largest share of the room between trim and a limit that a 1−cosine gust of 30 to 350 ft gradient takes",
      ...{ value: worst.share, unit: "1", rests },
      criterion: {
        text: "every limit holds in the worst discrete gust",
        ...{
          sense: "at most" as const,
          limit: 1,
          source: "project criterion; shape and gradients of 14 CFR 25.341(a)",
        },
      },
      note: `${titleOf(worst.key).toLowerCase()}, mass ${worst.mass}, ${worst.direction} gust of ${worst.gradient_m.toFixed(0)} m gradient, reference ${gust.reference} m/s EAS.${published}`,
    },
  ];
}

function checkFinding(points: readonly RoughAirPoint[], id: string, rests: readonly string[]): FindingDraft[] {
  const point = points.find(({ check }) => check !== null);
  if (point === undefined) return [];
  const { outcome, rows, seeds, time_s, sigma_m_s } = point.check!;
  const title = "Check by simulation: largest difference between simulated and computed spread, in sampling errors";
  const base = { id: `${id}.simulation`, title, unit: "1", rests };
  if (outcome !== "completed") {
    const note = `${outcome === "left" ? "the simulated aircraft turned by more than 60°" : outcome}, mass ${point.mass}, σ ${sigma_m_s} m/s`;
    return [{ ...base, value: null, verdict: "not analysed", note }];
  }
  const distance = ({ computed, simulated, samplingError_1 }: (typeof rows)[number]): number =>
    samplingError_1 > 0 ? Math.abs(simulated / computed - 1) / samplingError_1 : 0;
  const worst = rows.reduce((a, b) => (distance(b) > distance(a) ? b : a));
  const curved = Math.max(
    ...rows.map(({ linear, simulated }) => (simulated > 0 ? Math.abs(linear / simulated - 1) : 0)),
  );
  return [
    {
      ...base,
      value: distance(worst),
      criterion: {
        text: "the nonlinear pair in seeded gusts has the computed spread within four sampling errors",
        ...{ sense: "at most" as const, limit: 4, source: "project criterion" },
      },
      note: `${titleOf(worst.key).toLowerCase()}, mass ${point.mass}; ${seeds} histories, ${time_s.toFixed(0)} s together, Dryden σ ${sigma_m_s} m/s; the linear model in the same gusts differs by at most ${percent(curved)}`,
    },
  ];
}

/** The limit of operation that follows: σ up to which rough air is analysed, or none. */
export function roughAirLimit(settings: RoughAirInputs, evidence: ConditionEvidence): Limit {
  const { condition, points } = evidence;
  const id = idOf(condition);
  const base = {
    ...{ id, title: "Turbulence while hooked at one point", quantity: "intensity σ of vertical gusts", unit: "m/s" },
    because: [id],
  };
  const unsettled = points.filter(({ outcome }) => outcome !== "stationary");
  if (unsettled.length > 0) {
    return { ...base, lower: 0, upper: null, status: "prohibited", note: unsettled.map(unsettledWords).join("; ") };
  }
  const worst = worstPoint(points);
  const note = `${answerWords(evidence, worst)}; ${percent(settings.probability)} in ${minutes(settings.timeHooked)}, ${settings.spectrum} of ${settings.document}`;
  return { ...base, lower: 0, upper: worst.answer!.sigma_m_s, status: "analysed", note };
}
