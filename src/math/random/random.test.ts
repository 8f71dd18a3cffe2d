import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { expectClose, guide } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { philoxBlock, RandomStream } from "./index.ts";

interface Block {
  readonly counter: number[];
  readonly key: number[];
  readonly block: number[];
}

function blockOf(counter: number[], key: number[]): number[] {
  const out = new Uint32Array(4);
  philoxBlock(Uint32Array.from(counter), Uint32Array.from(key), out);
  return [...out];
}

describe("philoxBlock", () => {
  test("gives the blocks of the authors' library, every bit (generated/philox)", () => {
    const file = new URL("../../../reference/generated/philox/values.json", import.meta.url);
    const { blocks } = JSON.parse(readFileSync(file, "utf8")) as { blocks: Block[] };
    expect(blocks.length).toBe(41);
    for (const { counter, key, block } of blocks) expect(blockOf(counter, key)).toEqual(block);
  });

  test("is compared with recalled known answers, which guide and gate nothing", () => {
    const worst = guide("published/philox-known-answers", (opened) =>
      opened.cells("blocks").flatMap((row, at) => {
        const given = (names: string[]) => names.map((name) => row[name].value);
        const block = blockOf(given(["c0", "c1", "c2", "c3"]), given(["k0", "k1"]));
        return block.map((actual, i) => ({ label: `row ${at}, word ${i}`, actual, recalled: row[`r${i}`] }));
      }),
    );
    expect(worst).not.toBeNaN();
  });

  test("one changed bit of counter or key changes about half of the bits", () => {
    let changed = 0;
    let pairs = 0;
    for (let bit = 0; bit < 192; bit++) {
      const words = [7, 77, 777, 7777, 77777, 777777];
      const before = blockOf(words.slice(0, 4), words.slice(4));
      words[bit >> 5] = (words[bit >> 5] ^ (1 << (bit & 31))) >>> 0;
      const after = blockOf(words.slice(0, 4), words.slice(4));
      for (let i = 0; i < 4; i++) {
        for (let difference = before[i] ^ after[i]; difference !== 0; difference &= difference - 1) changed++;
        pairs += 32;
      }
    }
    // 24 576 bits: standard deviation of the share is 0.0032.
    expectClose(changed / pairs, 0.5, { atol: 0.016, why: "five standard deviations" });
  });

  test("the block may overwrite its counter, short arrays are refused", () => {
    const counter = Uint32Array.of(1, 2, 3, 4);
    philoxBlock(counter, Uint32Array.of(5, 6), counter);
    expect([...counter]).toEqual(blockOf([1, 2, 3, 4], [5, 6]));
    expect(() => philoxBlock(counter, new Uint32Array(1), counter)).toThrow("length of key is 1; allowed: at least 2");
  });
});

const COUNT = 200_000;

describe("RandomStream", () => {
  test("a sample is the same in any order, in one object or in many", () => {
    const one = new RandomStream(3, 0);
    const draw = (stream: RandomStream) => [stream.uniform(), stream.normal(), stream.normal(), stream.uniform()];
    const forward = Array.from({ length: 20 }, (_, index) => draw(new RandomStream(3, index, 2)));
    for (let index = 19; index >= 0; index--) {
      one.restart(3, index, 2);
      expect(draw(one)).toEqual(forward[index]);
    }
  });

  test("seed, index and stream, high words too, each make another sequence", () => {
    const high = 2 ** 32;
    const names: [number, number, number][] = [
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [high, 0, 0],
      [0, high, 0],
      [high + 1, 0, 0],
    ];
    const firsts = names.map(([seed, index, stream]) => new RandomStream(seed, index, stream).uniform());
    expect(new Set(firsts).size).toBe(names.length);
  });

  test("uniform numbers, seed 1: moments, equal bins, neighbours", () => {
    const stream = new RandomStream(1, 0);
    const bins = new Array<number>(100).fill(0);
    let sum = 0;
    let square = 0;
    let product = 0;
    let last = 0.5;
    let outside = 0;
    for (let i = 0; i < COUNT; i++) {
      const u = stream.uniform();
      if (!(u > 0 && u < 1)) outside++;
      sum += u;
      square += (u - 0.5) ** 2;
      product += (u - 0.5) * (last - 0.5);
      last = u;
      bins[Math.floor(100 * u)]++;
    }
    expect(outside).toBe(0);
    const why = "five standard deviations";
    expectClose(sum / COUNT, 0.5, { atol: 5 / Math.sqrt(12 * COUNT), why });
    expectClose(square / COUNT, 1 / 12, { atol: 5 / Math.sqrt(180 * COUNT), why });
    expectClose(product / COUNT, 0, { atol: 5 / (12 * Math.sqrt(COUNT)), why });
    const chi = bins.reduce((total, n) => total + (n - COUNT / 100) ** 2 / (COUNT / 100), 0);
    expectClose(chi, 99, { atol: 5 * Math.sqrt(2 * 99), why });
  });

  test("normal numbers, seed 2: four moments and the share within one, two and three", () => {
    const stream = new RandomStream(2, 0);
    const sums = [0, 0, 0, 0];
    const within = [0, 0, 0];
    for (let i = 0; i < COUNT; i++) {
      const z = stream.normal();
      for (let k = 0; k < 4; k++) sums[k] += z ** (k + 1);
      for (let k = 0; k < 3; k++) within[k] += Math.abs(z) < k + 1 ? 1 : 0;
    }
    const why = "five standard deviations";
    // Variances of z, z², z³, z⁴ are 1, 2, 15, 96.
    [0, 1, 0, 3].forEach((moment, k) => {
      expectClose(sums[k] / COUNT, moment, { atol: 5 * Math.sqrt([1, 2, 15, 96][k] / COUNT), why }, `moment ${k + 1}`);
    });
    // erf(k/√2), standard tables of the normal distribution.
    [0.6826894921, 0.9544997361, 0.9973002039].forEach((share, k) => {
      expectClose(within[k] / COUNT, share, { atol: 5 * Math.sqrt((share * (1 - share)) / COUNT), why });
    });
  });

  test("first numbers of neighbouring samples and streams are not correlated", () => {
    const count = 50_000;
    const stream = new RandomStream(0, 0);
    const first = (index: number, which: number) => {
      stream.restart(9, index, which);
      return stream.normal();
    };
    let neighbours = 0;
    let streams = 0;
    let last = 0;
    for (let i = 0; i < count; i++) {
      const here = first(i, 0);
      neighbours += here * last;
      streams += here * first(i, 1);
      last = here;
    }
    expectClose(neighbours / count, 0, { atol: 5 / Math.sqrt(count), why: "five standard deviations" });
    expectClose(streams / count, 0, { atol: 5 / Math.sqrt(count), why: "five standard deviations" });
  });

  test.each([
    [-1, 0, 0, "seed"],
    [0.5, 0, 0, "seed"],
    [0, 2 ** 53, 0, "sample index"],
    [0, 0, 2 ** 32, "stream"],
    [Number.NaN, 0, 0, "seed"],
  ])("refuses seed %d, index %d, stream %d", (seed, index, which, quantity) => {
    expect(() => new RandomStream(seed, index, which)).toThrow(DomainError);
    expect(() => new RandomStream(seed, index, which)).toThrow(quantity);
  });
});
