import { BugError } from "../../math/errors.ts";
import { normaliseQuaternion, quaternionFromEuler, rotationMatrix } from "../../math/rotation/index.ts";
import { SEPARATION_COLUMNS, separationColumn } from "../../physics/separation/index.ts";
import {
  createDistanceQuery,
  createPose,
  createTree,
  type DistanceQuery,
  type DistanceTree,
  joinedMesh,
  type Mesh,
  meshRadius,
  minimumDistance,
  movedMesh,
  type Pose,
} from "../../physics/shapes/index.ts";
import type { PosedPart } from "../fit/index.ts";
import type { NearestPair } from "./types.ts";

type Axes3 = readonly [number, number, number];

/** A group of parts that moves as one. */
interface Body {
  readonly name: string;
  readonly tree: DistanceTree;
  /** Largest distance of a corner from the point that it turns about [m]. */
  readonly reach: number;
  /** Largest faceting error of its parts [m]. */
  readonly slack: number;
}

interface Pair {
  readonly carried: Body;
  readonly other: Body;
  readonly query: DistanceQuery;
  /** Taken off a distance: both faceting errors [m]. */
  readonly slack: number;
  /** They touch or nearly touch before anything opens: counted only once they have been apart. */
  readonly joined: boolean;
}

/** Least distance along a course. */
export interface LeastDistance {
  readonly distance: number;
  readonly time: number;
  readonly pair: NearestPair;
}

export interface SceneSettings {
  readonly parts: readonly PosedPart[];
  /** Name of the body that swings with the boom tip. */
  readonly boom: string;
  /** Boom hinge and c.g. of the carried aircraft, axes with the datum of each as origin [m]. */
  readonly hinge: Axes3;
  readonly cg: Axes3;
  /** Distance beyond which bodies that were joined count as apart, so that coming back counts [m]. */
  readonly apart: number;
}

const SIZE = SEPARATION_COLUMNS.length;
const [X, Q0, TIP, HINGE, ROLL] = (["x", "q0", "tipX", "hingeX", "carrierRoll"] as const).map(separationColumn);
/** Parts nearer than this before anything opens belong to the attachment [m]. */
const JOINED = 0.05;
/** How far beyond the least distance so far a pair is measured exactly, to begin with [m]. */
const LOOK = 1.5;
/** Tolerance of the search for the least distance, and for a course [m]; taken off, so that no distance is too large. */
const FINE = 1e-3;
const COARSE = 0.1;
/** Distance up to which a course is as fine as the least distance [m]. */
const NEAR = 3;
const CARRIER = "carrier";

/**
 * Bodies of a separation: the aircraft, split in what hangs in the attachment and the rest, against carrier, boom and links.
 *
 * The boom turns with its tip in the swing plane; links that were let go stay where they were. The distance is that of the surfaces less
 * their faceting errors.
 *
 *     d(t) ≥ d(t₀) − ∫|travel| dt,  travel ≤ |Δp| + turn·reach: what cannot be nearer than the least so far is not measured     (README eq. 2)
 */
export class ReleaseScene {
  readonly parts: readonly PosedPart[];
  private readonly pairs: readonly Pair[];
  private readonly hinge: Axes3;
  private readonly cg: Axes3;
  private readonly apart: number;
  private readonly pose = createPose();
  private readonly still = createPose();
  private readonly swung = createPose();
  private readonly R = new Float64Array(9);
  private readonly C = new Float64Array(9);
  private readonly q = new Float64Array(4);
  /** Swing angle of the boom at the beginning of a course [rad]. */
  private swing0 = 0;

  /**
   * @param settings parts where they stand at the pose
   * @param start    course whose first row is that pose
   */
  constructor(settings: SceneSettings, start: Float64Array) {
    const { parts, boom } = settings;
    this.parts = parts;
    this.hinge = settings.hinge;
    this.cg = settings.cg;
    const carried = parts.filter(({ owner }) => owner === "carried");
    const rest = parts.filter(({ owner }) => owner !== "carried");
    if (carried.length === 0 || rest.length === 0) throw new BugError("a separation needs bodies on both sides");
    const groupOf = ({ owner, body }: PosedPart): string => (owner === "mechanism" ? body : CARRIER);
    const names = [...new Set(rest.map(groupOf))];
    // what is near sets the least that the carrier, which is far and large, must undercut
    names.sort((a, b) => Number(a === CARRIER) - Number(b === CARRIER));
    const others = names.map((name) => {
      const own = rest.filter((part) => groupOf(part) === name);
      const meshes = own.map(({ mesh, pose }) => movedMesh(mesh, pose));
      return bodyOf(name, own, meshes, name === boom ? this.hinge : null);
    });
    this.apart = Math.max(JOINED, settings.apart);
    this.boom = boom;
    this.begin(start);
    this.place(start, 0);
    const query = createDistanceQuery();
    const touching = (tree: DistanceTree, other: Body): boolean =>
      minimumDistance(tree, this.pose, other.tree, this.otherPose(other.name, boom), query, { upperBound: JOINED })
        .outcome === "found";
    const attachment = carried.filter((part) => {
      const tree = createTree(part.mesh);
      return others.some((other) => touching(tree, other));
    });
    const airframe = carried.filter((part) => !attachment.includes(part));
    const carriedOf = (name: string, of: readonly PosedPart[]): Body[] => {
      const meshes = of.map(({ mesh }) => mesh);
      return of.length === 0 ? [] : [bodyOf(name, of, meshes, this.cg)];
    };
    const own = [
      ...carriedOf("airframe", airframe),
      ...attachment.flatMap((part) => carriedOf(part.name.slice(part.name.indexOf(".") + 1), [part])),
    ];
    const pairs = own.flatMap((one) =>
      others.map((other) => ({
        ...{ carried: one, other, query: createDistanceQuery(), slack: one.slack + other.slack },
        joined: touching(one.tree, other),
      })),
    );
    this.pairs = [...pairs.filter(({ joined }) => !joined), ...pairs.filter(({ joined }) => joined)];
  }
  private readonly boom: string;

  private begin(values: Float64Array): void {
    this.swing0 = swingOf(values, 0);
  }

  /** Pose of the carried aircraft and of the boom in carrier axes at a row. */
  private place(values: Float64Array, row: number): void {
    const at = row * SIZE;
    const { R, C, q, pose, hinge, cg, swung } = this;
    q.set(values.subarray(at + Q0, at + Q0 + 4));
    normaliseQuaternion(q, 0);
    rotationMatrix(q, 0, R);
    quaternionFromEuler(values[at + ROLL + 2], values[at + ROLL + 1], values[at + ROLL], q, 0);
    rotationMatrix(q, 0, C);
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        pose.rotation[3 * i + j] = C[i] * R[j] + C[3 + i] * R[3 + j] + C[6 + i] * R[6 + j];
      }
    }
    const d0 = values[at + X] - values[at + HINGE];
    const d1 = values[at + X + 1] - values[at + HINGE + 1];
    const d2 = values[at + X + 2] - values[at + HINGE + 2];
    const P = pose.rotation;
    for (let i = 0; i < 3; i++) {
      pose.translation[i] =
        hinge[i] +
        (C[i] * d0 + C[3 + i] * d1 + C[6 + i] * d2) -
        (P[3 * i] * cg[0] + P[3 * i + 1] * cg[1] + P[3 * i + 2] * cg[2]);
    }
    // a larger boom angle turns the tip down: about +y it turns x into −z
    const turn = swingOf(values, row) - this.swing0;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    swung.rotation.set([c, 0, s, 0, 1, 0, -s, 0, c]);
    for (let i = 0; i < 3; i++) {
      swung.translation[i] =
        hinge[i] -
        (swung.rotation[3 * i] * hinge[0] +
          swung.rotation[3 * i + 1] * hinge[1] +
          swung.rotation[3 * i + 2] * hinge[2]);
    }
  }

  /** Pose of the carried aircraft in carrier axes at a row; overwritten by the next call. */
  poseAt(values: Float64Array, row: number): Pose {
    this.begin(values);
    this.place(values, row);
    return this.pose;
  }

  private otherPose(name: string, boom: string): Pose {
    return name === boom ? this.swung : this.still;
  }

  private distance(pair: Pair, values: Float64Array, row: number, upperBound: number, tolerance = FINE): number {
    this.place(values, row);
    const { carried, other, query } = pair;
    const found = minimumDistance(carried.tree, this.pose, other.tree, this.otherPose(other.name, this.boom), query, {
      ...{ upperBound, tolerance },
    });
    return Math.max(0, found.distance - tolerance - pair.slack);
  }

  /**
   * Least distance of the free aircraft from everything along a course.
   *
   * @param values course, rows of `SEPARATION_COLUMNS`
   * @param from   first row that counts for bodies that were not joined
   * @returns `null` where nothing counted
   */
  least(values: Float64Array, from: number): LeastDistance | null {
    const rows = values.length / SIZE;
    this.begin(values);
    let best: LeastDistance | null = null;
    for (const pair of this.pairs) {
      let row = from;
      let apart = !pair.joined;
      // what leaves is nearest as it leaves: of what was joined only a return counts
      let most = pair.joined ? 0 : Infinity;
      let look = LOOK;
      while (row < rows) {
        const near = (apart ? (best?.distance ?? 0) : this.apart) + look;
        const found = this.distance(pair, values, row, best === null && apart ? Infinity : near + FINE + pair.slack);
        // farther than it looked: look twice as far, and pass over twice as many rows
        look = found >= near ? 2 * look : LOOK;
        if (!apart && found > this.apart) apart = true;
        if (apart && found < most && (best === null || found < best.distance)) {
          const named = { carried: pair.carried.name, other: pair.other.name };
          best = { distance: found, time: values[row * SIZE], pair: named };
        }
        if (pair.joined) most = Math.max(most, found);
        if (best?.distance === 0) return best;
        // no row in which it cannot have come nearer than the least so far, or apart
        const room = apart ? found - (best?.distance ?? found) : this.apart - found;
        let travel = 0;
        do {
          travel += this.travel(pair, values, row);
          row++;
        } while (row < rows && travel <= room);
      }
    }
    return best;
  }

  /** Distance from everything at a row; bodies that are joined do not count. */
  at(values: Float64Array, row: number): number {
    const far = this.nearest(values, row, COARSE);
    return far > NEAR ? far : this.nearest(values, row, FINE);
  }

  private nearest(values: Float64Array, row: number, tolerance: number): number {
    let least = Infinity;
    this.begin(values);
    for (const pair of this.pairs) {
      if (pair.joined) continue;
      least = Math.min(least, this.distance(pair, values, row, least + tolerance + pair.slack, tolerance));
      if (least === 0) return 0;
    }
    return least;
  }

  /** Bound of what a pair comes nearer from a row to the next [m]. */
  private travel(pair: Pair, values: Float64Array, row: number): number {
    const [a, b] = [row * SIZE, (row + 1) * SIZE];
    if (b >= values.length) return 0;
    let way = 0;
    for (let i = 0; i < 3; i++) {
      way += (values[b + X + i] - values[b + HINGE + i] - values[a + X + i] + values[a + HINGE + i]) ** 2;
    }
    let same = 0;
    for (let i = 0; i < 4; i++) same += values[a + Q0 + i] * values[b + Q0 + i];
    const turn = 2 * Math.acos(Math.min(1, Math.abs(same)));
    let carrier = 0;
    for (let i = 0; i < 3; i++) carrier += Math.abs(values[b + ROLL + i] - values[a + ROLL + i]);
    const arm = Math.hypot(
      values[b + X] - values[b + HINGE],
      values[b + X + 1] - values[b + HINGE + 1],
      values[b + X + 2] - values[b + HINGE + 2],
    );
    const own = Math.sqrt(way) + (turn + carrier) * pair.carried.reach + carrier * arm;
    const boom = pair.other.name === this.boom ? Math.abs(swingOf(values, row + 1) - swingOf(values, row)) : 0;
    return own + boom * pair.other.reach;
  }
}

/** Angle of the boom below the carrier's x axis from the place of its tip [rad]. */
function swingOf(values: Float64Array, row: number): number {
  const at = row * SIZE;
  const aft = values[at + HINGE] - values[at + TIP];
  const below = values[at + TIP + 2] - values[at + HINGE + 2];
  return Math.atan2(below, aft) - values[at + ROLL + 1];
}

function bodyOf(name: string, parts: readonly PosedPart[], meshes: readonly Mesh[], about: Axes3 | null): Body {
  const mesh = joinedMesh(meshes);
  const slack = Math.max(...parts.map(({ facetingError }) => facetingError));
  return { name, tree: createTree(mesh), reach: about === null ? 0 : meshRadius(mesh, [...about]), slack };
}
