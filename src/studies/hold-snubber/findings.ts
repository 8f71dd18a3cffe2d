import { dynamicViscosity, LAMINAR_REYNOLDS } from "../../physics/hydraulics/index.ts";
import { type Finding, type FindingDraft, findingMaker } from "../finding/index.ts";
import { type HoldCondition, type HoldPartContext, restsOf } from "../hold/index.ts";
import { bleedReynolds } from "./hardware.ts";
import { noddingFindings } from "./nodding-findings.ts";
import type { SnubberInputs } from "./settings.ts";
import { failedFindings, mapFindings } from "./state-findings.ts";
import type { SnubberPoint, SnubberResult } from "./types.ts";
import { celsius, kilo, percent } from "./words.ts";

/** Everything the part says, each with its criterion, source and what it rests on. */
export function snubberFindings(context: HoldPartContext, snubber: SnubberInputs, result: SnubberResult): Finding[] {
  const make = findingMaker(context.findings);
  const drafts: FindingDraft[] = [
    ...agreementFindings(snubber, result),
    ...slowFindings(context, snubber, result),
    ...context.inputs.conditions.flatMap((condition) => conditionFindings(context, snubber, result, condition)),
  ];
  return drafts.map(make);
}

function agreementFindings({ settings, paths }: SnubberInputs, { agreement }: SnubberResult): FindingDraft[] {
  const { value, source } = settings.criteria.agreement;
  return agreement.map(({ quantity, declared, hardware, unit, difference_1 }) => ({
    id: `hold.snubber.agreement.${quantity}`,
    title: `Difference between hardware and declared ${quantity === "accumulator" ? "accumulator stiffness" : quantity}`,
    ...{ value: difference_1, unit: "1", rests: [...paths.hardware, ...paths.declared, ...paths.criteria] },
    criterion: {
      text: `hardware and declared value differ by at most ${percent(value)}`,
      ...{ sense: "at most", limit: value, source },
    },
    note: `hardware ${hardware.toPrecision(4)} ${unit}, declared ${declared.toPrecision(4)} ${unit}`,
  }));
}

function slowFindings(context: HoldPartContext, snubber: SnubberInputs, { slow }: SnubberResult): FindingDraft[] {
  const { settings, paths } = snubber;
  const rests = [...paths.hardware, ...paths.study, ...paths.travel, ...context.groups.ratio];
  const worst = slow.reduce((a, b) => (b.jackForce_N > a.jackForce_N ? b : a));
  const each = slow.map(({ temperature_degC, jackForce_N, viscosity_m2_s, capacityShare_1 }) => {
    const share = capacityShare_1 === null ? "" : ` (${percent(capacityShare_1)})`;
    return `${celsius(temperature_degC)}: ${kilo(jackForce_N)} kN${share}, oil ${(viscosity_m2_s * 1e6).toFixed(1)} mm²/s`;
  });
  const { value, source } = settings.criteria.slowForce;
  const note = `at ${worst.jackSpeed_m_s.toFixed(4)} m/s of the jack, ${worst.tipSpeed_m_s.toFixed(3)} m/s of the tip; ${each.join("; ")}`;
  const title = "Force of the snubber in the commanded stroke over the jack's capacity, worst oil temperature";
  const share = worst.capacityShare_1;
  const drafts: FindingDraft[] = [
    {
      id: "hold.snubber.slow-force",
      ...{ title, value: share, unit: "1", note, rests: [...rests, ...paths.capacity, ...paths.criteria] },
      ...(share === null
        ? { verdict: "not analysed" as const }
        : {
            criterion: {
              text: `snubber force in the commanded stroke at most ${percent(value)} of the jack's capacity`,
              ...{ sense: "at most" as const, limit: value, source },
            },
          }),
    },
  ];
  const slowest = slow.reduce((a, b) => ((b.strokeTime_s ?? Infinity) > (a.strokeTime_s ?? Infinity) ? b : a));
  const commanded = settings.stroke.time;
  drafts.push({
    id: "hold.snubber.stroke-time",
    title: "Time of the stroke with the force that the load leaves to the jack, slowest oil temperature",
    ...{ value: slowest.strokeTime_s, unit: "s", rests: [...rests, ...paths.capacity] },
    criterion: {
      text: `the stroke takes no longer than commanded, ${commanded} s`,
      // the commanded time itself, but for rounding
      ...{ sense: "at most", limit: commanded * (1 + 1e-9), source: "commanded time of the pair" },
    },
    ...(slowest.strokeTime_s === null ? { verdict: "not met" as const } : {}),
    note:
      slowest.strokeTime_s === null
        ? "the load alone takes the whole capacity of the jack"
        : `at ${celsius(slowest.temperature_degC)}`,
  });
  return [...drafts, ...reynoldsFindings(context, snubber)];
}

function reynoldsFindings({ inputs, groups }: HoldPartContext, snubber: SnubberInputs): FindingDraft[] {
  const { hardware, settings, declared, paths } = snubber;
  if (hardware.bleed === null) return [];
  const ratio = inputs.tipPerJack(declared.snubberAngle ?? inputs.conditions[0].boomAngleDown);
  const speed = (declared.amplitude * declared.omega) / (declared.snubberAngle === null ? 1 : ratio);
  const value = bleedReynolds(hardware, settings.temperatures.hot, speed);
  return [
    {
      id: "hold.snubber.bleed-reynolds",
      title: "Largest Reynolds number in the bleed at the declared amplitude, hottest oil",
      ...{ value, unit: "1", rests: [...paths.hardware, ...paths.declared, ...paths.study, ...groups.ratio] },
      criterion: {
        text: `the bleed is laminar: Reynolds number at most ${LAMINAR_REYNOLDS}`,
        ...{ sense: "at most", limit: LAMINAR_REYNOLDS, source: "common practice, no source" },
      },
      note: "above it the bleed is no longer a linear resistance",
    },
  ];
}

function conditionFindings(
  context: HoldPartContext,
  snubber: SnubberInputs,
  result: SnubberResult,
  condition: HoldCondition,
): FindingDraft[] {
  const id = `hold.${condition.name}`;
  const own = (masses: readonly string[]): string[] => [
    ...restsOf(context.groups, condition.name, masses, false).judged.longitudinal,
    ...snubber.paths.hardware,
    ...snubber.paths.declared,
    ...snubber.paths.study,
  ];
  const drafts = condition.masses.flatMap((mass) => {
    const points = result.points.filter((point) => point.condition === condition.name && point.mass === mass);
    if (points.length === 0) return [];
    const rests = own([mass]);
    return [
      ...dampingFindings(context, points, `${id}.${mass}`, rests),
      ...accumulatorFindings(points, `${id}.${mass}`, rests),
      ...noddingFindings(snubber, points, `${id}.${mass}`, rests),
    ];
  });
  const all = own(condition.masses);
  return [
    ...drafts,
    ...bleedFindings(snubber, result, condition.name, all),
    ...failedFindings(context, result, condition.name, all),
    ...mapFindings(context, snubber, result, condition.name, [
      ...all,
      ...context.groups.band,
      ...context.groups.sweeps,
      ...snubber.paths.capacity,
      ...snubber.paths.criteria,
    ]),
  ];
}

/** ζ with the hardware, each with the stiffness of the accumulator that it rests on. */
function dampingFindings(
  { inputs }: HoldPartContext,
  points: readonly SnubberPoint[],
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const { value: limit, source } = inputs.criteria.rigidBodyDamping;
  const kinds = [
    ["dampingRatio", "snubber-damping", "at the declared amplitude"],
    ["smallDampingRatio", "snubber-small-damping", "of the smallest motion"],
  ] as const;
  return kinds.map(([key, name, words]): FindingDraft => {
    const given = points.filter((point) => point[key] !== null);
    const title = `Worst longitudinal damping ratio ${words} with the snubber's hardware, worst oil temperature, mass ${points[0].mass}`;
    if (given.length === 0) {
      const note = "no longitudinal oscillation of rigid-body type";
      return { id: `${id}.${name}`, title, value: null, unit: "1", verdict: "information", note, rests };
    }
    const worst = given.reduce((a, b) => (b[key]! < a[key]! ? b : a));
    const each = given.map(
      (point) =>
        `${celsius(point.temperature_degC)}: ζ ${point[key]!.toFixed(4)} with accumulator ${kilo(point.accumulatorStiffness_N_m)} kN/m` +
        (key === "dampingRatio" ? `, ${kilo(point.rate_N_s_m)} kN·s/m` : `, bleed ${kilo(point.C1_N_s_m)} kN·s/m`),
    );
    return {
      ...{ id: `${id}.${name}`, title, value: worst[key], unit: "1", note: each.join("; "), rests },
      criterion: {
        text: `damping ratio of every rigid-body-type oscillation at least ${limit}`,
        ...{ sense: "at least", limit, source },
      },
    };
  });
}

function accumulatorFindings(points: readonly SnubberPoint[], id: string, rests: readonly string[]): FindingDraft[] {
  const normal = points.find(({ temperature }) => temperature === "normal") ?? points[0];
  const margin = (point: SnubberPoint): number => point.pressure_Pa / point.precharge_Pa;
  const least = points.reduce((a, b) => (margin(b) < margin(a) ? b : a));
  const each = points.map(
    (point) =>
      `${celsius(point.temperature_degC)}: ${kilo(point.accumulatorStiffness_N_m)} kN/m (${kilo(point.slowAccumulatorStiffness_N_m)} slow), gas ${(point.gasVolume_m3 * 1e3).toFixed(3)} L`,
  );
  return [
    {
      id: `${id}.accumulator-stiffness`,
      title: `Accumulator stiffness at the tip under the trim load, normal oil temperature, mass ${normal.mass}`,
      ...{ value: normal.accumulatorStiffness_N_m, unit: "N/m", rests },
      note: `jack load ${kilo(normal.jackLoad_N)} kN gives ${(normal.pressure_Pa / 1e6).toFixed(3)} MPa absolute; ${each.join("; ")}`,
    },
    {
      id: `${id}.accumulator-precharge`,
      title: `Oil pressure at trim over the precharge, least over the oil temperatures, mass ${least.mass}`,
      ...{ value: margin(least), unit: "1", rests },
      criterion: {
        text: "the oil pressure at trim is above the precharge: below it the gas does not yield",
        ...{ sense: "at least", limit: 1, source: "own derivation, physics/hydraulics eq. 9" },
      },
      note: `at ${celsius(least.temperature_degC)}: ${(least.pressure_Pa / 1e6).toFixed(3)} MPa against ${(least.precharge_Pa / 1e6).toFixed(3)} MPa`,
    },
  ];
}

/** Bleed that lets the smallest motion die out at every mass and oil temperature, at the normal temperature. */
function bleedFindings(
  { hardware, settings }: SnubberInputs,
  result: SnubberResult,
  condition: string,
  rests: readonly string[],
): FindingDraft[] {
  const points = result.points.filter((point) => point.condition === condition);
  if (points.length === 0) return [];
  const title = "Bleed C1 at the tip from which on small motion dies out, all masses and oil temperatures";
  const viscosity = (name: SnubberPoint["temperature"]): number =>
    dynamicViscosity(hardware.fluid, settings.temperatures[name]);
  const own = points.find(({ temperature }) => temperature === "normal")?.C1_N_s_m ?? 0;
  const never = points.some(({ nodding }) => nodding.leastRate_N_s_m === null && nodding.outcome !== "dies out");
  // the bleed thins with the oil: what it needs when hot it must have more of at the normal temperature
  const need = points.map(({ nodding, temperature }) => {
    return ((nodding.leastRate_N_s_m ?? 0) * viscosity("normal")) / viscosity(temperature);
  });
  const most = Math.max(...need);
  const worst = points[need.indexOf(most)];
  return [
    {
      id: `hold.${condition}.bleed-needed`,
      ...{ title, unit: "N·s/m", rests, verdict: "information" as const },
      value: never ? null : most,
      note: never
        ? "no rate of the snubber damps the motion at every mass and oil temperature"
        : `decided by mass ${worst.mass} at ${celsius(worst.temperature_degC)}; value at the normal oil temperature; the hardware has ${kilo(own)} kN·s/m. Without it a pure orifice leaves lasting nodding`,
    },
  ];
}
