/** Result of the part `airloads` of `hold`: coefficients and derivatives that tables give at each trim. Plain JSON data. */

export interface TrimDerivatives {
  readonly pointId: string;
  readonly condition: string;
  readonly mass: string;
  readonly alpha_deg: number;
  readonly mach_1: number;
  /** Place of the c.g. aft of and below the boom hinge. */
  readonly aft_m: number;
  readonly below_m: number;
  /** Whether every table was read within its ends. */
  readonly inside: boolean;
  /** In the axes of the tables; slopes per radian, per Mach number. */
  readonly values: Readonly<Record<string, number>>;
}

export interface AirloadsResult {
  readonly points: readonly TrimDerivatives[];
}
