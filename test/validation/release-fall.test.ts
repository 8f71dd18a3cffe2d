/** What falls, against published rows of a falling sphere. */
import { expect, it } from "vitest";
import { loadPublished } from "../../reference/load.ts";
import { geopotentialFromGeometric, standardAtmosphere } from "../../src/physics/atmosphere/index.ts";
import { type FallAir, fallToGround } from "../../src/physics/separation/index.ts";
import { expectClose } from "../support/close.ts";

const reference = loadPublished("nasa-tm-2015-218675");
const si = (name: string): number => reference.quantity(name).si;
const foot = 0.3048;
const TOP = 30000 * foot;

it("published/nasa-tm-2015-218675, case 4: a dropped sphere with drag over a round earth that does not turn", () => {
  const end = reference.cells("end states").find((cells) => cells.case.value === 4)!;
  const bottom = end.altitude!.si;
  // gravity at the middle of the fall; it changes by ±0.07 % along it
  const middle = si("sphere radius") + 0.5 * (TOP + bottom);
  const air: FallAir = {
    density: (above) => standardAtmosphere(geopotentialFromGeometric(bottom + above), 0).density,
    wind: (_above, out) => {
      out.fill(0);
    },
    gravity: si("mu") / middle ** 2,
  };
  const body = { mass: si("sphere mass"), dragArea: si("sphere CD") * si("sphere area") };
  const fall = fallToGround(body, air, { height: TOP - bottom, velocity: [0, 0, 0] });
  const why = "gravity held constant over 4.2 km, ±0.07 % of it";
  expectClose(fall.time, 30, { rtol: 3e-4, why }, "time");
  expectClose(fall.sinkRate, end.vD!.si, { rtol: 7e-4, why }, "sink rate");
  // without drag it would be there 2.4 % sooner: the drag is in it
  const bare = fallToGround({ ...body, dragArea: 0 }, air, { height: TOP - bottom, velocity: [0, 0, 0] });
  expect(bare.time).toBeLessThan(0.985 * fall.time);
});
