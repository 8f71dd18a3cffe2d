/**
 * The matrices that the study `hold` really solves, from the demo pair: the whole hooked pair (13 states), the same with
 * a carrier of finite mass and the roll hold (20), and with the tip let go (26). Prints the list that
 * `eig.bench.ts` takes: `npx tsx bench/eig/study-matrices.ts > matrices.json`.
 */
import { freeMassCarrier, hookedPair, linearise, PairMotion } from "../../src/physics/bodies/index.ts";
import { rollHold } from "../../src/physics/pilot/index.ts";
import { longshore } from "../../test/support/longshore.ts";

const law = rollHold({ rollGain: 0.8, rateGain: 0.25, actuatorLag: 0.06, aileronLimit: 0.35 });
const matrices: number[][][] = [];
for (const revision of ["Rev A", "Rev B"] as const) {
  const plain = hookedPair(longshore({ revision }));
  const load = new Float64Array(3);
  const carrier = freeMassCarrier(40_000, load);
  const rich = hookedPair({ ...longshore({ revision }), law }, carrier);
  const free = new PairMotion({ ...rich.motion.settings, attachment: "free" });
  const cases = [
    { motion: plain.motion, state: plain.state },
    { motion: rich.motion, state: rich.state },
    { motion: free, state: rich.state },
  ];
  for (const { motion, state } of cases) {
    const { matrix, size } = linearise(motion, state);
    matrices.push(Array.from({ length: size }, (_, i) => Array.from(matrix.subarray(i * size, (i + 1) * size))));
  }
}
process.stdout.write(`${JSON.stringify(matrices)}\n`);
