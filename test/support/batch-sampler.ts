/** Entry of threads that compute the samples of `batch-study.ts`. */
import { serveSamples } from "../../src/host/batch-runners/index.ts";
import { TEST_STUDIES } from "./batch-study.ts";

export default serveSamples(TEST_STUDIES, process.env.DAVIT_TEST_VERSION ?? "test");
