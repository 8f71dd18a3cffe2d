import { BugError, DomainError } from "../errors.ts";
import { philoxBlock } from "./philox.ts";

const WORD = 4294967296;

/**
 * Random numbers that depend on (seed, index, stream) and on nothing else.
 *
 *     key = (seed mod 2³², seed div 2³²),   counter = (block, index mod 2³², index div 2³², stream)              (2)
 *
 * The numbers of sample 17 are the same whether it is drawn first, last, alone or in another worker. One object serves
 * many samples through `restart` and then allocates nothing.
 *
 * @source own derivation from `philoxBlock`; Box and Muller, Ann. Math. Statist. 29 (1958) 610–611 (eq. 4)
 * @verified random.test.ts: repeatability in any order, moments, quantiles, correlation between streams and neighbours
 */
export class RandomStream {
  readonly #counter = new Uint32Array(4);
  readonly #key = new Uint32Array(2);
  readonly #block = new Uint32Array(4);
  /** Words of the block that were used. */
  #used = 4;
  #spare = 0;
  #hasSpare = false;

  /**
   * @param seed    of the whole batch, a whole number 0 … 2⁵³ − 1
   * @param index   of the sample, a whole number 0 … 2⁵³ − 1
   * @param stream  one number for each independent use within a sample, a whole number 0 … 2³² − 1
   * @throws {DomainError} if one is not such a number
   */
  constructor(seed: number, index: number, stream = 0) {
    this.restart(seed, index, stream);
  }

  /** Goes to the beginning of another (or the same) sample; arguments as in the constructor. */
  restart(seed: number, index: number, stream = 0): void {
    requireWhole("seed", seed, Number.MAX_SAFE_INTEGER);
    requireWhole("sample index", index, Number.MAX_SAFE_INTEGER);
    requireWhole("stream", stream, WORD - 1);
    this.#key[0] = seed % WORD;
    this.#key[1] = Math.floor(seed / WORD);
    this.#counter[0] = 0;
    this.#counter[1] = index % WORD;
    this.#counter[2] = Math.floor(index / WORD);
    this.#counter[3] = stream;
    this.#used = 4;
    this.#hasSpare = false;
  }

  /**
   * A number above 0 and below 1, every value of the grid equally likely.
   *
   *     u = (a·2²⁶ + b + ½)/2⁵²,  a and b of 26 bits                               (3)
   */
  uniform(): number {
    if (this.#used > 2) {
      philoxBlock(this.#counter, this.#key, this.#block);
      this.#counter[0] = this.#counter[0] + 1;
      // 2³² blocks are 2³³ numbers: no sample of ours comes near.
      if (this.#counter[0] === 0) throw new BugError("a random stream was used up");
      this.#used = 0;
    }
    const a = this.#block[this.#used] >>> 6;
    const b = this.#block[this.#used + 1] >>> 6;
    this.#used += 2;
    return (a * 67108864 + b + 0.5) / 4503599627370496;
  }

  /**
   * A number of the normal distribution with mean 0 and standard deviation 1.
   *
   *     z = √(−2 ln u₁)·(cos 2πu₂, sin 2πu₂)                                        (4)
   */
  normal(): number {
    if (this.#hasSpare) {
      this.#hasSpare = false;
      return this.#spare;
    }
    const radius = Math.sqrt(-2 * Math.log(this.uniform()));
    const angle = 2 * Math.PI * this.uniform();
    this.#spare = radius * Math.sin(angle);
    this.#hasSpare = true;
    return radius * Math.cos(angle);
  }
}

function requireWhole(quantity: string, value: number, most: number): void {
  if (!(Number.isInteger(value) && value >= 0 && value <= most)) {
    throw new DomainError(quantity, value, `a whole number, 0 to ${most}`);
  }
}
