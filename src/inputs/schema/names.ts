import * as z from "zod";

// Latin, Greek and Cyrillic letters spelt out, because editors read the pattern without the Unicode flag
export const NAME_FORM = /^[A-Za-z\u00c0-\u024f\u0370-\u04ff][A-Za-z0-9\u00c0-\u024f\u0370-\u04ff _+-]*$/;
export const ALLOWED_NAME = "a name that starts with a letter, of letters, digits, blanks, - _ +";

/** A name that the pair gives to a loading, a condition or a variant. */
export const name = z.string().regex(NAME_FORM);
