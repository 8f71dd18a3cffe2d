/** Form of what trials of hook-on may claim; mirrors `studies/hookon-claims/types.ts`. */
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const gap = nullable(finite);
const ends = object({ lower_1: finite, upper_1: finite });
const count = object({ hits: finite, of: finite });

const estimate = object({
  hits: finite,
  of: finite,
  share_1: gap,
  lower_1: finite,
  upper_1: finite,
  exact: ends,
  score: ends,
  posterior: object({ mean_1: finite, lower_1: finite, upper_1: finite }),
});

const prediction = object({
  title: text,
  hits: finite,
  of: finite,
  share_1: finite,
  p_1: finite,
  differs: flag,
  showsBelow: finite,
  showsAbove: finite,
});

const misses = object({
  count: finite,
  meanRight_m: finite,
  meanDown_m: finite,
  sigmaRight_m: finite,
  sigmaDown_m: finite,
  correlation_1: finite,
  inCircle_1: gap,
  counted_1: gap,
});

const claim = object({
  name: text,
  sigmaUpTo_m_s: gap,
  target_1: finite,
  targetSource: text,
  estimate,
  verdict: oneOf("demonstrated", "not demonstrated", "shown to fall short", "no attempts"),
  further: gap,
  attempts: object({ atShare: gap, atLower: gap, atUpper: gap }),
  outcomes: list(object({ outcome: text, count: finite })),
  misses: nullable(misses),
  prediction: nullable(prediction),
  failuresAfter: list(finite),
});

const grouping = object({
  by: oneOf("turbulence", "light", "controller"),
  groups: list(object({ name: text, hits: finite, of: finite, lower_1: finite, upper_1: finite, p_1: finite })),
  least_1: finite,
});

const curves = {
  acceptAt: list(finite),
  refuseAt: list(finite),
  share_1: list(finite),
  accept_1: list(finite),
  expectedAttempts: list(finite),
};

const sequential = object({
  acceptable_1: finite,
  unacceptable_1: finite,
  most: finite,
  refusingGoodAsked_1: finite,
  acceptingBadAsked_1: finite,
  refusingGood_1: finite,
  acceptingBad_1: finite,
  ...curves,
  expectedAtAcceptable: finite,
  expectedAtUnacceptable: finite,
  classes: list(
    object({ name: text, outcome: oneOf("accepted", "refused", "go on"), attempts: finite, failures: finite }),
  ),
});

export const hookonClaimsShape: Check = object({
  confidence_1: finite,
  recovery_1: finite,
  attemptsCarried: gap,
  goAround: oneOf("failed attempt", "no attempt"),
  prior: object({ hits: finite, misses: finite }),
  captureRadius_m: gap,
  log: nullable(object({ file: text, rows: finite, from: text, to: text })),
  classes: list(claim),
  pooled: estimate,
  groupings: list(grouping),
  learning: nullable(object({ first: count, second: count, p_1: finite })),
  sequential: nullable(
    sameLength(sameLength(sequential, "share_1", ["accept_1", "expectedAttempts"]), "acceptAt", ["refuseAt"]),
  ),
  demonstrations: list(object({ share_1: finite, confidence_1: finite, trials: list(gap) })),
});
