import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { InputError } from "../../math/errors.ts";
import { createPose, meshProperties } from "../../physics/shapes/index.ts";
import { buildBodies, moverAt } from "./bodies.ts";
import { carried, toStation } from "./frames.ts";
import type { ShapeForm } from "./inputs.ts";
import { mover, part, rig } from "./testing/rigs.ts";

const BOX: ShapeForm = { kind: "box", from: [10, 1, 0.5], to: [12, 3, 1] };
/** A cube's corners in stations and its faces, counter-clockwise from outside. */
const CUBE = Float64Array.of(0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 0, 1, 1, 0, 1, 1, 1, 1, 0, 1, 1);
const FACES = [
  0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7,
];
const mesh = (faces: readonly number[], stations = CUBE): ShapeForm => ({
  ...{ kind: "mesh", stations, triangles: Uint32Array.from(faces) },
});
const faultsOf = (form: ShapeForm) => buildBodies(rig([part("carrier.thing", "carrier", form)])).parts[0].faults;

describe("parts", () => {
  it("stand at their stations", () => {
    const shapes: [string, ShapeForm][] = [
      ["box", BOX],
      ["bay", { kind: "bay", from: [10, 1, 0.5], to: [12, 3, 1], wall: 0.02 }],
      ["mesh", mesh(FACES)],
      ["wheel", { kind: "wheel", centre: [5, 4, -1], radius: 0.6, width: 0.4, edgeRadius: 0.1 }],
    ];
    const { parts } = buildBodies(rig(shapes.map(([name, form]) => part(`carrier.${name}`, "carrier", form))));
    const ends = parts.map(({ mesh: surface }) => {
      const { lowest, highest } = meshProperties(surface);
      return [toStation(highest), toStation(lowest)];
    });
    expect(ends[0]).toEqual([
      [10, 3, 0.5],
      [12, 1, 1],
    ]);
    expect(ends[1]).toEqual(ends[0]);
    expect(ends[2]).toEqual([
      [0, 1, 0],
      [1, 0, 1],
    ]);
    expectClose(ends[3][1][2], -0.4, { atol: 1e-9, why: "a corner on the crown" }, "top of the wheel");
    expectClose(ends[3][0][1], 4.2, { atol: 1e-12, why: "half the width" }, "right face");
  });

  it("have both panels mirrored about the plane of symmetry, also when the fuselage stands aside", () => {
    const wing: ShapeForm = {
      ...{ kind: "panel", root: [3, 0.5, 1], rootChord: 2, tipChord: 1, span: 4 },
      ...{ sweep: 0.1, tipUp: 0.2, thickness: 0.12, sides: "both" },
    };
    const pod: ShapeForm = {
      kind: "fuselage",
      stations: { FS: [0, 1, 2], halfWidth: [0, 0.5, 0], halfHeight: [0, 0.5, 0], WL: [1, 1, 1] },
      BL: 2,
    };
    const { parts } = buildBodies(rig([part("carrier.wing", "carrier", wing), part("carrier.pod", "carrier", pod)]));
    expect(parts[0].pieces).toHaveLength(2);
    const { lowest, highest } = meshProperties(parts[0].mesh);
    expectClose(lowest[1], -highest[1], { atol: 1e-12, why: "mirror" }, "tips");
    expect(parts[0].faults).toEqual([]);
    expect(toStation(parts[1].middle)).toEqual([1, 2, 1]);
  });

  it("turn with their hinge, and mirrored ones the other way round", () => {
    const inputs = rig(
      [part("doorRight.plate", "gear", BOX, { group: "gear" })],
      [mover("doorRight", [11, 1, 0.5], [1, 0.2, -0.1], 1.3, "doorLeft")],
    );
    const { parts } = buildBodies(inputs);
    expect(parts.map(({ name }) => name)).toEqual(["doorRight.plate", "doorLeft.plate"]);
    const poses = [createPose(), createPose()];
    parts.forEach(({ hinge }, i) => {
      hinge?.poseAt(0.9, poses[i]);
    });
    const [x, y, z] = [-11.7, 2.2, -0.8];
    const [right, left] = [carried(poses[0], [x, y, z]), carried(poses[1], [x, -y, z])];
    expectClose(left[0], right[0], { atol: 1e-12, why: "mirror" }, "x");
    expectClose(left[1], -right[1], { atol: 1e-12, why: "mirror" }, "y");
    expectClose(left[2], right[2], { atol: 1e-12, why: "mirror" }, "z");
    // Outboard corner of a door that hangs on a line aft: a positive turn about aft lifts what points right.
    const simple = buildBodies(
      rig([part("d.p", "gear", BOX, { group: "gear" })], [mover("d", [11, 1, 0.5], [1, 0, 0], 1)]),
    );
    const pose = createPose();
    simple.parts[0].hinge?.poseAt(Math.PI / 2, pose);
    const up = toStation(carried(pose, [-11, 3, -0.5]));
    expectClose(up[1], 1, { atol: 1e-12, why: "quarter turn" }, "BL");
    expectClose(up[2], 2.5, { atol: 1e-12, why: "quarter turn" }, "WL");
  });

  it("read the angle straight between the rows, and add up the way of a table that turns back", () => {
    const table = {
      ...mover("d", [0, 0, 0], [1, 0, 0], 0),
      fractions: Float64Array.of(0, 0.4, 1),
      angles: Float64Array.of(0, 2, 1),
    };
    const [own] = buildBodies(rig([part("d.p", "gear", BOX, { group: "gear" })], [table])).movers;
    expect(moverAt(own, own.angles, 0.2)).toBeCloseTo(1, 14);
    expect(moverAt(own, own.angles, 0.7)).toBeCloseTo(1.5, 14);
    expect(moverAt(own, own.turned, 1)).toBeCloseTo(3, 14);
  });
});

describe("faults of surfaces", () => {
  it("finds nothing wrong with a sound cube", () => expect(faultsOf(mesh(FACES))).toEqual([]));

  it("says what is open, inside out or without thickness, with a place in stations", () => {
    const open = faultsOf(mesh(FACES.slice(6)));
    expect(open.join()).toContain("open");
    expect(open.join()).toContain("FS 0.500, BL 0.000, WL 0.000");
    const inverted = FACES.map((_, i) => FACES[3 * Math.floor(i / 3) + [0, 2, 1][i % 3]]);
    expect(faultsOf(mesh(inverted)).join()).toContain("inside out");
    const flat = CUBE.map((value, i) => (i % 3 === 2 ? 0 : value));
    expect(faultsOf(mesh(FACES, flat)).join()).toContain("no thickness");
    const turned = [...FACES.slice(3), FACES[0], FACES[2], FACES[1]];
    expect(faultsOf(mesh(turned)).join()).toContain("opposite sides");
  });

  it("refuses a shape that cannot be, naming it", () => {
    const build = () =>
      buildBodies(
        rig([part("carrier.rod", "carrier", { kind: "strut", from: [1, 2, 3], to: [1, 2, 3], radius: 0.1 })]),
      );
    expect(build).toThrow(InputError);
    expect(build).toThrow("carrier.rod");
  });
});
