import {
  add,
  addJets,
  constantJet,
  type Interval,
  type Jet,
  magnitude,
  multiply,
  multiplyJets,
  plusMinus,
  point,
  roundedUp,
  square,
  squareRoot,
  subtract,
  subtractJets,
} from "../../math/interval/index.ts";

/** Three components of a vector of which only bounds are known. */
export type Bounds3 = readonly [Interval, Interval, Interval];
/** The same along a motion, with derivatives. */
export type Jets3 = readonly [Jet, Jet, Jet];

export function points3(x: number, y: number, z: number): Bounds3 {
  return [point(x), point(y), point(z)];
}

export function constantJets([x, y, z]: Bounds3): Jets3 {
  return [constantJet(x), constantJet(y), constantJet(z)];
}

export function addBounds(a: Bounds3, b: Bounds3): Bounds3 {
  return [add(a[0], b[0]), add(a[1], b[1]), add(a[2], b[2])];
}

export function subtractBounds(a: Bounds3, b: Bounds3): Bounds3 {
  return [subtract(a[0], b[0]), subtract(a[1], b[1]), subtract(a[2], b[2])];
}

export function scaleBounds(x: Interval, a: Bounds3): Bounds3 {
  return [multiply(x, a[0]), multiply(x, a[1]), multiply(x, a[2])];
}

/** a × b. */
export function crossBounds(a: Bounds3, b: Bounds3): Bounds3 {
  return [
    subtract(multiply(a[1], b[2]), multiply(a[2], b[1])),
    subtract(multiply(a[2], b[0]), multiply(a[0], b[2])),
    subtract(multiply(a[0], b[1]), multiply(a[1], b[0])),
  ];
}

/** a with r more to every side of each component. */
export function widened(a: Bounds3, r: number): Bounds3 {
  const more = plusMinus(r);
  return [add(a[0], more), add(a[1], more), add(a[2], more)];
}

/** No less than the length of any vector in it. */
export function largestLength([x, y, z]: Bounds3): number {
  return squareRoot(add(add(square(x), square(y)), square(z))).high;
}

/** No less than the sum of the sizes of the components. */
export function sumOfSizes([x, y, z]: Bounds3): number {
  return roundedUp(roundedUp(magnitude(x) + magnitude(y)) + magnitude(z));
}

/** Rows of a matrix of bounds times a vector of bounds. */
export function turnBounds(matrix: readonly Interval[], v: Bounds3): Bounds3 {
  const row = (k: number): Interval =>
    add(add(multiply(matrix[k], v[0]), multiply(matrix[k + 1], v[1])), multiply(matrix[k + 2], v[2]));
  return [row(0), row(3), row(6)];
}

export function addJets3(a: Jets3, b: Jets3): Jets3 {
  return [addJets(a[0], b[0]), addJets(a[1], b[1]), addJets(a[2], b[2])];
}

export function subtractJets3(a: Jets3, b: Jets3): Jets3 {
  return [subtractJets(a[0], b[0]), subtractJets(a[1], b[1]), subtractJets(a[2], b[2])];
}

/** a · b. */
export function dotJets(a: Jets3, b: Jets3): Jet {
  return addJets(addJets(multiplyJets(a[0], b[0]), multiplyJets(a[1], b[1])), multiplyJets(a[2], b[2]));
}

export function valuesOf(a: Jets3): Bounds3 {
  return [a[0].value, a[1].value, a[2].value];
}
