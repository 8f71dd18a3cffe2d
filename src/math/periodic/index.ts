export { fourierStart, motionAt } from "./fourier.ts";
export { balanceFourier } from "./fourier-balance.ts";
export { closeOrbit, monodromyOf } from "./shooting.ts";
export type {
  FourierBalance,
  FourierMotion,
  FourierOutcome,
  FourierTask,
  Multipliers,
  Orbit,
  OrbitOutcome,
  ParametricDerivative,
  PeriodicSystem,
  ShotOptions,
  ShotStart,
} from "./types.ts";
