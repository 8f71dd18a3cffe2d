/** Which way a signed value points, in words beside the number. */

/** By the last word of a finding's id: what a positive and a negative value mean. */
const SIGNS: Readonly<Record<string, readonly [positive: string, negative: string]>> = {
  elevator: ["trailing edge down", "trailing edge up"],
  "tow-load": ["pulls forward", "pushes aft"],
  "jack-load": ["drives boom down", "drives boom up"],
};

/** The direction of a value; nothing for zero and for a key whose sign needs no words. */
export function signOf(key: string, value: number): string {
  const words = Object.hasOwn(SIGNS, key) ? SIGNS[key] : undefined;
  if (words === undefined || value === 0) return "";
  return value > 0 ? words[0] : words[1];
}

/** As `signOf`, in brackets with the sign it stands for: `(negative: drives boom up)`. */
export function bracketed(key: string, value: number): string {
  const words = signOf(key, value);
  return words === "" ? "(no direction)" : `(${value > 0 ? "positive" : "negative"}: ${words})`;
}
