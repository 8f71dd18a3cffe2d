import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { integrate, resonanceBreaks } from "../../math/quadrature/index.ts";
import {
  acrossSpectrum,
  alongSpectrum,
  type GustFlight,
  pitchSpectrum,
  rollSpectrum,
  type SpectrumForm,
  type TurbulenceDocument,
  turbulenceScales,
  yawSpectrum,
} from "./index.ts";

const DOCUMENTS: TurbulenceDocument[] = ["MIL-F-8785C", "MIL-HDBK-1797"];
const FORMS: SpectrumForm[] = ["Dryden", "von Karman"];

const flight = (document: TurbulenceDocument, form: SpectrumForm, height = 3000): GustFlight => ({
  scales: turbulenceScales(document, form, height),
  sigma: 1.7,
  speed: 120,
  span: 7.4,
});

/** ∫₀^∞ Φ dω. */
function variance(spectrum: (omega: number) => number): number {
  const breaks = resonanceBreaks(1e-7, 1e9, []);
  const { values } = integrate(
    (x, out) => {
      const omega = Math.exp(x);
      out[0] = omega * spectrum(omega);
    },
    1,
    breaks,
    1e-9,
  );
  return values[0]!;
}

describe("spectra of both documents", () => {
  it.each(DOCUMENTS.flatMap((document) => FORMS.map((form) => [document, form] as const)))(
    "%s %s: the integral of each velocity is its variance",
    (document, form) => {
      for (const height of [150, 450, 3000]) {
        const at = flight(document, form, height);
        const { sigma, scales } = at;
        // the von Kármán spectrum falls as ω^(−5/3): 1e-5 of it lies beyond what was integrated
        const close = { rtol: 5e-5, why: "ends of the integration, 1.339 to four digits" };
        expectClose(
          variance((w) => alongSpectrum(at, w)),
          (sigma * scales.uOverW) ** 2,
          close,
          "u",
        );
        expectClose(
          variance((w) => acrossSpectrum(at, "v", w)),
          (sigma * scales.vOverW) ** 2,
          close,
          "v",
        );
        expectClose(
          variance((w) => acrossSpectrum(at, "w", w)),
          sigma ** 2,
          close,
          "w",
        );
      }
    },
  );

  it("Dryden and von Kármán across as MIL-HDBK-1797 prints them", () => {
    for (const form of FORMS) {
      const at = flight("MIL-HDBK-1797", form);
      const { scales, sigma, speed } = at;
      for (const omega of [0.01, 0.3, 4]) {
        const x = (scales.Lw * omega) / speed;
        const head = (sigma ** 2 * 2 * scales.Lw) / (Math.PI * speed);
        const printed =
          form === "Dryden"
            ? (head * (1 + 12 * x * x)) / (1 + 4 * x * x) ** 2
            : (head * (1 + (8 / 3) * (2.678 * x) ** 2)) / (1 + (2.678 * x) ** 2) ** (11 / 6);
        expectClose(acrossSpectrum(at, "w", omega), printed, { rtol: 1e-13, why: "same formula" });
      }
    }
  });

  it("the two documents are one model: every spectrum is the same at the same place", () => {
    for (const form of FORMS) {
      for (const height of [100, 400, 3000]) {
        const [a, b] = DOCUMENTS.map((document) => flight(document, form, height));
        for (const omega of [0.02, 0.5, 10]) {
          for (const spectrum of [
            alongSpectrum,
            rollSpectrum,
            pitchSpectrum,
            yawSpectrum,
            (f: GustFlight, w: number) => acrossSpectrum(f, "v", w),
            (f: GustFlight, w: number) => acrossSpectrum(f, "w", w),
          ]) {
            expectClose(spectrum(a!, omega), spectrum(b!, omega), { rtol: 1e-13, why: "one model" });
          }
        }
      }
    }
  });

  it("trap: scales of one document in the spectra of the other move the corner by two", () => {
    const right = flight("MIL-F-8785C", "Dryden");
    const mixed: GustFlight = {
      ...right,
      scales: { ...turbulenceScales("MIL-HDBK-1797", "Dryden", 3000), document: "MIL-F-8785C" },
    };
    // at the level of low frequencies the spectrum is half of what it should be
    expectClose(acrossSpectrum(mixed, "w", 1e-6) / acrossSpectrum(right, "w", 1e-6), 0.5, { rtol: 1e-6, why: "L/2" });
  });

  it("trap: variance of the rolling is 0.8·σ²·π²·(πL/4b)^(1/3)/(8bL), not over 16bL", () => {
    // b 30, L 1000, V 300, σ 1, any one unit of length: worked by hand 9.7687e-5
    const at: GustFlight = {
      scales: { document: "MIL-F-8785C", form: "Dryden", Lu: 1000, Lv: 1000, Lw: 1000, uOverW: 1, vOverW: 1 },
      sigma: 1,
      speed: 300,
      span: 30,
    };
    const closed = (0.8 * Math.PI ** 2 * ((Math.PI * 1000) / 120) ** (1 / 3)) / (8 * 30 * 1000);
    expectClose(closed, 9.7687e-5, { rtol: 1e-5, why: "five digits" });
    expectClose(
      variance((w) => rollSpectrum(at, w)),
      closed,
      { rtol: 1e-6, why: "ends of the integration" },
    );
  });

  it("pitching and yawing follow from w and v, and are averaged over the span", () => {
    const at = flight("MIL-F-8785C", "Dryden");
    expectClose(pitchSpectrum(at, 0.01), (0.01 / 120) ** 2 * acrossSpectrum(at, "w", 0.01), { rtol: 1e-5, why: "lag" });
    expect(pitchSpectrum(at, 100)).toBeLessThan(0.03 * (100 / 120) ** 2 * acrossSpectrum(at, "w", 100));
    expect(yawSpectrum(at, 100)).toBeGreaterThan(pitchSpectrum(at, 100));
  });
});
