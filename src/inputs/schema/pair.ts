import * as z from "zod";
import { ALLOWED_DATE, ALLOWED_MATURITY, isDate, MATURITIES } from "../quantity/index.ts";
import { approach } from "./approach.ts";
import { carried } from "./carried.ts";
import { carrier } from "./carrier.ts";
import { conditions } from "./conditions.ts";
import { control } from "./control.ts";
import { choice, leaf, words } from "./leaf.ts";
import { mechanism } from "./mechanism.ts";
import { name } from "./names.ts";
import { studies } from "./studies.ts";
import { quantity } from "./value.ts";

/** Edition of the pair file that this program reads. */
export const EDITION = 1;

const edition = leaf({ describe: "Edition of the pair file." }, { const: EDITION }, String(EDITION), (raw) =>
  raw === String(EDITION) || raw === EDITION ? EDITION : [{ message: "is an unknown edition of the pair file" }],
);

const date = leaf<string>({ describe: "Date of the values." }, { type: ["string", "integer"] }, ALLOWED_DATE, (raw) => {
  const text = typeof raw === "number" ? String(raw) : raw;
  return typeof text === "string" && isDate(text) ? text : [{ message: "is not a date" }];
});

const provenance = z
  .strictObject({
    source: words("Where the values come from.", ["wind-tunnel report 12"]),
    date: date.optional(),
    maturity: choice(`How well founded the values are: ${ALLOWED_MATURITY}.`, MATURITIES).optional(),
  })
  .meta({ description: "Provenance of every value in this file that does not state its own." });

const correlation = z
  .strictObject({
    between: z
      .array(words("Path of a value that carries an uncertainty.", ["carried.massStates.full.mass"]))
      .length(2)
      .meta({ description: "Paths of the two values." }),
    coefficient: quantity("number", "Correlation coefficient.", [0.4], { atLeast: -1, atMost: 1, words: "-1 to 1" }),
  })
  .meta({ description: "Correlation between two uncertain values." });

/** Parts of the pair that a variant or `--set` may change. */
export const PATCHABLE = ["carrier", "carried", "mechanism", "control", "approach", "conditions", "studies", "notice"];

// told to editors only: what is wrong with a path is said better where the paths are looked up
const patchPath = z.string().meta({ pattern: `^(${PATCHABLE.join("|")})(\\.[^.]+)*$` });

const variant = z
  .record(patchPath, z.unknown())
  .meta({ description: "Values that replace those of the base, each under its path, e.g. mechanism.boom.bending." });

/** The whole pair file. */
export const pairSchema = z
  .strictObject({
    davit: edition,
    pair: words("Name of the pair.", ["Longshore"]),
    notice: words("A notice that every report repeats.").optional(),
    include: z
      .array(words("File that is read first, relative to this one.", ["shared/skerrick.yaml"]))
      .meta({ description: "Files whose values stand under those of this file." })
      .optional(),
    base: words("Name of the base values; `base` when left out.", ["Rev A"]).optional(),
    defaultVariant: words("Variant that runs when none is asked for; the base when left out.").optional(),
    clearVariants: z
      .array(words("Name of the base or of a variant.", ["Rev A"]))
      .min(1)
      .meta({
        description:
          "Base and variants that go into the clearance report; without it all of them. The others are for comparing.",
      })
      .optional(),
    provenance: provenance.optional(),
    carrier,
    carried,
    mechanism,
    control: control.optional(),
    approach: approach.optional(),
    conditions,
    studies: studies.optional(),
    correlations: z.array(correlation).meta({ description: "Correlations between uncertain values." }).optional(),
    variants: z.record(name, variant).meta({ description: "Named patches of the base values." }).optional(),
  })
  .meta({ title: "Davit pair file", description: "A carrier, a carried aircraft and the mechanism between them." });

/** A checked pair: SI values with what was written and where it comes from. */
export type Pair = z.output<typeof pairSchema>;
