import type { SampleCondition } from "../samples/types.ts";

/** Effect of a class of light against the pair's values. */
export interface LightEffect {
  readonly name: string;
  /** Factor on the noise of the relative navigation [1]. */
  readonly navigationNoise: number;
  /** Added to the pilot's delay [s]. */
  readonly pilotDelay: number;
  /** Factor on what a pilot does not act on [1]. */
  readonly pilotThreshold: number;
}

export interface NamedSigma {
  readonly name: string;
  /** σ of the vertical gusts [m/s]. */
  readonly value: number;
}

/** Circumstances of a set of approaches. */
export interface HookonCondition extends SampleCondition {
  readonly sigma: NamedSigma;
  readonly controller: string;
  /** Name of a class of light; `null`: the values of the pair. */
  readonly light: string | null;
  /** The operator steers the boom while the controller flies. */
  readonly bothAtOnce: boolean;
}

/** What the pair asks to be run. */
export interface ConditionPlan {
  readonly sigmas: readonly NamedSigma[];
  readonly controllers: readonly string[];
  readonly light: { readonly sigma: string; readonly classes: readonly LightEffect[] } | null;
  readonly bothAtOnce: { readonly sigma: string; readonly controller: string } | null;
}

/** Lower-case letters, digits and dashes. */
function keyOf(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
}

/**
 * Every case in the order of the report: each intensity with each controller, then each class of light, then both controllers at
 * once.
 *
 * @param plan what the pair asks for
 * @returns conditions with distinct keys
 * @source README "Cases"
 * @verified conditions.test.ts
 */
export function conditionsOf(plan: ConditionPlan): HookonCondition[] {
  const sigmaOf = (name: string): NamedSigma => plan.sigmas.find((each) => each.name === name)!;
  const plain = { light: null, bothAtOnce: false };
  const cases = [
    ...plan.controllers.flatMap((controller) => plan.sigmas.map((sigma) => ({ sigma, controller, ...plain }))),
    ...(plan.light === null
      ? []
      : plan.light.classes.flatMap(({ name }) =>
          plan.controllers.map((controller) => ({
            ...{ sigma: sigmaOf(plan.light!.sigma), controller, light: name, bothAtOnce: false },
          })),
        )),
    ...(plan.bothAtOnce === null
      ? []
      : [
          {
            ...{ sigma: sigmaOf(plan.bothAtOnce.sigma), controller: plan.bothAtOnce.controller },
            ...{ light: null, bothAtOnce: true },
          },
        ]),
  ];
  const used = new Set<string>();
  return cases.map((each) => {
    const special = [...(each.light === null ? [] : [each.light]), ...(each.bothAtOnce ? ["both steer"] : [])];
    const words = [each.controller, each.sigma.name, ...special];
    let key = keyOf(words.join(" "));
    while (used.has(key)) key = `${key}-2`;
    used.add(key);
    return { ...each, key, title: `${words.join(", ")} (σ ${each.sigma.value} m/s)` };
  });
}
