import { turbulenceScales } from "../../physics/turbulence/index.ts";
import { findingMaker } from "../finding/index.ts";
import { type HoldPartContext, type HoldPartOutcome, operatingPoint, restsOf } from "../hold/index.ts";
import { roughAirFindings, roughAirLimit } from "./findings.ts";
import { roughAirPoint } from "./point.ts";
import { readSettings } from "./settings.ts";
import { chartedAir, severitiesOf } from "./severity.ts";
import type { RoughAirCondition, RoughAirPoint, RoughAirResult } from "./types.ts";

/**
 * The part "rough air" of `hold`: loads and motions of the hooked aircraft in turbulence and in discrete gusts, and the
 * largest intensity in which every limit holds with the stated probability for the stated time.
 *
 * @returns nothing when the pair gives no `studies.hold.roughAir`
 */
export function runRoughAir(context: HoldPartContext): HoldPartOutcome<RoughAirResult> | null {
  const settings = readSettings(context);
  if (settings === null) return null;
  const { inputs, groups } = context;
  const make = findingMaker(context.findings);
  const conditions: RoughAirCondition[] = [];
  const points: RoughAirPoint[] = [];
  const outcome = inputs.conditions.map((condition) => {
    const height = settings.height ?? condition.altitude;
    const scales = turbulenceScales(settings.document, settings.spectrum, Math.max(height, LEAST_HEIGHT));
    const chart = chartedAir(condition.altitude, height);
    const { Lu, Lv, Lw } = scales;
    conditions.push({
      condition: condition.name,
      ...{ height_m: height, Lu_m: Lu, Lv_m: Lv, Lw_m: Lw },
      severities: severitiesOf(chart),
    });
    const own = condition.masses.map((mass, i) => {
      context.step(`${condition.name}, ${mass}`);
      const at = operatingPoint(inputs, condition, mass);
      const id = `${condition.name}.${mass}`;
      const check = i === 0 && settings.simulation !== undefined;
      return roughAirPoint({ inputs, settings, at, id, height, scales, chart, seed: context.seed, check });
    });
    points.push(...own);
    const rests = [
      ...restsOf(groups, condition.name, condition.masses, false).dynamics.longitudinal,
      ...groups.stall,
      ...groups.ratio,
    ];
    const evidence = {
      ...{ condition: condition.name, altitude: condition.altitude, points: own, rests },
      chartSource: chart.source,
    };
    return { findings: roughAirFindings(settings, evidence).map(make), limit: roughAirLimit(settings, evidence) };
  });
  const { document, spectrum, design } = settings;
  return {
    result: {
      ...{ document, spectrum, design: { name: design.name, sigma_m_s: design.sigma }, conditions, points },
      timeHooked_s: settings.timeHooked,
      probability_1: settings.probability,
    },
    findings: outcome.flatMap(({ findings }) => findings),
    limits: outcome.map(({ limit }) => limit),
    assumptions: ASSUMPTIONS,
    notAnalysed: [...NOT_ANALYSED, ...(settings.gust === undefined ? [NO_GUST] : [])],
    answers: ["roughAir"],
  };
}

/** Scale lengths are defined from 10 ft above ground [m]. */
const LEAST_HEIGHT = 3.048;

const ASSUMPTIONS = [
  "Rough air: the carrier flies steadily through it; gusts act on the carried aircraft alone, as a frozen normal field along the flight path.",
  "Rough air: loads follow a gust with the two lags of a wing in a gust; the aircraft's own motion is quasi-steady. The α̇ derivatives follow aircraft and gust together, as far as the averaged gradient of the gust.",
  "Rough air: limits are passed as independent rare events (Rice); limits of several quantities add up. Both overstate the probability.",
  "Rough air: controls as in the base; no pilot fights the gusts.",
];

const NOT_ANALYSED = [
  "Rough air made by the carrier itself (wake, slipstream, buffet) at the carried aircraft.",
  "Gusts that move the carrier and with it the hinge.",
];
const NO_GUST = "Discrete gusts: the pair gives no reference velocity.";
