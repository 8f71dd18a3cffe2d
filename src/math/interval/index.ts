export {
  add,
  divide,
  holds,
  hull,
  type Interval,
  interval,
  magnitude,
  middle,
  multiply,
  negate,
  plusMinus,
  point,
  roundedDown,
  roundedUp,
  scale,
  square,
  squareRoot,
  subtract,
} from "./interval.ts";
export { addJets, constantJet, type Jet, multiplyJets, scaleJet, subtractJets } from "./jet.ts";
export { type IntervalMatrix, krawczyk, preconditioned, spreadOf } from "./krawczyk.ts";
export { type SineCosine, sineCosine, turnFactors } from "./trigonometry.ts";
