/** Form of the similar models of `hold`; mirrors `studies/hold-scaling/types.ts`. */
import { finite, list, nullable, object, oneOf, text } from "./shape.ts";

const plane = oneOf("longitudinal", "lateral");
const quantity = object({ name: text, unit: text, full: finite, factor_1: finite, model: finite });
const mode = object({
  name: text,
  plane,
  fullFrequency_Hz: finite,
  modelFrequency_Hz: finite,
  dampingRatio: finite,
});

export const scalingShape = object({
  models: list(
    object({
      name: text,
      condition: text,
      scale_1: finite,
      density_kg_m3: finite,
      densityRatio_1: finite,
      states: list(object({ mass: text, quantities: list(quantity), modes: list(mode) })),
      reynoldsRatio_1: finite,
      fullReynolds_1: finite,
      machRatio_1: finite,
      fullMach_1: finite,
      measured: list(
        object({
          mass: text,
          plane,
          modelFrequency_Hz: finite,
          fullFrequency_Hz: finite,
          dampingRatio: finite,
          nearest: nullable(object({ name: text, frequency_Hz: finite, dampingRatio: finite })),
        }),
      ),
    }),
  ),
});
