import { BugError } from "../../math/errors.ts";
import { HOOKON_COLUMNS, HookonRun } from "../../physics/hookon-motion/index.ts";
import type {
  SampleHistory,
  Sampler,
  SampleStudy,
  SampleStudyContext,
  SampleStudyEntry,
  SampleTable,
} from "../samples/types.ts";
import { conditionsOf, type HookonCondition } from "./conditions.ts";
import type { HookonInputs } from "./inputs.ts";
import { readHookonInputs } from "./read-pair.ts";

/** Rows of a history in a second. */
const HISTORY_RATE = 50;

/** Sampler of one case: one motion with its own guide and gusts. */
class HookonSampler implements Sampler {
  readonly #run: HookonRun;
  readonly #seed: number;

  constructor(inputs: HookonInputs, condition: HookonCondition) {
    this.#run = new HookonRun(inputs.settingsOf(condition));
    this.#seed = inputs.seed;
  }

  run(index: number, row: Float64Array): void {
    this.#run.run(this.#seed, index, row);
  }

  replay(index: number): SampleHistory {
    const { columns, values, events } = this.#run.replay(this.#seed, index, HISTORY_RATE);
    return { columns, values, events };
  }
}

export interface HookonStudy extends SampleStudy {
  readonly conditions: readonly HookonCondition[];
}

/** The study from what was read of a pair; nothing has run. */
export function studyOf(inputs: HookonInputs): HookonStudy {
  const conditions = conditionsOf(inputs.conditions);
  return {
    key: "hookon",
    columns: HOOKON_COLUMNS,
    conditions,
    samples: inputs.samples,
    seed: inputs.seed,
    success: "locked",
    sampler(key) {
      const condition = conditions.find((each) => each.key === key);
      if (condition === undefined) throw new BugError(`the study hookon has no case ${key}`);
      return new HookonSampler(inputs, condition);
    },
  };
}

/** Draws the rows 0 … count − 1 of a case here and now. */
export function drawTable(study: SampleStudy, condition: string, count: number): SampleTable {
  const sampler = study.sampler(condition);
  const width = study.columns.length;
  const values = new Float64Array(count * width);
  for (let i = 0; i < count; i++) sampler.run(i, values.subarray(i * width, (i + 1) * width));
  return { condition, columns: study.columns, index: Float64Array.from({ length: count }, (_, i) => i), values };
}

/** How `hookon` is opened for batches and replays. */
export const hookonSamples: SampleStudyEntry = {
  key: "hookon",
  title: "Hook-on: approaches to the socket",
  open: (context: SampleStudyContext): SampleStudy | null => {
    if (context.reads().pair.studies?.hookon === undefined) return null;
    return studyOf(readHookonInputs(context.reads, context.seed));
  },
};
