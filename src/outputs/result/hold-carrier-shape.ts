/** Form of the part `carrier` of `hold`; mirrors `studies/hold-carrier/types.ts`. */
import { finite, list, nullable, object, oneOf, text } from "./shape.ts";

const plane = oneOf("longitudinal", "lateral");
const root = { plane, real_1_s: finite, imag_rad_s: finite, frequency_Hz: finite, dampingRatio: finite };
const trim = object({
  pitch_deg: finite,
  alpha_deg: finite,
  elevator_deg: finite,
  towLoad_N: finite,
  tipAxialLoad_N: finite,
  tipTangentialLoad_N: finite,
  jackLoad_N: finite,
});
const mode = object({
  name: text,
  class: oneOf("rigid-body-type", "structural"),
  ...root,
  carrierShare_1: finite,
  from: nullable(text),
});
const flow = object({
  below_m: finite,
  downwash_deg: finite,
  sidewash_deg: finite,
  pressureRatio_1: finite,
  downwashGradient_deg_m: finite,
  pressureGradient_1_m: finite,
});
const curve = object({
  model: oneOf("rigid, with lag", "rigid, without lag", "steady"),
  tension_N_per_m_s: list(finite),
  shear_N_per_m_s: list(finite),
  relativePitch_deg_per_m_s: list(finite),
  loadFactor_1_per_m_s: list(finite),
  rms: object({ tension_N: finite, shear_N: finite, relativePitch_deg: finite, loadFactor_1: finite }),
});

export const carrierShape = object({
  alone: list(
    object({
      condition: text,
      liftCoefficient: finite,
      thrust_N: finite,
      modes: list(object({ name: text, ...root })),
    }),
  ),
  points: list(
    object({
      pointId: text,
      condition: text,
      mass: text,
      flow: nullable(flow),
      cases: list(
        object({
          model: oneOf(
            "steady",
            "free mass",
            "rigid",
            "steady, uniform flow",
            "steady, flow with gradients",
            "rigid, flow with gradients",
          ),
          outcome: oneOf("trimmed", "no trim", "outside"),
          trim: nullable(trim),
          modes: list(mode),
        }),
      ),
      gust: nullable(object({ distance_m: finite, lag_s: finite, frequency_Hz: list(finite), curves: list(curve) })),
    }),
  ),
});
