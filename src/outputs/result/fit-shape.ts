/** Form of the study `fit` inside a result file; mirrors `studies/fit/types.ts`. */
import { findingShape, limitShape } from "./finding-shape.ts";
import { mapShape } from "./fit-map-shape.ts";
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const numbers = list(finite);
const station = list(finite, 3);
const spot = list(finite, 2);
const pair = list(text, 2);
const owner = oneOf("carrier", "gear", "mechanism", "carried");
const clearanceState = oneOf("clear", "near", "contact", "unresolved", "in the zone", "outside the zone");

const part = object({
  name: text,
  body: text,
  owner,
  group: nullable(text),
  zone: flag,
  triangles: finite,
  facetingError_m: finite,
  faults: list(text),
});

const strokePoint = object({
  boomAngle_deg: finite,
  jackLength_m: finite,
  jackTravel_m: finite,
  tipPerJack_1: nullable(finite),
  transmissionAngle_deg: finite,
  jackTransmissionAngle_deg: finite,
  couplerTransmissionAngle_deg: nullable(finite),
  jackLoads: list(object({ mass: text, weightShare_1: finite, load_N: nullable(finite) })),
  poses: list(object({ body: text, position_m: station, attitude: list(finite, 4) })),
  carriedPitch_deg: finite,
  socket_m: station,
  cg: list(object({ mass: text, at_m: station })),
  attitudeError_deg: nullable(object({ worst: finite, rss: finite })),
});

const strokeEvent = object({
  kind: oneOf("dead point", "lost", "branch crossing", "jack dead point", "tip dead point"),
  boomAngle_deg: finite,
  joint: nullable(text),
});

const clearance = object({
  pair,
  kind: oneOf("static", "moving"),
  zone: flag,
  alongStroke: list(object({ boomAngle_deg: finite, lower_m: finite, upper_m: finite })),
  least_m: finite,
  at: object({ boomAngle_deg: finite, pointA: station, pointB: station }),
  atEnds_m: object({ stowed: finite, extended: finite }),
  leastAfterStack_m: object({ worst: finite, rss: finite }),
  criterion: nullable(object({ value_m: finite, source: text })),
  state: clearanceState,
});

const gearClearance = object({
  pair,
  group: text,
  alongFraction: list(object({ fraction_1: finite, lower_m: finite, upper_m: finite })),
  least_m: finite,
  at: object({ fraction_1: finite, pointA: station, pointB: station }),
  state: clearanceState,
});

const gear = sameLength(object({ body: text, group: text, fractions: numbers, angles_deg: numbers }), "fractions", [
  "angles_deg",
]);

const contributor = object({
  dimension: text,
  tolerance_m: finite,
  derivative_deg_mm: finite,
  contribution_deg: finite,
  shareOfSquares_1: finite,
  shareOfWorst_1: finite,
});

const tolerance = object({
  pose: text,
  boomAngle_deg: finite,
  worst_deg: finite,
  rss_deg: finite,
  monteCarlo: object({
    samples: finite,
    seed: finite,
    notClosed: finite,
    standardDeviation_deg: finite,
    within99_73_deg: finite,
    largest_deg: finite,
  }),
  contributors: list(contributor),
});

const rotationLimit = object({
  pose: text,
  boomAngle_deg: finite,
  limit_deg: nullable(finite),
  part: nullable(text),
  point: nullable(station),
});

const groundState = object({
  name: oneOf("static", "flat tyre", "bottomed strut", "flat tyre and bottomed strut"),
  groundLine_m: finite,
  clearance_m: finite,
  at: object({ part: text, point: station }),
  alongStroke: list(object({ boomAngle_deg: finite, clearance_m: finite, part: text })),
  parts: list(object({ part: text, clearance_m: finite, point: station })),
  rotationLimits: list(rotationLimit),
  tipBack_deg: nullable(finite),
});

const loading = object({
  requiredJacking_m: nullable(finite),
  margin_m: finite,
  steps: list(
    object({
      name: text,
      aftOfStowed_m: finite,
      height_m: finite,
      leastClearance_m: finite,
      pair: nullable(pair),
      pointA: nullable(station),
      pointB: nullable(station),
    }),
  ),
  governing: nullable(pair),
  unraisedClearance_m: finite,
});

const zone = object({
  zone: text,
  part: text,
  inside: flag,
  angles_deg: list(spot),
  least_m: finite,
  at_boomAngle_deg: finite,
});

const outlines = list(list(spot));
const picture = object({
  pose: oneOf("stowed", "mid", "extended"),
  boomAngle_deg: finite,
  sectionFS_m: finite,
  parts: list(object({ part: text, owner, zone: flag, elevation: outlines, plan: outlines, section: outlines })),
});

export const fitShape: Check = object({
  study: oneOf("fit"),
  variant: text,
  parts: list(part),
  strokeOutcome: oneOf("complete", "dead point", "does not close", "lost"),
  stroke: list(strokePoint),
  strokeEvents: list(strokeEvent),
  gear: list(gear),
  groups: list(object({ group: text, standsAt_1: finite })),
  clearances: list(clearance),
  gearClearances: list(gearClearance),
  leftOut: list(object({ pair, because: text })),
  maps: list(mapShape),
  tolerance: list(tolerance),
  stack: object({ terms: list(object({ name: text, value_m: finite })), worst_m: finite, rss_m: finite }),
  ground: nullable(object({ mainContact_m: spot, states: list(groundState) })),
  loading: nullable(loading),
  zones: list(zone),
  pictures: list(picture),
  findings: list(findingShape),
  limits: list(limitShape),
  assumptions: list(text),
  notAnalysed: list(text),
});
