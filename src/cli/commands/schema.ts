import { pairJsonSchema } from "../../inputs/index.ts";
import { EXIT } from "../exit.ts";
import type { Command } from "../types.ts";

export const run: Command = async ({ json }, effects) => {
  const text = `${JSON.stringify(pairJsonSchema(), null, 2)}\n`;
  if (json === undefined || json === "-") effects.stdout.write(text);
  else await effects.files.write(json, text);
  return EXIT.met;
};
