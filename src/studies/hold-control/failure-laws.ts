import { select, series, TransferFunction } from "../../math/linear-system/index.ts";
import { FIRST_LOAD } from "../../physics/bodies/index.ts";
import {
  actuatorLag,
  type Channels,
  type ControlFunction,
  closedSystem,
  EFFECTORS,
  type Effector,
  type Fault,
  SIGNALS,
} from "../../physics/pilot/index.ts";
import type { StatePlant } from "./attachments.ts";
import { type ControlSettings, channelsOf } from "./settings.ts";
import type { FailureKind } from "./types.ts";

/** One failure: what works instead, what goes on working after it is switched off, and how it begins. */
export interface Failure {
  readonly function: string;
  readonly effector: Effector;
  readonly kind: FailureKind;
  readonly detail: string;
  readonly channels: Channels;
  /** Functions that are left when the failed one is switched off. */
  readonly left: readonly ControlFunction[];
  /** Whether it begins with the declared upset: a loss at rest would never show. */
  readonly upset: boolean;
}

const FREQUENCIES = 120;

/**
 * Frequency at which an oscillating surface brings pitch, bank or socket load nearest to their limits.
 *
 *     ω* = argmax over ω of max_j |G_j(jω)|·min(A, rate/ω)/limit_j              (README eq. 4)
 */
function worstFrequency(of: StatePlant, settings: ControlSettings, others: Channels, effector: Effector): number {
  const { slowest, fastest, oscillation, pitchLimit, bankLimit, loadLimit } = settings.failures;
  const actuator = settings.actuators[effector];
  const outputs = [SIGNALS.indexOf("pitch"), SIGNALS.indexOf("bank"), FIRST_LOAD + 1, FIRST_LOAD + 2, FIRST_LOAD + 3];
  const closed = select(closedSystem(of.plant, others, settings.padeOrder), [EFFECTORS.indexOf(effector)], outputs);
  const transfer = new TransferFunction(series(actuatorLag(actuator), closed));
  const out = new Float64Array(2 * outputs.length);
  let best = { omega: slowest, share: -1 };
  for (let i = 0; i < FREQUENCIES; i++) {
    const omega = slowest * (fastest / slowest) ** (i / (FREQUENCIES - 1));
    transfer.evaluate(0, omega, out);
    const size = (k: number): number => Math.hypot(out[2 * k], out[2 * k + 1]);
    const load = Math.hypot(size(2), size(3), size(4));
    const amplitude = Math.min(oscillation, actuator.travel, actuator.rate / omega);
    const share = amplitude * Math.max(size(0) / pitchLimit, size(1) / bankLimit, load / loadLimit);
    if (Number.isFinite(share) && share > best.share) best = { omega, share };
  }
  return best.omega;
}

/** Every failure of every function of a set; functions that share a surface share its hard-over and its oscillation. */
export function failuresOf(
  of: StatePlant,
  settings: ControlSettings,
  own: readonly ControlFunction[],
  other: readonly ControlFunction[],
): Failure[] {
  const failures: Failure[] = [];
  const seen = new Set<Effector>();
  for (const failed of own) {
    const { name, effector } = failed;
    const left = own.filter((each) => each !== failed && !(name === "pitch hold" && each.name === "height hold"));
    const common = { function: name, effector, left };
    const channels = channelsOf(settings, own);
    failures.push({ ...common, kind: "loss", detail: "", channels: channelsOf(settings, left), upset: true });
    if (!seen.has(effector)) {
      seen.add(effector);
      const surfaceLeft = own.filter((each) => each.effector !== effector);
      const withFault = (fault: Fault): Channels => ({ ...channels, [effector]: { ...channels[effector], fault } });
      const surface = { ...common, left: surfaceLeft, upset: false };
      for (const direction of [1, -1] as const) {
        const detail = HARD_OVER[effector][direction === 1 ? 0 : 1];
        const faulty = withFault({ kind: "hard-over", direction });
        failures.push({ ...surface, kind: "hard-over", detail, channels: faulty });
      }
      const omega = worstFrequency(of, settings, channelsOf(settings, surfaceLeft), effector);
      const amplitude = settings.failures.oscillation;
      const detail = `${(omega / (2 * Math.PI)).toFixed(2)} Hz`;
      const faulty = withFault({ kind: "oscillatory", amplitude, omega });
      failures.push({ ...surface, kind: "oscillatory", detail, channels: faulty });
    }
    const wrong = other.find((each) => each.name === name);
    if (wrong === undefined) continue;
    const swapped = own.map((each) => (each === failed ? wrong : each));
    failures.push({
      ...common,
      kind: "wrong gain set",
      detail: "",
      channels: channelsOf(settings, swapped),
      upset: true,
    });
  }
  for (const stray of other.filter(({ name }) => !own.some((each) => each.name === name))) {
    const channels = channelsOf(settings, [...own, stray]);
    const common = { function: stray.name, effector: stray.effector, left: own, channels };
    failures.push({ ...common, kind: "wrong gain set", detail: "engaged though it should be off", upset: true });
  }
  return failures;
}

const HARD_OVER: Readonly<Record<Effector, readonly [string, string]>> = {
  elevator: ["nose down", "nose up"],
  aileron: ["to the right", "to the left"],
  rudder: ["nose left", "nose right"],
};
