import * as z from "zod";
import { POSITIVE } from "../quantity/index.ts";
import { choice } from "./leaf.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

/** The boom as a beam: what gives stiffness and tip mass when they were not measured. */
export const boomStructure = z
  .strictObject({
    sections: table("Sections of the boom by distance from its hinge.", "boom-sections.csv", {
      station: { kind: "length", breakpoints: true, notNegative: true },
      EIswing: { kind: "flexuralRigidity", positive: true },
      EIlateral: { kind: "flexuralRigidity", positive: true },
      GJ: { kind: "flexuralRigidity", positive: true },
      EA: { kind: "force", positive: true },
      massPerLength: { kind: "massPerLength", positive: true },
      shearSwing: { kind: "force", positive: true },
      shearLateral: { kind: "force", positive: true },
    }),
    theory: choice("Beam theory: Timoshenko takes shear strain in, Euler-Bernoulli leaves it out.", [
      "Timoshenko",
      "Euler-Bernoulli",
    ]),
    socketMass: quantity("mass", "Mass of the socket head at the tip.", ["50 kg"], POSITIVE).optional(),
    struts: z
      .array(
        z
          .strictObject({
            along: quantity("length", "Where it meets the boom, from the hinge.", ["3 m"], POSITIVE),
            slope: quantity("angle", "Between strut and boom, towards the hinge, on the upper side.", ["30 deg"], {
              above: 0,
              below: Math.PI,
              words: "between 0 and 180 deg",
            }),
            EA: quantity("force", "Axial stiffness of the strut's section.", ["120 MN"], POSITIVE),
            length: quantity("length", "Length of the strut.", ["2.2 m"], POSITIVE),
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
