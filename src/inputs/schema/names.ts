import * as z from "zod";

/** Words under which every JavaScript object answers already, so that they cannot tell one entry from another. */
const RESERVED: readonly string[] = ["prototype", ...Object.getOwnPropertyNames(Object.prototype)];

/** Whether a name is one of the words that no loading, condition, variant or base may have. */
export function isReserved(word: string): boolean {
  return RESERVED.includes(word);
}

export const RESERVED_NAME = "is a reserved word and cannot be a name";

// Latin, Greek and Cyrillic letters spelt out, because editors read the pattern without the Unicode flag
export const NAME_FORM = /^[A-Za-z\u00c0-\u024f\u0370-\u04ff][A-Za-z0-9\u00c0-\u024f\u0370-\u04ff _+-]*$/;
export const ALLOWED_NAME = "a name that starts with a letter, of letters, digits, blanks, - _ +";

/** A name that the pair gives to a loading, a condition or a variant. */
export const name = z
  .string()
  .regex(NAME_FORM)
  .refine((word) => !isReserved(word));
