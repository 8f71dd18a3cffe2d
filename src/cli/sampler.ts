/** Entry of the threads that compute samples for `davit batch` and `davit worker`. */
import { serveSamples } from "../host/batch-runners/index.ts";
import { SAMPLE_STUDIES } from "../studies/sample-studies/index.ts";
import { VERSION } from "./version.ts";

export default serveSamples(SAMPLE_STUDIES, VERSION);
