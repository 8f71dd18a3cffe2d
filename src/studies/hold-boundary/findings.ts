import type { Criterion, FindingDraft } from "../finding/index.ts";
import type { BoundaryAxis, BoundaryMap } from "./types.ts";

const DEGREE_UNIT = "deg";

/** What is said of each map: axis along which the limit is read, with the title of the quantity. */
const READ: readonly {
  readonly map: string;
  readonly along: "x" | "y";
  readonly key: string;
  readonly title: string;
}[] = [
  { map: "bending-snubber", along: "y", key: "snubber", title: "Snubber rate at the tip" },
  { map: "bending-snubber", along: "x", key: "bending", title: "Boom bending stiffness at the tip" },
  { map: "accumulator-snubber", along: "x", key: "accumulator", title: "Accumulator stiffness at the tip" },
  { map: "airspeed-snubber", along: "x", key: "airspeed", title: "Airspeed, EAS," },
  { map: "boomAngle-airspeed", along: "x", key: "boom-angle", title: "Boom angle under load" },
];

const ACCURACY: Criterion = {
  text: "drawn boundaries within 0.1 % of the exact zero",
  sense: "at most",
  limit: 1e-3,
  source: "project criterion",
};

/** Factor from axis unit to that of the finding, and its name. */
function unitOf({ unit }: BoundaryAxis): { readonly factor: number; readonly unit: string } {
  if (unit === "kN/m") return { factor: 1e3, unit: "N/m" };
  if (unit === "kN·s/m") return { factor: 1e3, unit: "N·s/m" };
  return { factor: 1, unit: unit === "deg" ? DEGREE_UNIT : unit };
}

/**
 * Findings of the maps of one condition: for each quantity the limit of stability nearest to the pair's own value, the
 * distance from it over both parameters of a map, and how exact the curves are.
 */
export function boundaryFindings(
  maps: readonly BoundaryMap[],
  id: string,
  criterion: number,
  rests: readonly string[],
): FindingDraft[] {
  const drafts: FindingDraft[] = [];
  for (const { map: mapId, along, key, title } of READ) {
    const map = maps.find((each) => each.id === mapId);
    if (map !== undefined) drafts.push(limitFinding(map, along, `${id}.${key}-limit`, title, criterion, rests));
  }
  const measured = maps.filter(({ distance_1 }) => distance_1 !== null);
  if (measured.length > 0) {
    const nearest = measured.reduce((a, b) => (Math.abs(b.distance_1!) < Math.abs(a.distance_1!) ? b : a));
    const share = 100 * (Math.exp(Math.abs(nearest.distance_1!)) - 1);
    drafts.push({
      id: `${id}.distance`,
      title:
        "Shortest distance of the pair from the limit of stability over two parameters, negative on the unstable side",
      ...{ value: nearest.distance_1, unit: "1", rests },
      note: `natural logarithm of the change, ${share.toFixed(0)} % along the shortest way; over "${nearest.x.label}" and "${nearest.y.label}", mass ${nearest.mass}`,
    });
  }
  const checks = maps.flatMap(({ check }) => (check === null ? [] : [check]));
  if (checks.length > 0) {
    const places = checks.reduce((sum, { places: count }) => sum + count, 0);
    const grid = checks.flatMap(({ gridDistance_1 }) => (gridDistance_1 === null ? [] : [gridDistance_1]));
    const apart =
      grid.length === 0
        ? ""
        : `; the contour of the grid lies up to ${(100 * Math.max(...grid)).toFixed(2)} % away (median of a map)`;
    drafts.push({
      id: `${id}.accuracy`,
      title: "Largest distance of the drawn boundaries from the exact zero, as a share of the parameters",
      ...{
        value: Math.max(...checks.map(({ largestMiss_1 }) => largestMiss_1)),
        unit: "1",
        criterion: ACCURACY,
        rests,
      },
      note: `${places} places, the zero by bracketed root finding along the normal${apart}`,
    });
  }
  return drafts;
}

function limitFinding(
  map: BoundaryMap,
  along: "x" | "y",
  id: string,
  title: string,
  criterion: number,
  rests: readonly string[],
): FindingDraft {
  const axis = map[along];
  const own = map.at[along];
  const { factor, unit } = unitOf(axis);
  const at = (level: number) => map.crossings.find((each) => each.level === level && each.along === along);
  const words = (level: number): string => {
    const { below = null, above = null } = at(level) ?? {};
    const parts = [
      ...(below === null ? [] : [`${show(below)} ${axis.unit} below`]),
      ...(above === null ? [] : [`${show(above)} ${axis.unit} above`]),
    ];
    return parts.length === 0 ? "none in the searched range" : parts.join(" and ");
  };
  const other = map[along === "x" ? "y" : "x"];
  const place = map.at[along === "x" ? "y" : "x"];
  const quantity = `${title} at the limit of stability nearest to the pair's own ${show(own)} ${axis.unit}, longitudinal, mass ${map.mass}`;
  if (place < other.from * (1 - 1e-9) || place > other.to * (1 + 1e-9)) {
    const note = `the pair has a ${lower(other.label)} of ${show(place)} ${other.unit}, and ${show(other.from)} to ${show(other.to)} ${other.unit} was searched`;
    return { id, title: quantity, value: null, unit, rests, verdict: "not analysed", note };
  }
  const found = at(0);
  const sides = [found?.below, found?.above].filter((value) => value !== null && value !== undefined);
  const away = (value: number): number => Math.abs(axis.scale === "log" ? Math.log(value / own) : value - own);
  const nearest = sides.length === 0 ? null : sides.reduce((a, b) => (away(b) < away(a) ? b : a));
  return {
    id,
    title: quantity,
    ...{ value: nearest === null ? null : nearest * factor, unit, rests },
    verdict: "information",
    note: `ζ = 0: ${words(0)}; ζ = ${criterion}: ${words(criterion)}; searched ${show(axis.from)} to ${show(axis.to)} ${axis.unit}; the pair is on the ${map.at.worst < 0 ? "unstable" : "stable"} side`,
  };
}

const lower = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);

function show(value: number): string {
  return Number(value.toPrecision(5)).toString();
}
