import { DomainError } from "../../math/errors.ts";
import { inertiaMatrix, type MassProperties } from "../../physics/bodies/index.ts";
import { type HoldInputs, type ModePlane, type OpenReads, type Operating, operatingPoint } from "../hold/index.ts";
import { bandPoints, type Loss, lossOver } from "./boundary.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import type { BoundaryDriver, RetractRule } from "./types.ts";
import { inputsWith, uncertainValues } from "./uncertain.ts";

const DEGREE = Math.PI / 180;
/** Angles are rounded up to the whole degree; a sum this close above one counts as it [deg]. */
const SLACK = 1e-6;
/** Step along the stroke with a value off, in a plane that is stable throughout with all values as stated [rad]. */
const LONG_STEP = 8 * DEGREE;

const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];

/**
 * The rules of one condition, by plane: the boundary at its worst over masses and airspeeds, what uncertain values add, the
 * declared margin, rounded up to the whole degree.
 *
 *     Γ_rule = ⌈Γ_b + √Σ d_i² + margin⌉,  d_i = max(Γ_b(v_i ± n·σ_i) − Γ_b, 0)            (README eq. 3)
 *
 * A value that is off by n·σ and makes the pair unstable extended leaves no rule: then no pose is enough.
 *
 * @param inputs    pair as physics arguments
 * @param own       settings of the part
 * @param open      opens a view of the pair
 * @param condition its name
 * @param paths     pair paths of the values that may be off, by plane
 * @source own derivation, README eq. 3
 * @verified run.test.ts: the sum and its parts, the boundary and margin alone without uncertain values
 */
export function retractRules(
  inputs: HoldInputs,
  own: AttachmentInputs,
  open: OpenReads,
  condition: string,
  paths: Readonly<Record<ModePlane, readonly string[]>>,
): RetractRule[] {
  const { masses } = inputs.conditions.find(({ name }) => name === condition)!;
  const byMass = PLANES.map((plane) => masses.map((mass) => lossWith(inputs, own, condition, plane, [mass])));
  const nominal = byMass.map(worstOf);
  const drivers: BoundaryDriver[][] = [[], []];
  if (own.deviations > 0) {
    for (const { path, value, sigma, most } of uncertainValues(open, [...paths.longitudinal, ...paths.lateral])) {
      const off = Math.min(own.deviations * sigma, most);
      const changed = [-off, off].map((change) => possible(inputs, open, path, value, change));
      const reached = Math.min(...changed.map(({ share }) => share));
      // a mass state's own values move that mass alone
      const moved = masses.filter((mass) => !path.startsWith("carried.massStates.") || path.split(".")[2] === mass);
      PLANES.forEach((plane, k) => {
        if (nominal[k].outcome === "unstable extended" || !paths[plane].includes(path)) return;
        const kept = byMass[k].filter((_, i) => !moved.includes(masses[i]));
        const [low, high] = changed.map(({ inputs: other }) =>
          angleOf(worstOf([...kept, lossWith(other, own, condition, plane, moved, nominal[k])]), own),
        );
        drivers[k].push({ path, low_deg: inDegrees(low), high_deg: inDegrees(high), reached_1: reached });
      });
    }
  }
  return PLANES.map((plane, k) => {
    const { outcome, mass, airspeed } = nominal[k];
    const where = { condition, plane, outcome, mass, airspeed_m_s_EAS: airspeed };
    return { ...where, ...sumUp(own, nominal[k], drivers[k]) };
  });
}

/** Inputs with a value off by as much as asked, or by the largest tenth of it that a body can have. */
function possible(
  nominal: HoldInputs,
  open: OpenReads,
  path: string,
  value: number,
  change: number,
): { inputs: HoldInputs; share: number } {
  for (let tenths = 10; tenths > 0; tenths--) {
    const inputs = inputsWith(open, path, value + (change * tenths) / 10);
    if (inputs.carried.massStates.every(({ properties }) => canExist(properties)))
      return { inputs, share: tenths / 10 };
  }
  return { inputs: nominal, share: 0 };
}

function canExist(properties: MassProperties): boolean {
  try {
    inertiaMatrix(properties);
    return true;
  } catch (error) {
    if (error instanceof DomainError) return false;
    throw error;
  }
}

function sumUp(own: AttachmentInputs, nominal: Loss, drivers: readonly BoundaryDriver[]) {
  const margin = own.margin / DEGREE;
  // a boundary that is not on the stroke counts as its stowed end: no value can move it further up
  const from = (nominal.angle ?? own.stroke.from) / DEGREE;
  let squares = 0;
  let lost = nominal.outcome === "unstable extended";
  for (const { low_deg, high_deg } of drivers) {
    if (low_deg === null || high_deg === null) lost = true;
    else squares += Math.max(low_deg - from, high_deg - from, 0) ** 2;
  }
  const uncertainty = lost ? null : Math.sqrt(squares);
  const needed = nominal.outcome === "lost" || (uncertainty ?? 0) > 0;
  return {
    nominal_deg: inDegrees(nominal.angle),
    uncertainty_deg: uncertainty,
    deviations: own.deviations,
    margin_deg: margin,
    rule_deg: uncertainty === null || !needed ? null : Math.ceil(from + uncertainty + margin - SLACK),
    drivers: [...drivers].sort((a, b) => spread(b, from) - spread(a, from) || a.path.localeCompare(b.path, "en")),
  };
}

/** The worst of several. */
function worstOf(losses: readonly Loss[]): Loss {
  const extended = losses.find(({ outcome }) => outcome === "unstable extended");
  if (extended !== undefined) return extended;
  return losses.reduce((worst, loss) => ((loss.angle ?? -Infinity) > (worst.angle ?? -Infinity) ? loss : worst));
}

/** Worst over masses and airspeeds; the place where it was worst before is looked at first, which spares the rest. */
function lossWith(
  inputs: HoldInputs,
  own: AttachmentInputs,
  condition: string,
  plane: ModePlane,
  masses: readonly string[],
  before?: Loss,
): Loss {
  const found = inputs.conditions.find(({ name }) => name === condition)!;
  const points = bandPoints(
    own,
    masses.map((mass) => operatingPoint(inputs, found, mass)),
  );
  const first = (at: Operating): number =>
    at.mass.name === before?.mass && at.airspeed.value === before.airspeed ? 0 : 1;
  // where nothing is lost the stroke is looked through in longer steps
  const step = before?.outcome === "stable throughout" ? LONG_STEP : undefined;
  return lossOver(
    inputs,
    own,
    before === undefined ? points : [...points].sort((a, b) => first(a) - first(b)),
    plane,
    step,
  );
}

/** Boundary [rad], the stowed end when it is not lost on the stroke, `null` when the pair is unstable extended. */
function angleOf(loss: Loss, own: AttachmentInputs): number | null {
  return loss.outcome === "unstable extended" ? null : (loss.angle ?? own.stroke.from);
}

function inDegrees(angle: number | null): number | null {
  return angle === null ? null : angle / DEGREE;
}

function spread({ low_deg, high_deg }: BoundaryDriver, from: number): number {
  if (low_deg === null || high_deg === null) return Number.POSITIVE_INFINITY;
  return Math.max(Math.abs(low_deg - from), Math.abs(high_deg - from));
}
