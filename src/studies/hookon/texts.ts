import { HookonRun } from "../../physics/hookon-motion/index.ts";
import type { HookonInputs } from "./inputs.ts";

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

/** Disturbances for which the pair has no data. */
export function missingDisturbances({ disturbances }: Pick<HookonInputs, "disturbances">): string[] {
  return [
    ...(disturbances.bowWave ? [] : ["bow wave of the nose"]),
    ...(disturbances.wake ? [] : ["wake and slipstream of the carrier"]),
    ...(disturbances.orbit ? [] : ["orbit of the socket"]),
  ];
}

/** What the numbers rest on beside the pair. */
export function assumptionsOf(inputs: HookonInputs): string[] {
  const { turbulence, wake } = inputs.disturbances;
  return [
    "A sample is one approach: it begins at rest against the carrier at the first position of the schedule, and an approach that is given up is a failure.",
    "The carrier flies steadily; its own response to gusts and to the hook is left out.",
    "Gusts are Dryden's at the carried aircraft; socket and funnel feel the same gusts through their drag area.",
    "Before the hook-on the boom stands at the condition's boom angle with nothing but its own weight on it.",
    "Window and map are straight paths in still air with the controls of the closing speed; offsets lie to the right.",
    "In the closed form of the window friction and damping are left out.",
    "Snubber and accumulator act as their tip-referred values at the condition's boom angle; the snubber is linear.",
    ...(inputs.conditions.light === null
      ? []
      : [
          "A class of light changes the noise of the navigation and a pilot's delay and threshold by the stated amounts, nothing else.",
        ]),
    ...(wake && turbulence !== 1
      ? [
          `The wake raises the intensity of turbulence by ${turbulence.toFixed(2)} all along the approach: its factor where the aircraft hooks on.`,
        ]
      : []),
    ...new HookonRun(inputs.still).assumptions,
  ];
}

/** What was not looked at. */
export function notAnalysedOf(inputs: HookonInputs): string[] {
  const missing = missingDisturbances(inputs);
  return [
    ...(missing.length === 0
      ? []
      : [
          `Hook-on: ${list(missing)}: the pair has no data, and none was put in its place; limits that rest on it are not cleared.`,
        ]),
    "Hook-on: collision of parts other than probe and socket on the way in.",
    "Hook-on: what pilot and operator see; a class of light stands for it by its stated effect.",
    "Hook-on: learning from attempt to attempt, and attempts of one sortie that hang together.",
  ];
}
