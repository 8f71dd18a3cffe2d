import { createPose, type Mesh, type Pose } from "../../physics/shapes/index.ts";
import { carried, DEGREE, toStation } from "./frames.ts";
import { fractionAt, type MovingPart, type Scene } from "./motion.ts";
import type { Line2, PoseName, PosePicture, Silhouette, Station3 } from "./types.ts";

/** Corners of an outline; more would not show in a picture. */
const MOST = 80;

/**
 * Outlines of every part at one pose, groups where they stand: seen from the side, from above, and cut.
 *
 * A fuselage shows its outermost line from end to end, everything else the convex hull of its pieces; the cut is exact.
 *
 * @param scene      all parts
 * @param pose       its name
 * @param u          share of the stroke
 * @param sectionFS  station of the cut [m]
 * @verified silhouettes.test.ts
 */
export function posePicture(scene: Scene, pose: PoseName, u: number, sectionFS: number): PosePicture {
  return {
    pose,
    boomAngle_deg: scene.angleAt(u) / DEGREE,
    sectionFS_m: sectionFS,
    parts: scene.parts.map((moving) => silhouette(scene, moving, u, sectionFS)),
  };
}

function silhouette(scene: Scene, moving: MovingPart, u: number, sectionFS: number): Silhouette {
  const pose = createPose();
  moving.poseAt(u, fractionAt(scene, moving, u), pose);
  const { part } = moving;
  const flat = (upward: 1 | 2) =>
    part.pieces.map((piece) => {
      const points = stationsOf(piece, pose);
      const line =
        part.kind === "fuselage" ? profile(piece, pose, upward) : hull(points.map((p) => [p[0], p[upward]] as const));
      return rounded(line);
    });
  return {
    ...{ part: part.name, owner: part.owner, zone: part.zone },
    elevation: flat(2),
    plan: flat(1),
    section: part.pieces.flatMap((piece) => cut(piece, pose, sectionFS).map(rounded)),
  };
}

function stationsOf(mesh: Mesh, pose: Pose): Station3[] {
  const { vertices: v } = mesh;
  return Array.from({ length: v.length / 3 }, (_, i) =>
    toStation(carried(pose, [v[3 * i], v[3 * i + 1], v[3 * i + 2]])),
  );
}

/** To 0.1 mm, closed, and thinned to what a picture shows. */
function rounded(line: Line2): Line2 {
  const stride = Math.max(1, Math.ceil(line.length / MOST));
  return line.filter((_, i) => i % stride === 0).map(([x, y]) => [round(x), round(y)] as const);
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4 + 0;
}

/** Outline of a ringed body: at each of its stations the outermost corners, in its own axes, then carried along. */
function profile(mesh: Mesh, pose: Pose, upward: 1 | 2): Line2 {
  const rings = new Map<number, { low: number; high: number }>();
  const { vertices: v } = mesh;
  for (let i = 0; i < v.length; i += 3) {
    const x = Math.round(v[i] * 1e6) / 1e6;
    const ring = rings.get(x) ?? { low: i, high: i };
    if (v[i + upward] < v[ring.low + upward]) ring.low = i;
    if (v[i + upward] > v[ring.high + upward]) ring.high = i;
    rings.set(x, ring);
  }
  const ordered = [...rings].sort((a, b) => a[0] - b[0]).map(([, ring]) => ring);
  const corners = [...ordered.map((ring) => ring.low), ...ordered.reverse().map((ring) => ring.high)];
  return corners.map((i) => {
    const at = toStation(carried(pose, [v[i], v[i + 1], v[i + 2]]));
    return [at[0], at[upward]] as const;
  });
}

/** Convex hull, counter-clockwise. */
export function hull(points: Line2): Line2 {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: Line2): (readonly [number, number])[] => {
    const chain: (readonly [number, number])[] = [];
    for (const point of list) {
      while (chain.length > 1 && turn(chain[chain.length - 2], chain[chain.length - 1], point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

function turn(a: readonly [number, number], b: readonly [number, number], c: readonly [number, number]): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/**
 * Cut of a closed surface with a plane FS = constant, as closed lines in BL and WL.
 *
 * Each triangle with corners on both sides gives one piece between two of its edges; pieces that share an edge join. Corners on the plane
 * count as behind it.
 */
export function cut(mesh: Mesh, pose: Pose, sectionFS: number): Line2[] {
  const points = stationsOf(mesh, pose);
  const count = points.length;
  const edge = (a: number, b: number): number => Math.min(a, b) * count + Math.max(a, b);
  const next = new Map<number, number>();
  const place = new Map<number, readonly [number, number]>();
  const { triangles: t } = mesh;
  const behind = points.map((point) => point[0] >= sectionFS);
  for (let i = 0; i < t.length; i += 3) {
    let [enters, leaves] = [-1, -1];
    for (let k = 0; k < 3; k++) {
      const [a, b] = [t[i + k], t[i + ((k + 1) % 3)]];
      if (behind[a] === behind[b]) continue;
      const key = edge(a, b);
      const share = (sectionFS - points[a][0]) / (points[b][0] - points[a][0]);
      place.set(key, [
        points[a][1] + share * (points[b][1] - points[a][1]),
        points[a][2] + share * (points[b][2] - points[a][2]),
      ]);
      if (behind[b]) enters = key;
      else leaves = key;
    }
    if (enters >= 0) next.set(enters, leaves);
  }
  const lines: Line2[] = [];
  for (const start of [...next.keys()]) {
    const line: (readonly [number, number])[] = [];
    for (let at: number | undefined = start; at !== undefined && next.has(at); ) {
      const here = place.get(at);
      if (here !== undefined) line.push(here);
      const to = next.get(at);
      next.delete(at);
      at = to;
    }
    if (line.length > 2) lines.push(line);
  }
  return lines;
}
