import { hookonSamples } from "../hookon/index.ts";
import { releaseSamples } from "../release/index.ts";
import type { SampleStudyEntry } from "../samples/types.ts";

/** Every study that draws samples, in the order of the job; `davit batch`, `davit worker` and `davit replay` know these. */
export const SAMPLE_STUDIES: readonly SampleStudyEntry[] = [hookonSamples, releaseSamples];
