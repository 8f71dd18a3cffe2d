import { type Beyond, MonotoneGrid } from "../../math/interpolate/index.ts";
import { DerivativeModel } from "./derivative-model.ts";
import type { DerivativeSet } from "./derivative-set.ts";
import type { AirState, Controls } from "./types.ts";

/** Values over a full grid, row-major, last axis fastest. */
export interface GridTable<A extends string, V extends string> {
  /** Nodes by axis, in the order of `A`; one node where nothing depends on the axis. */
  readonly axes: Readonly<Record<A, ArrayLike<number>>>;
  readonly values: Readonly<Record<V, ArrayLike<number>>>;
}

const STILL_AXES = ["alpha", "beta", "mach"] as const;
const STILL = ["CL", "CD", "CY", "Cl", "Cm", "Cn"] as const;
const CONTROL_AXES = ["alpha", "deflection"] as const;
const RATE_AXES = ["alpha", "mach"] as const;
const RATES = [
  ...(["CLq", "CLalphadot", "Cmq", "Cmalphadot"] as const),
  ...(["CYp", "CYr", "Clp", "Clr", "Cnp", "Cnr"] as const),
] as const;
const NEAR_AXES = ["alpha", "aft", "below"] as const;

type Axes<T extends readonly string[]> = T[number];

/** Coefficients of one aircraft in tables; angles [rad], places [m]. Controls and nearness are increments. */
export interface CoefficientTables {
  readonly still: GridTable<Axes<typeof STILL_AXES>, Axes<typeof STILL>>;
  readonly elevator: GridTable<Axes<typeof CONTROL_AXES>, Axes<typeof STILL>>;
  readonly aileron: GridTable<Axes<typeof CONTROL_AXES>, Axes<typeof STILL>>;
  readonly rudder: GridTable<Axes<typeof CONTROL_AXES>, Axes<typeof STILL>>;
  readonly rates: GridTable<Axes<typeof RATE_AXES>, Axes<typeof RATES>>;
  /** Increments by the carrier over the place of the c.g. aft of and below the boom hinge; absent when not known. */
  readonly near?: GridTable<Axes<typeof NEAR_AXES>, Axes<typeof STILL>>;
  readonly beyond: Beyond;
}

/** What a set of tables is evaluated with besides its coefficients. */
export type TableFrame = Pick<DerivativeSet, "area" | "span" | "chord" | "axes" | "referencePoint" | "thrust">;

const NONE = { atReference: 0, alpha: 0, pitchRate: 0, alphaRate: 0, elevator: 0 };
const NO_LATERAL = { beta: 0, rollRate: 0, yawRate: 0, aileron: 0, rudder: 0 };

function gridOf<A extends string, V extends string>(
  table: GridTable<A, V>,
  axes: readonly A[],
  values: readonly V[],
  beyond: Beyond,
): MonotoneGrid {
  return new MonotoneGrid(
    axes.map((axis) => table.axes[axis]),
    values.map((value) => table.values[value]),
    beyond,
  );
}

/**
 * Load from coefficient tables, in the axes and about the point of the frame.
 *
 *     C = C_still(α, β, M) + Σ_controls ΔC(α, δ) + ΔC_near(α, aft, below) + rates                 (README eq. 13)
 *
 * The rest is `DerivativeModel`: axes, rates, transfer to the c.g., thrust. Tables are interpolated monotonely and go on beyond
 * their ends as they say; `inside` tells whether the last place lay within all of them. Without a carrier (`aft` and
 * `below` absent from the air state) the increments of nearness are those of no carrier: none.
 *
 * @throws {DomainError} at construction only: axes that do not increase, tables of the wrong length
 * @source   own derivation, README eq. 13
 * @verified table-model.test.ts: equals `DerivativeModel` where the tables hold its polynomials, extraction, beyond the ends
 * @cost     no allocation
 */
export class TableModel extends DerivativeModel {
  readonly tables: CoefficientTables;
  /** Whether the last evaluation lay within every table. */
  inside = true;
  private readonly stillGrid: MonotoneGrid;
  private readonly controlGrids: readonly [MonotoneGrid, MonotoneGrid, MonotoneGrid];
  private readonly rateGrid: MonotoneGrid;
  private readonly nearGrid: MonotoneGrid | null;
  private readonly place = new Float64Array(3);
  private readonly values = new Float64Array(RATES.length);
  private readonly tabled = {
    lift: { pitchRate: 0, alphaRate: 0 },
    pitch: { pitchRate: 0, alphaRate: 0 },
    side: { rollRate: 0, yawRate: 0 },
    roll: { rollRate: 0, yawRate: 0 },
    yaw: { rollRate: 0, yawRate: 0 },
  };

  constructor(frame: TableFrame, tables: CoefficientTables) {
    super({
      ...frame,
      referenceAlpha: 0,
      ...{ lift: NONE, pitch: NONE, side: NO_LATERAL, roll: NO_LATERAL, yaw: NO_LATERAL },
      drag: { kind: "linear", atReference: 0, alpha: 0, elevator: 0 },
    });
    const { beyond } = tables;
    this.tables = tables;
    this.rates = this.tabled;
    this.stillGrid = gridOf(tables.still, STILL_AXES, STILL, beyond);
    this.controlGrids = [
      gridOf(tables.elevator, CONTROL_AXES, STILL, beyond),
      gridOf(tables.aileron, CONTROL_AXES, STILL, beyond),
      gridOf(tables.rudder, CONTROL_AXES, STILL, beyond),
    ];
    this.rateGrid = gridOf(tables.rates, RATE_AXES, RATES, beyond);
    this.nearGrid = tables.near === undefined ? null : gridOf(tables.near, NEAR_AXES, STILL, beyond);
  }

  protected override coefficients(air: AirState, controls: Controls): void {
    const { place, values, still, tabled, stillGrid, rateGrid, nearGrid } = this;
    const [elevator, aileron, rudder] = this.controlGrids;
    const mach = this.speed / air.soundSpeed;
    still.lift = still.drag = still.side = still.roll = still.pitch = still.yaw = 0;
    place[0] = this.alpha;
    place[1] = this.beta;
    place[2] = mach;
    this.inside = stillGrid.contains(place);
    this.add(stillGrid);
    this.control(elevator, controls.elevator);
    this.control(aileron, controls.aileron);
    this.control(rudder, controls.rudder);
    if (nearGrid !== null && air.aft !== undefined && air.below !== undefined) {
      place[1] = air.aft;
      place[2] = air.below;
      this.inside &&= nearGrid.contains(place);
      this.add(nearGrid);
    }
    place[1] = mach;
    this.inside &&= rateGrid.contains(place);
    rateGrid.evaluate(place, values);
    tabled.lift.pitchRate = values[0];
    tabled.lift.alphaRate = values[1];
    tabled.pitch.pitchRate = values[2];
    tabled.pitch.alphaRate = values[3];
    tabled.side.rollRate = values[4];
    tabled.side.yawRate = values[5];
    tabled.roll.rollRate = values[6];
    tabled.roll.yawRate = values[7];
    tabled.yaw.rollRate = values[8];
    tabled.yaw.yawRate = values[9];
  }

  private control(grid: MonotoneGrid, deflection: number): void {
    this.place[1] = deflection;
    this.inside &&= grid.contains(this.place);
    this.add(grid);
  }

  private add(grid: MonotoneGrid): void {
    const { still, values } = this;
    grid.evaluate(this.place, values);
    still.lift += values[0];
    still.drag += values[1];
    still.side += values[2];
    still.roll += values[3];
    still.pitch += values[4];
    still.yaw += values[5];
  }
}

/** Makes the load model of coefficient tables; see `TableModel`. */
export function tableModel(frame: TableFrame, tables: CoefficientTables): TableModel {
  return new TableModel(frame, tables);
}
