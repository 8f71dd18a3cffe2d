/** The two documents describe one physical model; their lateral and vertical scale lengths differ by a factor of two. */
export type TurbulenceDocument = "MIL-F-8785C" | "MIL-HDBK-1797";
export type SpectrumForm = "Dryden" | "von Karman";

/** Length scales [m] and intensity ratios of the three velocity components at one height. */
export interface TurbulenceScales {
  readonly document: TurbulenceDocument;
  readonly form: SpectrumForm;
  /** As the document defines them: only its own spectra may be used with them. */
  readonly Lu: number;
  readonly Lv: number;
  readonly Lw: number;
  /** σ_u/σ_w and σ_v/σ_w [1]. */
  readonly uOverW: number;
  readonly vOverW: number;
}

/** What the spectra are evaluated for. */
export interface GustFlight {
  readonly scales: TurbulenceScales;
  /** σ_w [m/s]. */
  readonly sigma: number;
  /** True airspeed [m/s]. */
  readonly speed: number;
  /** Wing span b [m], over which the rotations are averaged. */
  readonly span: number;
}
