import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { attitudeAlongStroke } from "./attitude.ts";

const DEGREE = Math.PI / 180;

describe("attitude at three points", () => {
  it("is that of the coupler of a four-bar by the law of cosines", () => {
    const { angles, pitches, yokeRoot, paths } = attitudeAlongStroke(() => recordReads(loadDemo()));
    expect(yokeRoot[0]).toBeCloseTo(13.243, 9);
    // carrier stations; aft and down positive. The lengths are those of the drawing
    const [ax, az, bx, bz] = [10.4, -2.15, 13.243, -1.92];
    const coupler = Math.hypot(2.95, 0.23);
    const socketDrawn = [ax + 5.6 * Math.cos(14 * DEGREE), az + 5.6 * Math.sin(14 * DEGREE)];
    const yoke = Math.hypot(socketDrawn[0] + 2.95 - bx, socketDrawn[1] + 0.23 - bz);
    const drawn = Math.atan2(0.23, 2.95);
    angles.forEach((angle, i) => {
      const [sx, sz] = [ax + 5.6 * Math.cos(angle), az + 5.6 * Math.sin(angle)];
      const gap = Math.hypot(bx - sx, bz - sz);
      const between = Math.acos((coupler ** 2 + gap ** 2 - yoke ** 2) / (2 * coupler * gap));
      const towards = Math.atan2(bz - sz, bx - sx);
      // of the two assemblies the drawn one: the pin lies aft of the socket
      const pins = [towards + between, towards - between].map((direction) => direction - drawn);
      const down = pins.reduce((a, b) => (Math.abs(Math.sin(b / 2)) < Math.abs(Math.sin(a / 2)) ? b : a));
      const why = "closed form of the same lengths";
      expectClose(pitches[i], Math.atan2(Math.sin(down), Math.cos(down)), { atol: 1e-9, why });
    });
    expect(pitches.at(-1)).toBeGreaterThan(pitches[0]);
    expect(paths).toContain("mechanism.linkage.joints.yokeHinge.at.FS");
  });
});
