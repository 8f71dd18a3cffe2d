import { workerCommand } from "../batch/index.ts";
import type { Command } from "../types.ts";
import { VERSION } from "../version.ts";

export const run: Command = (request, effects) => workerCommand(request, effects, { version: VERSION });
