/** The cautions that accompany every page, table and file that leaves Davit. */

/** One line for page footers and terminal ends. */
export const CAUTION_LINE = "Aid to judgement, not an approval: the accountable engineer and the authority decide.";

/** All of them, in the order they are printed. */
export const STANDARD_CAUTIONS: readonly string[] = [
  "This is an aid to judgement, not an approval. Nothing in it clears an aircraft, a mechanism or a procedure for flight.",
  "The accountable engineer and the authority decide. Local rules and licensed practice take precedence over everything printed here.",
  "Not for operational control: do not use these results to fly, command or monitor an aircraft in flight.",
  "A criterion named “project criterion” was set by the project; no published number stands behind it.",
  "Results hold for the listed inputs, conditions and assumptions. What is listed as not analysed was not looked at, and silence about a subject is no statement that it is safe.",
  "Inputs marked as not measured are estimates or analysis; a verdict that rests on them is no firmer than they are.",
];
