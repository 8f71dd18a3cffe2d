import { requireLength } from "../require.ts";

const FIRST_MULTIPLIER = 0xd2511f53;
const SECOND_MULTIPLIER = 0xcd9e8d57;
const FIRST_KEY_STEP = 0x9e3779b9;
const SECOND_KEY_STEP = 0xbb67ae85;
const ROUNDS = 10;

/** High word of the 64-bit product of two 32-bit words. */
function highWord(a: number, b: number): number {
  const aLow = a & 0xffff;
  const aHigh = a >>> 16;
  const bLow = b & 0xffff;
  const bHigh = b >>> 16;
  // every sum stays below 2³², so that whole-number arithmetic holds it
  const cross = (Math.imul(aHigh, bLow) + (Math.imul(aLow, bLow) >>> 16)) >>> 0;
  const middle = (Math.imul(aLow, bHigh) + (cross & 0xffff)) >>> 0;
  return (Math.imul(aHigh, bHigh) + (cross >>> 16) + (middle >>> 16)) >>> 0;
}

/**
 * One block of the counter-based generator Philox 4x32 with ten rounds.
 *
 *     (c₀, c₁, c₂, c₃) ← (hi(M₁c₂) ⊕ c₁ ⊕ k₀, lo(M₁c₂), hi(M₀c₀) ⊕ c₃ ⊕ k₁, lo(M₀c₀)),   k ← k + W          (1)
 *
 * The block depends on counter and key alone, so any block of any stream can be made in any order.
 *
 * @param counter  four 32-bit words, shape (4)
 * @param key      two 32-bit words, shape (2)
 * @param out      four 32-bit words, shape (4), written; may be `counter`
 * @throws {DomainError} if an array is too short
 * @source Salmon, Moraes, Dror and Shaw, Parallel random numbers: as easy as 1, 2, 3, SC11 (2011), section 3.3
 * @verified generated/philox: 41 blocks of the authors' library, every bit
 * @cost 20 products, no allocation
 */
export function philoxBlock(counter: Uint32Array, key: Uint32Array, out: Uint32Array): void {
  requireLength("counter", counter.length, 4);
  requireLength("key", key.length, 2);
  requireLength("block", out.length, 4);
  let c0 = counter[0];
  let c1 = counter[1];
  let c2 = counter[2];
  let c3 = counter[3];
  let k0 = key[0];
  let k1 = key[1];
  for (let round = 0; round < ROUNDS; round++) {
    const high0 = highWord(FIRST_MULTIPLIER, c0);
    const low0 = Math.imul(FIRST_MULTIPLIER, c0) >>> 0;
    const high1 = highWord(SECOND_MULTIPLIER, c2);
    const low1 = Math.imul(SECOND_MULTIPLIER, c2) >>> 0;
    c0 = (high1 ^ c1 ^ k0) >>> 0;
    c1 = low1;
    c2 = (high0 ^ c3 ^ k1) >>> 0;
    c3 = low0;
    k0 = (k0 + FIRST_KEY_STEP) >>> 0;
    k1 = (k1 + SECOND_KEY_STEP) >>> 0;
  }
  out[0] = c0;
  out[1] = c1;
  out[2] = c2;
  out[3] = c3;
}
