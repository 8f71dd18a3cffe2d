/** Result of the part `scaling` of `hold`: dynamically similar models. Keys end in their unit; plain JSON data. */

export interface ScaledQuantity {
  readonly name: string;
  readonly unit: string;
  readonly full: number;
  readonly factor_1: number;
  readonly model: number;
}

/** An oscillation of the aircraft and what the model must show. */
export interface ScaledMode {
  readonly name: string;
  readonly plane: "longitudinal" | "lateral";
  readonly fullFrequency_Hz: number;
  readonly modelFrequency_Hz: number;
  readonly dampingRatio: number;
}

/** An oscillation measured on the model, brought back to the aircraft, beside the nearest computed one. */
export interface BroughtBack {
  readonly mass: string;
  readonly plane: "longitudinal" | "lateral";
  readonly modelFrequency_Hz: number;
  readonly fullFrequency_Hz: number;
  readonly dampingRatio: number;
  readonly nearest: { readonly name: string; readonly frequency_Hz: number; readonly dampingRatio: number } | null;
}

export interface ScaledModel {
  readonly name: string;
  readonly condition: string;
  readonly scale_1: number;
  readonly density_kg_m3: number;
  readonly densityRatio_1: number;
  readonly states: readonly {
    readonly mass: string;
    readonly quantities: readonly ScaledQuantity[];
    readonly modes: readonly ScaledMode[];
  }[];
  /** What similarity of motion leaves unequal: model per full. */
  readonly reynoldsRatio_1: number;
  readonly fullReynolds_1: number;
  readonly machRatio_1: number;
  readonly fullMach_1: number;
  readonly measured: readonly BroughtBack[];
}

export interface ScalingResult {
  readonly models: readonly ScaledModel[];
}
