import { SAMPLE_STUDIES } from "../../studies/sample-studies/index.ts";
import { batchCommand } from "../batch/index.ts";
import type { Command } from "../types.ts";
import { VERSION } from "../version.ts";

export const run: Command = (request, effects) =>
  batchCommand(request, effects, { studies: SAMPLE_STUDIES, version: VERSION });
