import { add, type Interval, multiply, point, scale, subtract } from "./interval.ts";

/** A function of one variable over an interval of it: all its values, and all of its first and second derivative. */
export interface Jet {
  readonly value: Interval;
  readonly first: Interval;
  readonly second: Interval;
}

const ZERO = point(0);

/** A constant. @source definition @verified jet.test.ts */
export function constantJet(value: Interval): Jet {
  return { value, first: ZERO, second: ZERO };
}

/** f + g. @source sum rule @verified jet.test.ts */
export function addJets(f: Jet, g: Jet): Jet {
  return { value: add(f.value, g.value), first: add(f.first, g.first), second: add(f.second, g.second) };
}

/** f − g. @source sum rule @verified jet.test.ts */
export function subtractJets(f: Jet, g: Jet): Jet {
  return {
    value: subtract(f.value, g.value),
    first: subtract(f.first, g.first),
    second: subtract(f.second, g.second),
  };
}

/**
 * Product.
 *
 *     (fg)′ = f′g + fg′,   (fg)″ = f″g + 2f′g′ + fg″                            (README eq. 6)
 *
 * @source product rule, README eq. 6
 * @verified jet.test.ts: differences of polynomials
 */
export function multiplyJets(f: Jet, g: Jet): Jet {
  return {
    value: multiply(f.value, g.value),
    first: add(multiply(f.first, g.value), multiply(f.value, g.first)),
    second: add(add(multiply(f.second, g.value), multiply(f.value, g.second)), scale(2, multiply(f.first, g.first))),
  };
}

/** x·f for a number x. @source definition @verified jet.test.ts */
export function scaleJet(x: number, f: Jet): Jet {
  return { value: scale(x, f.value), first: scale(x, f.first), second: scale(x, f.second) };
}
