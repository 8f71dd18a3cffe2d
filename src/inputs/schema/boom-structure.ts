import * as z from "zod";
import { choice } from "./leaf.ts";
import { MASS_PER_LENGTH, PART_MASS, PART_OFFSET, PART_SIZE, RIGIDITY, SECTION_FORCE } from "./ranges.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

/** Twelve elements resolve six bending motions of a plane to better than 1 %. */
const MOTIONS = { atLeast: 0, atMost: 6, words: "a whole number from 0 to 6" };

/** The boom as a beam: what gives stiffness and tip mass when they were not measured. */
export const boomStructure = z
  .strictObject({
    sections: table("Sections of the boom by distance from its hinge.", "boom-sections.csv", {
      station: { kind: "length", breakpoints: true, range: PART_OFFSET },
      EIswing: { kind: "flexuralRigidity", range: RIGIDITY },
      EIlateral: { kind: "flexuralRigidity", range: RIGIDITY },
      GJ: { kind: "flexuralRigidity", range: RIGIDITY },
      EA: { kind: "force", range: SECTION_FORCE },
      massPerLength: { kind: "massPerLength", range: MASS_PER_LENGTH },
      shearSwing: { kind: "force", range: SECTION_FORCE },
      shearLateral: { kind: "force", range: SECTION_FORCE },
    }),
    theory: choice("Beam theory: Timoshenko takes shear strain in, Euler-Bernoulli leaves it out.", [
      "Timoshenko",
      "Euler-Bernoulli",
    ]),
    modes: quantity(
      "number",
      "Bending motions of the boom in each plane that the hooked pair takes in; 0 for a mass on springs. Default 2 when all values of the tip come from sections, else 0.",
      [2],
      MOTIONS,
    ).optional(),
    socketMass: quantity("mass", "Mass of the socket head at the tip.", ["50 kg"], PART_MASS).optional(),
    struts: z
      .array(
        z
          .strictObject({
            along: quantity("length", "Where it meets the boom, from the hinge.", ["3 m"], PART_SIZE),
            slope: quantity("angle", "Between strut and boom, towards the hinge, on the upper side.", ["30 deg"], {
              above: 0,
              below: Math.PI,
              words: "between 0 and 180 deg",
            }),
            EA: quantity("force", "Axial stiffness of the strut's section.", ["120 MN"], SECTION_FORCE),
            length: quantity("length", "Length of the strut.", ["2.2 m"], PART_SIZE),
          })
          .meta({ description: "A strut from the boom to the carrier, in the swing plane." }),
      )
      .meta({ description: "Struts that hold the boom besides hinge and jack." })
      .optional(),
  })
  .meta({
    description:
      "Sections of the boom; they give bending, axial and lateral stiffness and effective tip mass where the pair states no measured value. Needs mechanism.linkage for the jack.",
  });
