import { DEGREE } from "./frames.ts";
import type { FitInputs } from "./inputs.ts";
import type { Scene } from "./motion.ts";

/** What is proven of the motion between solved poses, and what is not. */
function motionTexts(scene: Scene | null): string[] {
  if (scene === null) return [];
  const { angleAt, parts, proven } = scene;
  const most = Math.max(0, ...parts.map(({ deviation }) => deviation));
  // One digit, upwards: rounding elsewhere does not change it.
  const unit = most > 0 ? 10 ** Math.floor(Math.log10(1e6 * most)) : 1;
  const bound = Number((unit * Math.ceil((1e6 * most) / unit)).toPrecision(2));
  const degrees = (u: number): string => (angleAt(u) / DEGREE).toFixed(2);
  const stretches = proven.unresolved.map(([from, to]) => `${degrees(from)}° to ${degrees(to)}°`);
  return [
    `Between solved poses of the stroke bodies move straight and turn evenly. Proven from the equations of the joints in interval arithmetic${stretches.length === 0 ? "" : ", but where said below"}: the linkage has one motion there, and no point of a part is ever more than ${bound} µm from where it is taken to be. That is taken off every clearance, with the faceting of the stand-ins and 0.1 nm for each part for the rounding of poses and distances, which is an allowance, not proven.`,
    ...(stretches.length === 0
      ? []
      : [
          `The motion could not be proven from boom angle ${stretches.join(", ")}, as near a dead point: no clearance is shown there, and cells of the maps are unresolved.`,
        ]),
  ];
}

/**
 * What the result takes for granted.
 * @param inputs  of the study
 * @param scene   parts and what is proven of their motion; `null` where the mechanism has no stroke
 */
export function assumptions(inputs: FitInputs, scene: Scene | null): string[] {
  const { linkage, stack } = inputs;
  const held =
    linkage.attached === "three point"
      ? "The carried aircraft is held at three points: it links boom and aft yoke along the whole stroke."
      : "The carried aircraft hangs at the probe with its stated pitch held along the whole stroke.";
  const weight =
    linkage.ownWeight === null
      ? "Jack loads are those of the carried aircraft's weight alone: the boom's own weight is not declared."
      : "Jack loads contain the boom's own weight at its declared centre.";
  return [
    "All bodies are rigid and at their drawn sizes; what the stack allows for is taken off afterwards.",
    held,
    ...motionTexts(scene),
    "Gear and doors follow their tables, straight between rows; all members of a group share one fraction.",
    "Along the stroke, and in the maps of other groups, a group stands as drawn, or extended if as drawn it is in the boom's way and extended it is not; at rest stowed all are as drawn.",
    "Gear and doors are not measured against the shapes of the carrier that the pair says they hang on or are stowed in, nor against any of the carrier where it does not say; of bodies joined by the mechanism, parts that are near as drawn are left out. The result lists what was left out.",
    "Jack loads are quasi-static, at one g, level, by virtual work without friction.",
    weight,
    "On the ground the carrier turns about its main wheel contact; groups with wheels stand extended, wheels are not measured against the ground.",
    "Loading: level ground and dolly, groups with wheels extended, others as for the boom, mechanism stowed.",
    stack.length === 0
      ? "The pair states no stack: no allowance is taken off the clearances."
      : `Stack: ${stack.map(({ name, value }) => `${name} ${(1e3 * value).toFixed(1)} mm`).join(", ")}; worst case is the sum, RSS the root of the sum of squares.`,
  ];
}

export const NOT_ANALYSED: readonly string[] = [
  "Deflection and vibration of boom, doors and wing in flight other than through the stack.",
  "Two groups moving at once; members of a group at different fractions other than one that is stuck.",
  "Dynamic clearances: the aircraft swinging at a single point, gusts, slipstream buffet.",
  "Free play and wear of the joints other than through the tolerances.",
  "Pressure, heat and wash inside jet and slipstream zones: only whether a part is in them.",
  "Rotation with bank, crosswind landing, uneven ground, steering and turning of the dolly.",
  "Twist or camber of panels: stand-ins have a symmetric section.",
];
