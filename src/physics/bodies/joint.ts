/** Rate at which drift of a joint is drawn back [1/s]; it only acts on round-off of the integration. */
const JOINT_RECOVERY = 20;

/**
 * Rows 9–11 of the equations of motion: probe tip and boom tip move together; unknown is the force f on the aircraft by the tip.
 *
 * @param state of the pair; `tip` is where the tip's place begins in it
 * @param R     body axes to H, row-major
 * @param probe from the c.g., body axes [m]
 * @param A     matrix of the equations, order n, row-major, written
 * @param right right-hand side, written
 * @cost no allocation
 */
export function assembleJoint(
  state: Float64Array,
  tip: number,
  R: Float64Array,
  probe: readonly [number, number, number],
  A: Float64Array,
  n: number,
  right: Float64Array,
): void {
  const px = probe[0];
  const py = probe[1];
  const pz = probe[2];
  const p = state[10];
  const q = state[11];
  const r = state[12];
  // velocity of the probe tip in body axes, and its centripetal acceleration ω×(ω×p)
  const bx = q * pz - r * py;
  const by = r * px - p * pz;
  const bz = p * py - q * px;
  const ax = q * bz - r * by;
  const ay = r * bx - p * bz;
  const az = p * by - q * bx;
  for (let i = 0; i < 3; i++) {
    const r0 = R[3 * i];
    const r1 = R[3 * i + 1];
    const r2 = R[3 * i + 2];
    const row = n * (9 + i);
    // R·(ω̇×p) = −R·[p]× ω̇
    const k0 = r1 * -pz + r2 * py;
    const k1 = r0 * pz - r2 * px;
    const k2 = -r0 * py + r1 * px;
    // ω̇×p = (q̇·pz − ṙ·py, ṙ·px − ṗ·pz, ṗ·py − q̇·px)
    A[row + i] = 1;
    A[row + 3] = k0;
    A[row + 4] = k1;
    A[row + 5] = k2;
    A[row + 6 + i] = -1;
    const gap = state[i] + r0 * px + r1 * py + r2 * pz - state[tip + i];
    const gapRate = state[7 + i] + r0 * bx + r1 * by + r2 * bz - state[tip + 3 + i];
    right[9 + i] =
      -(r0 * ax + r1 * ay + r2 * az) - 2 * JOINT_RECOVERY * gapRate - JOINT_RECOVERY * JOINT_RECOVERY * gap;
    // force on the aircraft, its moment p×Rᵀf about the c.g., and its reaction on the tip
    A[n * i + 9 + i] = -1;
    A[n * 3 + 9 + i] = -k0;
    A[n * 4 + 9 + i] = -k1;
    A[n * 5 + 9 + i] = -k2;
    A[n * (6 + i) + 9 + i] = 1;
  }
}
