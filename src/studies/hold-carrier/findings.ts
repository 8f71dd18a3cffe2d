import type { FindingDraft } from "../finding/index.ts";
import { dampingCriterion, doublingCriterion, type HoldInputs, noPublished } from "../hold/index.ts";
import type { CarrierCase, CarrierMode, CarrierPoint, GustCurve } from "./types.ts";

const PLANES = ["longitudinal", "lateral"] as const;

/** Pair paths by what they feed. */
export interface CarrierRests {
  /** Trim of the carried aircraft alone. */
  readonly trim: readonly string[];
  /** Modes and criteria by plane, without the carrier's own values. */
  readonly judged: Readonly<Record<(typeof PLANES)[number], readonly string[]>>;
  readonly dynamics: readonly string[];
  readonly flow: readonly string[];
  readonly travel: readonly string[];
  readonly ratio: readonly string[];
}

/** Everything that the part says about one operating point. */
export function pointFindings(inputs: HoldInputs, point: CarrierPoint, rests: CarrierRests): FindingDraft[] {
  const id = `hold.${point.condition}.carrier.${point.mass}`;
  const steady = point.cases.find(({ model }) => model === "steady")!;
  const fullest = point.cases.at(-1)!;
  const outside = point.cases.some(({ outcome }) => outcome === "outside");
  const judged = PLANES.map((plane) => planeFinding(inputs, point, fullest, steady, plane, `${id}.${plane}`, rests));
  return [
    ...judged,
    ...ownFindings(inputs, point, fullest, id, rests),
    ...(outside ? [] : flowFindings(inputs, point, steady, id, rests)),
    ...gustFindings(point, id, rests),
  ];
}

function needs(inputs: HoldInputs, mode: CarrierMode): number {
  if (mode.imag_rad_s === 0) return Math.LN2 / inputs.criteria.timeToDouble.value - mode.real_1_s;
  const { structuralDamping, rigidBodyDamping } = inputs.criteria;
  return mode.dampingRatio - (mode.class === "structural" ? structuralDamping : rigidBodyDamping).value;
}

/** The motion of a plane with the fullest model, judged as `hold` judges it; modes that the carrier brings are left out. */
function planeFinding(
  inputs: HoldInputs,
  point: CarrierPoint,
  fullest: CarrierCase,
  steady: CarrierCase,
  plane: (typeof PLANES)[number],
  id: string,
  rests: CarrierRests,
): FindingDraft {
  const title = `Hooked at one point with the carrier's own motion and flow (${fullest.model}), ${plane}, mass ${point.mass}`;
  const head = { id, title, rests: [...rests.judged[plane], ...rests.dynamics, ...rests.flow] };
  const criterion = dampingCriterion(inputs, false);
  if (fullest.outcome === "outside") {
    const note = "the aircraft hangs beyond the ends of carrier.flow: the table says nothing there";
    return { ...head, value: null, unit: "1", verdict: "not analysed", note };
  }
  if (fullest.outcome === "no trim") {
    return { ...head, value: null, unit: "1", criterion, verdict: "not met", note: "no trim with this flow" };
  }
  const hooked = fullest.modes.filter((mode) => mode.plane === plane && mode.carrierShare_1 <= 0.5);
  const oscillating = hooked.filter((mode) => mode.imag_rad_s > 0 || mode.real_1_s > 0);
  if (oscillating.length === 0) {
    return {
      ...head,
      value: null,
      unit: "1",
      criterion,
      verdict: "met",
      note: "nothing oscillates or grows in this plane",
    };
  }
  const rigid = oscillating.filter((mode) => mode.class !== "structural" || needs(inputs, mode) < 0);
  const worst = (rigid.length > 0 ? rigid : oscillating).reduce((a, b) =>
    needs(inputs, b) < needs(inputs, a) ? b : a,
  );
  const real = worst.imag_rad_s === 0;
  const before = steady.modes.find((mode) => mode.name === worst.from && mode.plane === plane);
  const compared =
    before === undefined
      ? "no mode with a steady carrier is near it"
      : `with a steady carrier in undisturbed air ζ ${before.dampingRatio.toFixed(4)} at ${before.frequency_Hz.toFixed(3)} Hz`;
  const rate = real ? "real root" : `${worst.frequency_Hz.toFixed(3)} Hz, ${worst.class}`;
  return {
    ...head,
    value: real ? Math.LN2 / worst.real_1_s : worst.dampingRatio,
    unit: real ? "s" : "1",
    criterion: real ? doublingCriterion(inputs) : dampingCriterion(inputs, worst.class === "structural"),
    verdict: needs(inputs, worst) >= 0 ? "met" : "not met",
    note: `${worst.name}, ${rate}; ${compared}. ${noPublished(plane)}`,
  };
}

/** What the carrier brings: named, not judged by criteria of the hooked aircraft. */
function ownFindings(
  inputs: HoldInputs,
  point: CarrierPoint,
  fullest: CarrierCase,
  id: string,
  rests: CarrierRests,
): FindingDraft[] {
  const own = fullest.modes.filter((mode) => mode.carrierShare_1 > 0.5);
  if (own.length === 0) return [];
  const least = own.reduce((a, b) => (b.real_1_s > a.real_1_s ? b : a));
  const grows = least.real_1_s > 0;
  const note =
    `${least.name}, ${least.plane}; ` +
    (grows
      ? `it grows, doubling in ${(Math.LN2 / least.real_1_s).toFixed(1)} s: `
      : least.real_1_s < 0
        ? `it halves in ${(-Math.LN2 / least.real_1_s).toFixed(1)} s: `
        : "it stays: ") +
    `the carrier's crew or autopilot controls it, which is not part of this model; not judged by the criteria of the hooked aircraft (${inputs.lawName})`;
  return [
    {
      id: `${id}.own`,
      title: `Slowest motion that the carrier brings, real part of its root, mass ${point.mass}`,
      ...{ value: least.real_1_s, unit: "1/s", note },
      rests: [...rests.judged.longitudinal, ...rests.judged.lateral, ...rests.dynamics, ...rests.flow],
    },
  ];
}

/** Trim in the carrier's flow, with and without. */
function flowFindings(
  inputs: HoldInputs,
  point: CarrierPoint,
  steady: CarrierCase,
  id: string,
  rests: CarrierRests,
): FindingDraft[] {
  const inFlow = point.cases.find(({ model }) => model === "steady, flow with gradients");
  if (point.flow === null || inFlow?.trim == null || steady.trim === null) return [];
  const { trim } = inFlow;
  const still = steady.trim;
  const from = [...rests.trim, ...rests.flow];
  const where = `downwash ${point.flow.downwash_deg.toFixed(2)}°, q/q∞ ${point.flow.pressureRatio_1.toFixed(3)}`;
  const draft = (key: string, title: string, value: number, unit: string, before: string): FindingDraft => ({
    ...{ id: `${id}.${key}`, title: `${title} in the carrier's flow, mass ${point.mass}`, value, unit },
    ...{ note: `${before} in undisturbed air; ${where}`, rests: from },
  });
  const travel = inputs.carried.travel?.elevator;
  const elevator = draft("elevator", "Elevator", trim.elevator_deg, "deg", `${still.elevator_deg.toFixed(2)}°`);
  const limit = travel === undefined ? undefined : (travel * 180) / Math.PI;
  const judged: FindingDraft =
    limit === undefined
      ? elevator
      : {
          ...elevator,
          criterion: {
            text: `elevator at most ${limit.toFixed(1)}° either way`,
            ...{ sense: trim.elevator_deg < 0 ? "at least" : "at most", limit: trim.elevator_deg < 0 ? -limit : limit },
            source: "travel of the control surface",
          },
          rests: [...from, ...rests.travel],
        };
  const jack = draft("jack-load", "Load on the jack", trim.jackLoad_N, "N", `${still.jackLoad_N.toFixed(0)} N`);
  return [
    draft("pitch", "Pitch angle at trim", trim.pitch_deg, "deg", `${still.pitch_deg.toFixed(2)}°`),
    judged,
    draft("tow-load", "Tow load", trim.towLoad_N, "N", `${still.towLoad_N.toFixed(0)} N`),
    { ...jack, rests: [...from, ...rests.ratio] },
  ];
}

function gustFindings(point: CarrierPoint, id: string, rests: CarrierRests): FindingDraft[] {
  const { gust } = point;
  if (gust === null) return [];
  const head = {
    ...{
      id: `${id}.gust`,
      title: `Greatest tip load normal to the boom per vertical gust velocity, mass ${point.mass}`,
    },
    ...{ unit: "N*s/m", rests: [...rests.judged.longitudinal, ...rests.dynamics] },
  };
  if (gust.curves.length === 0) {
    const note =
      "the pair grows by itself in the plane of symmetry: a response to a steady harmonic gust means nothing";
    return [{ ...head, value: null, verdict: "not analysed", note }];
  }
  const peak = ({ shear_N_per_m_s: shear }: GustCurve): { value: number; hertz: number } => {
    const i = shear.indexOf(Math.max(...shear));
    return { value: shear[i], hertz: gust.frequency_Hz[i] };
  };
  const [lagged, together, steady] = gust.curves.map(peak);
  const aside = gust.distance_m >= 0 ? "aft" : "ahead";
  const [across, , still] = gust.curves.map(({ rms }) => rms.shear_N);
  const rough = `; in Dryden turbulence of 1 m/s ${across.toFixed(0)} N (1σ), ${still.toFixed(0)} N with a steady carrier`;
  const note =
    `at ${lagged.hertz.toFixed(2)} Hz; ${together.value.toFixed(0)} N*s/m without the lag of ${(1000 * gust.lag_s).toFixed(0)} ms ` +
    `(c.g. ${Math.abs(gust.distance_m).toFixed(2)} m ${aside} of the carrier's), ${steady.value.toFixed(0)} N*s/m at ${steady.hertz.toFixed(2)} Hz with a steady carrier${rough}`;
  return [{ ...head, value: lagged.value, note }];
}
