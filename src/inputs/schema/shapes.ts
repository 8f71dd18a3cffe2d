import * as z from "zod";
import { choice, yesNo } from "./leaf.ts";
import { MESH_AXES, MESH_UNITS, meshFile } from "./mesh-file.ts";
import { name } from "./names.ts";
import { point } from "./point.ts";
import { COORDINATE, PART_OFFSET, PART_SIZE } from "./ranges.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

const length = (describe: string, example: string) => quantity("length", describe, [example], PART_SIZE);
const kind = <const K extends string>(word: K, describe: string) => z.literal(word).meta({ description: describe });

const zone = yesNo("Whether this is a zone to keep out of and no solid: yes for a jet or a slipstream.").optional();

const fuselage = z
  .strictObject({
    kind: kind("fuselage", "Elliptical sections that run straight from station to station."),
    sections: table(
      "Sections from nose to tail: half width, half height and the waterline of the centre.",
      "hull.csv",
      {
        FS: { kind: "length", breakpoints: true },
        halfWidth: { kind: "length", range: PART_OFFSET },
        halfHeight: { kind: "length", range: PART_OFFSET },
        WL: { kind: "length" },
      },
    ),
    BL: quantity(
      "length",
      "Buttline of the middle of the sections; 0 when left out.",
      ["4.5 m"],
      COORDINATE,
    ).optional(),
    zone,
  })
  .meta({ description: "Fuselage, nacelle, pod or tank." });

const LEAN = { above: -Math.PI / 2, below: Math.PI / 2, words: "between -90 and 90 deg" };
const TIP_UP = { atLeast: -Math.PI / 2, atMost: Math.PI / 2, words: "-90 deg to 90 deg" };
const THICKNESS = { above: 0, atMost: 0.5, words: "larger than 0, up to 50 %" };

const panel = z
  .strictObject({
    kind: kind("panel", "A straight panel of a wing or tail with a symmetric section."),
    root: point("Leading edge at the root; of the right panel when sides is both."),
    rootChord: length("Chord at the root.", "4.9 m"),
    tipChord: length("Chord at the tip.", "2.4 m"),
    span: length("From root to tip along one panel, across the stations.", "18.0 m"),
    sweep: quantity("angle", "Sweep of the leading edge, aft positive.", ["4 deg"], LEAN),
    tipUp: quantity(
      "angle",
      "Tip up: 90 deg is a fin, negative is tip down; 0 when left out.",
      ["3 deg"],
      TIP_UP,
    ).optional(),
    thickness: quantity("number", "Largest thickness over chord.", ["15 %"], THICKNESS),
    sides: choice("Which way the panel runs from its root; both is the right one and its mirror image.", [
      "right",
      "left",
      "both",
    ]),
    zone,
  })
  .meta({ description: "Wing, tail or fin panel." });

const corners = {
  from: point("One corner."),
  to: point("The opposite corner."),
};

const box = z
  .strictObject({ kind: kind("box", "A box along the stations."), ...corners, zone })
  .meta({ description: "Plate, door, fitting or tank." });

const bay = z
  .strictObject({
    kind: kind("bay", "A box with walls and a roof, open downwards."),
    ...corners,
    wall: length("Thickness of the walls and the roof, inside the corners.", "20 mm"),
    zone,
  })
  .meta({ description: "Bay into which something is drawn." });

const strut = z
  .strictObject({
    kind: kind("strut", "A cylinder with flat ends between two points."),
    from: point("Centre of one end."),
    to: point("Centre of the other end."),
    radius: length("Radius.", "63.5 mm"),
    zone,
  })
  .meta({ description: "Strut, boom leg, jack or probe." });

const wheel = z
  .strictObject({
    kind: kind("wheel", "A wheel with tyre about the lateral axis."),
    centre: point("Centre of the wheel."),
    radius: length("Outer radius.", "0.60 m"),
    width: length("Width over all.", "0.45 m"),
    edgeRadius: quantity(
      "length",
      "Radius of the rounded shoulders; 0 when left out.",
      ["0.10 m"],
      PART_OFFSET,
    ).optional(),
    zone,
  })
  .meta({ description: "Wheel." });

const propellerDisc = z
  .strictObject({
    kind: kind("propeller disc", "The cylinder that the blades sweep, about the longitudinal axis."),
    centre: point("Centre of the disc."),
    diameter: length("Diameter.", "4.1 m"),
    thickness: length("Depth swept along the axis.", "0.3 m"),
    zone,
  })
  .meta({ description: "Propeller disc." });

const jetCone = z
  .strictObject({
    kind: kind("jet cone", "A cone that widens aft from an exit."),
    exit: point("Centre of the exit."),
    exitRadius: quantity("length", "Radius at the exit.", ["0.20 m"], PART_OFFSET),
    halfAngle: quantity("angle", "Angle between the axis and the edge.", ["7 deg"], {
      atLeast: 0,
      below: Math.PI / 2,
      words: "0 deg to below 90 deg",
    }),
    length: length("Length that counts.", "6 m"),
    zone,
  })
  .meta({ description: "Jet, exhaust or slipstream." });

const mesh = z
  .strictObject({
    kind: kind("mesh", "A surface of triangles from a file."),
    file: meshFile("Mesh file, relative to the file that names it: STL, OBJ, glTF or STEP.", "wing.stl"),
    unit: choice(
      "Unit of the numbers in the file. STL and OBJ do not say it themselves; metres when left out for glTF; left out for STEP.",
      MESH_UNITS,
    ).optional(),
    axes: choice(
      "Where x, y and z of the file point. stations: aft, right, up; body: forward, right, down; or the three words.",
      MESH_AXES,
    ),
    origin: point("Stations of the origin of the file; the datum when left out.").optional(),
    length: length("Longest side of the box around the surface, within 10 %; it finds a wrong unit.", "8.2 m"),
    zone,
  })
  .meta({ description: "Shape from a drawing." });

export const shape = z
  .discriminatedUnion("kind", [fuselage, panel, box, bay, strut, wheel, propellerDisc, jetCone, mesh])
  .meta({ description: "One part of a body, in the stations of the aircraft that owns it." });

/** Any shape of the pair file, by its `kind`. */
export type Shape = z.output<typeof shape>;

export const shapes = (describe: string) => z.record(name, shape).meta({ description: describe });
