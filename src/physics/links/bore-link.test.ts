import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { quaternionFromRotationVector, rotationMatrix } from "../../math/rotation/index.ts";
import { BoreLink, type BoreLinkSettings, type LinkLoad, type LinkSight } from "./index.ts";

const settings: BoreLinkSettings = {
  probe: [2.2, 0.1, -0.85],
  axis: [0.6, -0.8, 0],
  ...{ depth: 0.15, axial: 4e6, axialDamping: 0, lateral: 9e6, lateralDamping: 0 },
  ...{ friction: 0.2, sealFriction: 300, creepSpeed: 0.004 },
  preload: [-2100, 400, 3300],
};
const TIP = Float64Array.of(-3.4, 0, 4.4);

/** Aircraft with its probe tip a little way from the boom tip, everything turned. */
function sight(offset: readonly number[], turn: readonly [number, number, number], speed = 0): LinkSight {
  const state = new Float64Array(13);
  quaternionFromRotationVector(...turn, state, 3);
  const rotation = new Float64Array(9);
  rotationMatrix(state, 3, rotation);
  const p = settings.probe;
  for (let i = 0; i < 3; i++) {
    const arm = rotation[3 * i] * p[0] + rotation[3 * i + 1] * p[1] + rotation[3 * i + 2] * p[2];
    state[i] = TIP[i] + offset[i] - arm;
    state[7 + i] = speed * (i === 0 ? -1 : 0);
  }
  const still = {
    hinge: new Float64Array(3),
    hingeVelocity: new Float64Array(3),
    angularVelocity: new Float64Array(3),
  };
  const carrier = { ...still, rotation: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1) };
  return { state, rotation, carrier, tip: TIP.slice(), tipVelocity: new Float64Array(3) };
}
const nothing = (): LinkLoad => ({
  f_onV_H: new Float64Array(3),
  m_onV_aboutVcm_V: new Float64Array(3),
  f_onTip: new Float64Array(3),
  f_onCarrier_H: new Float64Array(3),
  m_onCarrier_aboutHo_H: new Float64Array(3),
});
function loads(link: BoreLink, seen: LinkSight): LinkLoad {
  const out = nothing();
  link.add(seen, out);
  return out;
}

describe("bore", () => {
  it("carries the preload where it was set up, and nothing once the probe is out", () => {
    const link = new BoreLink(settings, TIP);
    const at = loads(link, sight([0, 0, 0], [0, 0, 0]));
    expectAllClose(
      at.f_onV_H,
      settings.preload.map((x) => -x),
      { rtol: 1e-12, why: "round-off" },
    );
    expectAllClose(at.f_onTip, settings.preload, { rtol: 1e-12, why: "round-off: no arm, no couple" });
    // what the tip takes does not pass to the hinge: the sum of both is none
    expectAllClose(at.f_onCarrier_H, settings.preload, { rtol: 1e-12, why: "round-off" });
    link.engaged = false;
    expectAllClose(loads(link, sight([0, 0, 0], [0, 0, 0])).f_onV_H, [0, 0, 0], { atol: 0, why: "nothing" });
    expect(link.sideLoad).toBe(0);
  });

  it("follows from its energy, hooked and released", () => {
    for (const hooked of [true, false]) {
      const link = new BoreLink({ ...settings, friction: 0, sealFriction: 0 }, TIP);
      link.hooked = hooked;
      const place = [-0.002, 0.001, -0.0015];
      const turn = [0.05, -0.1, 0.2] as const;
      const force = loads(link, sight(place, turn)).f_onV_H;
      const slope = [0, 1, 2].map((i) => {
        const energy = (h: number): number => {
          const moved = place.slice();
          moved[i] += h;
          return link.energy(sight(moved, turn));
        };
        return -(energy(1e-6) - energy(-1e-6)) / 2e-6;
      });
      expectAllClose(force, slope, { rtol: 1e-6, atol: 1e-3, why: "differences over 2 µm" });
    }
  });

  it("only pushes once the hooks are drawn back", () => {
    const link = new BoreLink({ ...settings, preload: [0, 0, 0], friction: 0, sealFriction: 0 }, TIP);
    link.hooked = false;
    loads(link, sight([-0.01, 0, 0], [0, 0, 0]));
    const [out, pull] = [link.travel, link.pull];
    loads(link, sight([0.01, 0, 0], [0, 0, 0]));
    expect(Math.sign(link.travel)).toBe(-Math.sign(out));
    const both = [pull, link.pull].sort((a, b) => a - b);
    expect(both[0]).toBeLessThan(0);
    expect(both[1]).toBe(0);
  });

  it("friction is that of the side load, against the sliding, and takes its work", () => {
    const link = new BoreLink(settings, TIP);
    link.hooked = false;
    loads(link, sight([0, 0, 0], [0, 0, 0], 0.5));
    expectClose(Math.abs(link.frictionForce), settings.friction * link.sideLoad + settings.sealFriction, {
      rtol: 1e-3,
      why: "creep speed 4 mm/s of 0.5 m/s along the axis",
    });
    expect(link.frictionForce * link.rate).toBeLessThan(0);
  });

  it("couple of a probe that stands out of the tip goes to the hinge as the boom's turning", () => {
    const link = new BoreLink({ ...settings, preload: [0, 0, 0], friction: 0, sealFriction: 0 }, TIP);
    const out = loads(link, sight([-0.003, 0, 0.002], [0, 0, 0]));
    // about the hinge: force at the tip and its equivalent add up to the force at the probe
    const f = out.f_onV_H.map((x) => -x);
    const at = [TIP[0] - 0.003, 0, TIP[2] + 0.002];
    const expected = at[2] * f[0] - at[0] * f[2];
    const found = TIP[2] * out.f_onTip[0] - TIP[0] * out.f_onTip[2];
    expectClose(found, expected, { rtol: 1e-10, why: "statics" });
  });

  it("refuses what is no bore", () => {
    expect(() => new BoreLink({ ...settings, depth: 0 }, TIP)).toThrow(/depth/);
    expect(() => new BoreLink({ ...settings, friction: -0.1 }, TIP)).toThrow(/friction/);
    expect(() => new BoreLink({ ...settings, creepSpeed: 0 }, TIP)).toThrow(/creep/);
  });
});
