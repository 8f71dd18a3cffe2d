/** Entry of the worker thread in `runtime.test.ts`. */
import { parentPort, workerData } from "node:worker_threads";
import { type FileSet, holdBytes } from "./hold-bytes.ts";

const { files, pair, variant } = workerData as { files: FileSet; pair: string; variant: string };
parentPort?.postMessage(holdBytes(files, pair, variant));
