/** Entry of the browser's worker in `runtime.test.ts`; the names below are the browser's own. */
import { type FileSet, holdBytes } from "./hold-bytes.ts";

interface WorkerScope {
  onmessage: (event: { readonly data: { files: FileSet; pair: string; variant: string } }) => void;
  postMessage(text: string): void;
}

const scope = globalThis as unknown as WorkerScope;
scope.onmessage = ({ data }) => scope.postMessage(holdBytes(data.files, data.pair, data.variant, true));
