import * as z from "zod";
import type { Problem } from "../quantity/index.ts";

/** A value's schema: anything in, `T` out; every problem goes through `problem`. */
export type Leaf<T> = z.ZodPipe<z.ZodUnknown, z.ZodTransform<T, unknown>>;

/** Facts about one problem in a value, carried through the schema library to the message. */
export interface ProblemFacts {
  readonly allowed?: string;
  readonly index?: number;
  readonly missing?: boolean;
}

/** JSON Schema of a value, for editors. */
export type JsonPart = Readonly<Record<string, unknown>>;

export interface Words {
  /** What the key means, in trade words. */
  readonly describe: string;
  readonly examples?: readonly unknown[];
}

/**
 * A value of the pair file.
 *
 * @param words    description and examples for editors
 * @param json     JSON Schema of what may be written
 * @param allowed  what may be written, for the message when nothing was
 * @param read     turns what was written into the value, or says what is wrong; never sees an absent value
 */
export function leaf<T>(
  words: Words,
  json: JsonPart,
  allowed: string,
  read: (raw: unknown) => T | readonly Problem[],
): Leaf<T> {
  const schema = z.unknown().transform((raw, ctx): T => {
    const fail = (problem: Problem, facts: ProblemFacts): T => {
      const path = problem.key === undefined ? [] : [problem.key];
      ctx.issues.push({ code: "custom", message: problem.message, params: { ...facts }, path, input: raw });
      return z.NEVER;
    };
    if (raw === undefined) return fail({ message: "is missing" }, { allowed, missing: true });
    if (raw === null) return fail({ message: "has no value" }, { allowed });
    const value = read(raw);
    if (!Array.isArray(value)) return value as T;
    for (const problem of value as readonly Problem[]) {
      fail(problem, {
        allowed: problem.allowed ?? (problem.key === undefined ? allowed : ""),
        ...(problem.index === undefined ? {} : { index: problem.index }),
      });
    }
    return z.NEVER;
  });
  return schema.meta({ description: words.describe, ...json, ...(words.examples ? { examples: words.examples } : {}) });
}

/** Free words. */
export function words(describe: string, examples?: readonly string[]): Leaf<string> {
  const json = { type: ["string", "number"] };
  return leaf<string>({ describe, ...(examples ? { examples } : {}) }, json, "words", (raw) => {
    const text = typeof raw === "number" ? String(raw) : raw;
    return typeof text === "string" && text.trim() !== "" ? text.trim() : [{ message: "must be words" }];
  });
}

/** One of a few words. */
export function choice<const C extends readonly string[]>(describe: string, choices: C): Leaf<C[number]> {
  const allowed = choices.join(", ");
  return leaf<C[number]>({ describe }, { enum: choices }, allowed, (raw) => {
    const found = choices.find((each) => each === raw);
    return found ?? [{ message: "is not one of the choices" }];
  });
}

/** A whole number without unit or uncertainty. */
export function whole(describe: string, examples: readonly number[], least: number, most: number): Leaf<number> {
  const allowed = `a whole number, ${least} to ${most}`;
  const json = { type: "integer", minimum: least, maximum: most };
  return leaf<number>({ describe: `${describe} ${allowed}.`, examples }, json, allowed, (raw) => {
    const number = typeof raw === "string" && /^\d+$/.test(raw.trim()) ? Number(raw) : raw;
    if (typeof number !== "number" || !Number.isInteger(number)) return [{ message: "is not a whole number" }];
    return number >= least && number <= most ? number : [{ message: "is out of range" }];
  });
}

/** Yes or no. */
export function yesNo(describe: string): Leaf<boolean> {
  const json = { enum: [true, false, "yes", "no"] };
  return leaf<boolean>({ describe, examples: ["yes", "no"] }, json, "yes, no", (raw) => {
    if (raw === true || raw === "yes" || raw === "true") return true;
    if (raw === false || raw === "no" || raw === "false") return false;
    return [{ message: "is neither yes nor no" }];
  });
}

/** True for a map that came out of a file. */
export function isMap(raw: unknown): raw is Readonly<Record<string, unknown>> {
  return typeof raw === "object" && raw !== null && !Array.isArray(raw);
}
