/** Form of one mode, in the points of `hold` and in its parts. */
import { dictionary, finite, nullable, object, oneOf, text } from "./shape.ts";

export const modeShape = object({
  name: text,
  share: finite,
  class: oneOf("rigid-body-type", "structural"),
  plane: oneOf("longitudinal", "lateral"),
  real_1_s: finite,
  imag_rad_s: finite,
  frequency_Hz: finite,
  dampingRatio: finite,
  timeToHalf_s: nullable(finite),
  timeToDouble_s: nullable(finite),
  cyclesToHalf: nullable(finite),
  energy: dictionary(finite),
  strain: dictionary(finite),
});
