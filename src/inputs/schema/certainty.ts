import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { choice, whole, words } from "./leaf.ts";
import { name } from "./names.ts";
import { quantity } from "./value.ts";

const BOUND: Range = { atLeast: 0.5, atMost: 6, words: "0.5 to 6 standard deviations" };
const CONFIDENCE: Range = { atLeast: 0.5, atMost: 0.9999, words: "50 % to 99.99 %" };
const ACCURACY: Range = { above: 0, atMost: 1, words: "larger than 0, up to 100 %" };

const groundTest = z
  .strictObject({
    measures: z
      .array(words("Path of a value that is measured.", ["mechanism.boom.bending"]))
      .min(1)
      .meta({ description: "What the test measures." }),
    accuracy: quantity("number", "Standard deviation of a measurement, as a share of the value.", ["2 %"], ACCURACY),
    cost: words("What the test costs, in words for the table.", ["2 days, no flight"]).optional(),
  })
  .meta({ description: "A ground test that could be made, with the accuracy assumed for it." });

export const certainty = z
  .strictObject({
    samples: whole("Number of samples; 2048 when left out.", [2048], 100, 1_000_000).optional(),
    method: choice("How the samples are laid; Sobol when left out.", ["Sobol", "Latin hypercube"]).optional(),
    bound: quantity(
      "number",
      "How far each value may go in the worst case, in σ; 3 when left out.",
      [3],
      BOUND,
    ).optional(),
    confidence: quantity(
      "number",
      "Confidence of intervals and lower bounds; 95 % when left out.",
      ["95 %"],
      CONFIDENCE,
    ).optional(),
    groundTests: z
      .record(name, groundTest)
      .meta({ description: "Tests that are compared by the certainty they would buy." })
      .optional(),
  })
  .meta({ description: "How sure are we? Every value with an uncertainty is sampled." });
