import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { standardAtmosphereAtGeometric } from "../atmosphere/index.ts";
import {
  cartesianFromGeodetic,
  ellipsoid,
  equatorialRadius,
  geodeticFromCartesian,
  gravitation,
  gravitationalParameter,
  rotationFromLocal,
  rotationRate,
  sphere,
  turningEarth,
} from "./index.ts";

const vector = (...values: number[]): Float64Array => Float64Array.from(values.length === 0 ? [0, 0, 0] : values);

describe("figure of the earth", () => {
  it("round trips latitude, longitude and altitude", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -Math.PI / 2, max: Math.PI / 2, noNaN: true }),
        fc.double({ min: -3.14, max: 3.14, noNaN: true }),
        fc.double({ min: -5000, max: 1e6, noNaN: true }),
        fc.constantFrom(ellipsoid, sphere),
        (latitude, longitude, altitude, figure) => {
          const position = vector();
          const geodetic = vector();
          cartesianFromGeodetic(figure, latitude, longitude, altitude, position);
          geodeticFromCartesian(figure, position, geodetic);
          const why = "round-off of 6.4e6 m";
          expectClose(geodetic[0], latitude, { atol: 1e-14, why }, "latitude");
          expectClose(geodetic[2], altitude, { atol: 5e-9, why }, "altitude");
          if (Math.abs(latitude) < 1.57) expectClose(geodetic[1], longitude, { atol: 1e-12, why }, "longitude");
        },
      ),
      { seed: 84, numRuns: 500 },
    );
  });

  it("puts the pole 21.4 km nearer to the centre than the equator", () => {
    const pole = vector();
    cartesianFromGeodetic(ellipsoid, Math.PI / 2, 0, 0, pole);
    expectClose(pole[2], equatorialRadius * (1 - ellipsoid.flattening), { rtol: 1e-15, why: "definition" });
  });

  it("has local axes that are right-handed, with down normal to the figure", () => {
    for (const [latitude, longitude] of [
      [0, 0],
      [0.6, -1.3],
      [-1.2, 3],
      [Math.PI / 2, 0.4],
    ]) {
      const R = new Float64Array(9);
      rotationFromLocal(latitude, longitude, R);
      const column = (j: number): number[] => [R[j], R[3 + j], R[6 + j]];
      const [n, e, d] = [column(0), column(1), column(2)];
      const cross = [n[1] * e[2] - n[2] * e[1], n[2] * e[0] - n[0] * e[2], n[0] * e[1] - n[1] * e[0]];
      expectAllClose(cross, d, { atol: 1e-15, why: "round-off" }, "north × east");
      const low = vector();
      const high = vector();
      cartesianFromGeodetic(ellipsoid, latitude, longitude, 0, low);
      cartesianFromGeodetic(ellipsoid, latitude, longitude, 1, high);
      expectAllClose(
        d,
        Array.from(low, (x, i) => x - high[i]),
        { atol: 3e-9, why: "round-off of a difference of 6.4e6 m" },
        "down",
      );
    }
  });

  it.each([[vector(0, 0, 0)], [vector(1000, 0, 0)], [vector(Number.NaN, 0, 0)]])(
    "refuses a position in the core, %#",
    (p) => {
      expect(() => geodeticFromCartesian(ellipsoid, p, vector())).toThrow("distance from the centre of the earth [m]");
    },
  );
});

describe("gravitation", () => {
  it("is the gradient of its potential", () => {
    const a = equatorialRadius;
    const J2 = 0.00108262982;
    const potential = (x: number, y: number, z: number): number => {
      const R = Math.hypot(x, y, z);
      return (gravitationalParameter / R) * (1 - J2 * (a / R) ** 2 * ((3 * z * z) / (R * R) - 1) * 0.5);
    };
    const [x, y, z] = [4.1e6, -2.2e6, 4.4e6];
    const h = 100;
    const out = vector();
    gravitation("J2", vector(x, y, z), out);
    const slope = [
      potential(x + h, y, z) - potential(x - h, y, z),
      potential(x, y + h, z) - potential(x, y - h, z),
      potential(x, y, z + h) - potential(x, y, z - h),
    ].map((difference) => difference / (2 * h));
    expectAllClose(out, slope, { rtol: 1e-8, why: "central difference over 200 m of a potential of 6e7" });
  });

  it("is μ/R² towards the centre without oblateness", () => {
    const out = vector();
    gravitation("inverse square", vector(3e6, 4e6, 12e6), out);
    const perLength = -gravitationalParameter / 13e6 ** 3;
    expectAllClose(out, [3e6 * perLength, 4e6 * perLength, 12e6 * perLength], { rtol: 1e-15, why: "round-off" });
    expect(() => gravitation("J2", vector(0, 0, 0), out)).toThrow("distance from the centre of the earth [m] is 0");
  });
});

describe("turning earth as surroundings", () => {
  const around = () => ({
    gravity: vector(),
    airVelocity: vector(),
    airRotation: vector(),
    airAcceleration: vector(),
    density: 0,
    soundSpeed: 0,
  });

  it("carries its air: Ω×r towards the east, Ω of rotation, wind on top", () => {
    const settings = { figure: ellipsoid, gravitation: "J2", rotationRate, isaOffset: 0 } as const;
    const state = new Float64Array(13);
    const [latitude, longitude, altitude] = [0.7, 1.1, 3000];
    const position = vector();
    cartesianFromGeodetic(ellipsoid, latitude, longitude, altitude, position);
    state.set(position);
    const calm = around();
    turningEarth(settings).evaluate(state, calm, 0);
    expectAllClose(calm.airRotation, [0, 0, rotationRate], { atol: 1e-20, why: "definition" });
    const east = [-Math.sin(longitude), Math.cos(longitude), 0];
    const speed = rotationRate * Math.hypot(position[0], position[1]);
    expectAllClose(calm.airVelocity, [speed * east[0], speed * east[1], 0], { atol: 1e-10, why: "round-off" });
    const air = standardAtmosphereAtGeometric(altitude);
    expectClose(calm.density, air.density, { rtol: 1e-12, why: "altitude to 1e-9 m" });
    const windy = around();
    const wind = (_altitude: number, out: Float64Array) => out.set([0, 10, 0]);
    turningEarth({ ...settings, wind }).evaluate(state, windy, 0);
    expectAllClose(
      windy.airVelocity.map((v, i) => v - calm.airVelocity[i]),
      east.map((x) => 10 * x),
      { atol: 1e-10, why: "round-off of a difference" },
    );
  });

  it("looks the same from every meridian", () => {
    const settings = { figure: ellipsoid, gravitation: "J2", rotationRate, isaOffset: 10 } as const;
    const wind = (altitude: number, out: Float64Array) => out.set([3, 0.001 * altitude, -1]);
    const earth = turningEarth({ ...settings, wind });
    const seen = [0, 2].map((longitude) => {
      const state = vector();
      cartesianFromGeodetic(ellipsoid, -0.5, longitude, 8000, state);
      const out = around();
      earth.evaluate(state, out, 0);
      const R = new Float64Array(9);
      rotationFromLocal(-0.5, longitude, R);
      const local = (v: Float64Array) => [0, 1, 2].map((j) => R[j] * v[0] + R[3 + j] * v[1] + R[6 + j] * v[2]);
      return [...local(out.gravity), ...local(out.airVelocity), ...local(out.airRotation), out.density, out.soundSpeed];
    });
    expectAllClose(seen[1], seen[0], { rtol: 1e-11, atol: 1e-12, why: "round-off" });
  });
});
