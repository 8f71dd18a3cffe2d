import {
  followPlan,
  operatingCharacteristic,
  type SequentialAim,
  sequentialPlan,
} from "../../math/sequential-test/index.ts";
import type { Attempt } from "./settings.ts";
import type { SequentialResult } from "./types.ts";

/** Shares of the curves, from 50 %. */
const CURVE = 101;

/** The sequential plan with its true risks, its curves, and where each class stands in it. */
export function planResult(
  aim: SequentialAim,
  classes: readonly { readonly name: string; readonly attempts: readonly Attempt[] }[],
): SequentialResult {
  const plan = sequentialPlan(aim);
  const least = Math.min(0.5, aim.unacceptable * 0.9);
  const shares = Array.from({ length: CURVE }, (_, i) => least + ((1 - least) * i) / (CURVE - 1));
  const curve = shares.map((share) => operatingCharacteristic(plan, share));
  const [good, bad] = [aim.acceptable, aim.unacceptable].map((share) => operatingCharacteristic(plan, share));
  return {
    acceptable_1: aim.acceptable,
    unacceptable_1: aim.unacceptable,
    most: aim.most,
    refusingGoodAsked_1: aim.refusingGood,
    acceptingBadAsked_1: aim.acceptingBad,
    refusingGood_1: 1 - good!.accept,
    acceptingBad_1: bad!.accept,
    acceptAt: [...plan.acceptAt],
    refuseAt: [...plan.refuseAt],
    share_1: shares,
    accept_1: curve.map(({ accept }) => accept),
    expectedAttempts: curve.map(({ expectedTrials }) => expectedTrials),
    expectedAtAcceptable: good!.expectedTrials,
    expectedAtUnacceptable: bad!.expectedTrials,
    classes: classes
      .filter(({ attempts }) => attempts.length > 0)
      .map(({ name, attempts }) => {
        const { outcome, trials, failures } = followPlan(
          plan,
          attempts.map(({ captured }) => captured),
        );
        return { name, outcome, attempts: trials, failures };
      }),
  };
}
