/** Fixture: outlines of a made-up pair at any pose by short formulas. Not a design and not physics. */
import type {
  FitPart,
  Line2,
  PartOwner,
  PoseName,
  PosePicture,
  Silhouette,
  Station3,
} from "../../studies/fit/types.ts";

export const FIXTURE_STOWED = 14;
export const FIXTURE_EXTENDED = 52;
const HINGE: Station3 = [10.4, 0, 2.15];
const BOOM = 5.6;
const RADIANS = Math.PI / 180;

/** Socket at a boom angle, carrier stations. */
export function fixtureSocket(boomAngle: number): Station3 {
  return [HINGE[0] + BOOM * Math.cos(boomAngle * RADIANS), 0, HINGE[2] - BOOM * Math.sin(boomAngle * RADIANS)];
}

/** Pitch of the made-up carried aircraft, nose up. */
export function fixturePitch(boomAngle: number): number {
  return ((boomAngle - FIXTURE_STOWED) / (FIXTURE_EXTENDED - FIXTURE_STOWED)) ** 0.8;
}

/** A point of the carried aircraft given from its socket (aft, right, up), in carrier stations. */
export function fixtureCarriedPoint(boomAngle: number, [aft, right, up]: Station3): Station3 {
  const [fs, , wl] = fixtureSocket(boomAngle);
  const pitch = fixturePitch(boomAngle) * RADIANS;
  return [fs + aft * Math.cos(pitch) + up * Math.sin(pitch), right, wl + up * Math.cos(pitch) - aft * Math.sin(pitch)];
}

type Pair2 = readonly [number, number];

function ring(count: number, at: (turn: number) => Pair2): Pair2[] {
  return Array.from({ length: count }, (_, i) => at((2 * Math.PI * i) / count));
}

function ellipse([x, y]: Pair2, a: number, b: number, count = 48): Pair2[] {
  return ring(count, (turn) => [x + a * Math.cos(turn), y + b * Math.sin(turn)]);
}

function box([x1, y1]: Pair2, [x2, y2]: Pair2): Pair2[] {
  return [
    [x1, y1],
    [x2, y1],
    [x2, y2],
    [x1, y2],
  ];
}

/** A bar with square ends. */
function bar([x1, y1]: Pair2, [x2, y2]: Pair2, half: number): Pair2[] {
  const length = Math.hypot(x2 - x1, y2 - y1);
  const [nx, ny] = [(-half * (y2 - y1)) / length, (half * (x2 - x1)) / length];
  return [
    [x1 + nx, y1 + ny],
    [x2 + nx, y2 + ny],
    [x2 - nx, y2 - ny],
    [x1 - nx, y1 - ny],
  ];
}

interface Drawn {
  readonly part: string;
  readonly owner: PartOwner;
  readonly zone?: boolean;
  readonly elevation?: readonly Line2[];
  readonly plan?: readonly Line2[];
  readonly section?: readonly Line2[];
}

const mirrored = (outline: Line2): Line2[] => [outline, outline.map(([x, y]): Pair2 => [x, -y])];
const across = (outline: Line2): Line2[] => [outline, outline.map(([x, y]): Pair2 => [-x, y])];

function carrierParts(): Drawn[] {
  return [
    {
      part: "carrier.fuselage",
      owner: "carrier",
      elevation: [ellipse([15.5, 2.1], 15.5, 2.1, 96)],
      plan: [ellipse([15.5, 0], 15.5, 1.9, 96)],
      section: [ellipse([0, 2.1], 1.9, 2.1, 64)],
    },
    {
      part: "carrier.wing",
      owner: "carrier",
      elevation: [ellipse([16.9, 4.3], 2.4, 0.3)],
      plan: mirrored([
        [14.6, 1.8],
        [15.6, 19],
        [18.0, 19],
        [19.4, 1.8],
      ]),
      section: across(box([1.8, 4.1], [19, 4.5])),
    },
    {
      part: "carrier.bay",
      owner: "carrier",
      elevation: [box([13.4, 0], [21.2, 1.45])],
      plan: [box([13.4, -1.05], [21.2, 1.05])],
      section: [box([-1.05, 0], [1.05, 1.45])],
    },
    {
      part: "carrier.propellerInnerRight",
      owner: "carrier",
      elevation: [box([12.25, 0.55], [12.55, 4.65])],
      plan: [box([12.25, 2.45], [12.55, 6.55])],
    },
    {
      part: "carrier.exhaustRight",
      owner: "carrier",
      zone: true,
      elevation: [
        [
          [18.2, 1.9],
          [23.5, 1.3],
          [23.5, 3.1],
          [18.2, 2.4],
        ],
      ],
      plan: [
        [
          [18.2, 4.2],
          [23.5, 3.6],
          [23.5, 5.4],
          [18.2, 4.8],
        ],
      ],
    },
  ];
}

function gearParts(): Drawn[] {
  return (["Right", "Left"] as const).flatMap((side): Drawn[] => {
    const sign = side === "Right" ? 1 : -1;
    const plan = (outline: Line2): Line2 => outline.map(([x, y]): Pair2 => [x, sign * y]);
    const section = (outline: Line2): Line2 => outline.map(([x, y]): Pair2 => [sign * x, y]);
    return [
      {
        part: `mainGear${side}.leg`,
        owner: "gear",
        elevation: [bar([18.6, 1.9], [18.6, -1.0], 0.11)],
        plan: [plan(ellipse([18.6, 4.5], 0.11, 0.11, 24))],
        section: [section(bar([4.5, 1.9], [4.5, -1.0], 0.11))],
      },
      {
        part: `mainGear${side}.wheel`,
        owner: "gear",
        elevation: [ellipse([18.6, -1.05], 0.55, 0.55)],
        plan: [plan(box([18.05, 4.3], [19.15, 4.7]))],
        section: [section(box([4.3, -1.6], [4.7, -0.5]))],
      },
      {
        part: `mainDoor${side}.door`,
        owner: "gear",
        elevation: [box([17.3, -0.1], [19.6, 0.9])],
        plan: [plan(box([17.3, 3.86], [19.6, 3.92]))],
        section: [section(box([3.86, -0.1], [3.92, 0.9]))],
      },
    ];
  });
}

/** Outlines of the carried aircraft; points from the socket. */
function carriedParts(angle: number): Drawn[] {
  const side = (outline: readonly Pair2[]): Line2 =>
    outline.map(([aft, up]): Pair2 => {
      const [fs, , wl] = fixtureCarriedPoint(angle, [aft, 0, up]);
      return [fs, wl];
    });
  const above = (outline: readonly Pair2[]): Line2 =>
    outline.map(([aft, right]): Pair2 => [fixtureCarriedPoint(angle, [aft, 0, 0])[0], right]);
  const behind = (outline: readonly Pair2[]): Line2 =>
    outline.map(([right, up]): Pair2 => [right, fixtureCarriedPoint(angle, [2.2, 0, up])[2]]);
  return [
    {
      part: "carried.fuselage",
      owner: "carried",
      elevation: [side(ellipse([2.4, -0.85], 4.1, 0.55))],
      plan: [above(ellipse([2.4, 0], 4.1, 0.5))],
      section: [behind(ellipse([0, -0.85], 0.5, 0.55))],
    },
    {
      part: "carried.wing",
      owner: "carried",
      elevation: [side(ellipse([2.3, -0.85], 0.7, 0.08))],
      plan: mirrored(
        above([
          [1.5, 0.4],
          [2.1, 3.7],
          [2.8, 3.7],
          [3.1, 0.4],
        ]),
      ),
      section: across(behind(box([0.4, -0.92], [3.7, -0.78]))),
    },
    {
      part: "carried.tail",
      owner: "carried",
      elevation: [
        side([
          [5.2, -0.9],
          [6.5, -0.9],
          [6.2, -1.6],
          [5.7, -1.6],
        ]),
      ],
      plan: mirrored(
        above([
          [5.2, 0.3],
          [5.7, 1.6],
          [6.2, 1.6],
          [6.4, 0.3],
        ]),
      ),
    },
    {
      part: "carried.probe",
      owner: "carried",
      elevation: [side(bar([0, 0], [0.1, -0.45], 0.06))],
      plan: [above(ellipse([0.05, 0], 0.1, 0.06, 24))],
    },
  ];
}

function mechanismParts(angle: number): Drawn[] {
  const [fs, , wl] = fixtureSocket(angle);
  const pin = fixtureCarriedPoint(angle, [2.95, 0, -0.23]);
  return [
    {
      part: "boom.leg",
      owner: "mechanism",
      elevation: [bar([HINGE[0], HINGE[2]], [fs, wl], 0.09)],
      plan: mirrored(bar([HINGE[0], 0.4], [fs, 0.05], 0.08)),
    },
    {
      part: "aftYoke.leg",
      owner: "mechanism",
      elevation: [bar([13.243, 1.92], [pin[0], pin[2]], 0.08)],
      plan: mirrored(bar([13.243, 0.5], [pin[0], 0.55], 0.07)),
      section: across(box([0.48, pin[2]], [0.62, pin[2] + 0.2])),
    },
  ];
}

function silhouette({ part, owner, zone = false, elevation = [], plan = [], section = [] }: Drawn): Silhouette {
  return { part, owner, zone, elevation, plan, section };
}

function drawnAt(boomAngle: number): Drawn[] {
  return [...carrierParts(), ...gearParts(), ...carriedParts(boomAngle), ...mechanismParts(boomAngle)];
}

export function fixturePictures(): PosePicture[] {
  const poses: readonly (readonly [PoseName, number])[] = [
    ["stowed", FIXTURE_STOWED],
    ["mid", 33],
    ["extended", FIXTURE_EXTENDED],
  ];
  return poses.map(([pose, boomAngle]) => ({
    pose,
    boomAngle_deg: boomAngle,
    sectionFS_m: fixtureCarriedPoint(boomAngle, [2.2, 0, -0.85])[0],
    parts: drawnAt(boomAngle).map(silhouette),
  }));
}

export function fixtureParts(): FitPart[] {
  return drawnAt(FIXTURE_STOWED).map(({ part, owner, zone = false }) => ({
    name: part,
    body: part.split(".")[0]!,
    owner,
    group: owner === "gear" ? "gear" : null,
    zone,
    triangles: 640,
    facetingError_m: 0.002,
    faults: [],
  }));
}
