import type { buildBodies } from "./bodies.ts";
import { CARRIER, type FitInputs } from "./inputs.ts";
import type { Mechanism } from "./mechanism.ts";
import { createScene, middleOf, type Scene } from "./motion.ts";
import { proveMotion } from "./proven-motion.ts";
import type { TracedStroke } from "./stroke.ts";
import { type BodyTable, bodyTable } from "./stroke-table.ts";

/** All parts with their motion; every group still where it is drawn. */
export function sceneOf(
  inputs: FitInputs,
  bodies: ReturnType<typeof buildBodies>,
  mechanism: Mechanism,
  traced: TracedStroke,
): Scene {
  const names = mechanism.linkage.bodies.filter((body) => body !== CARRIER);
  const tables = new Map<string, BodyTable>(
    names.map((body) => {
      const index = mechanism.linkage.bodies.indexOf(body);
      return [body, bodyTable(traced.poses, index, middleOf(bodies, body))];
    }),
  );
  const extended = traced.angles.at(-1) ?? inputs.linkage.stroke.extended;
  const proven = proveMotion(mechanism, traced, tables);
  return createScene(bodies, { tables, proven, stowed: traced.angles[0], extended });
}
