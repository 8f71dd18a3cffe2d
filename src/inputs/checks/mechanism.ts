import type { Context } from "./context.ts";
import { keysAt, quantityAt, report, spell, tableAt } from "./context.ts";
import { checkHydraulics } from "./hydraulics.ts";

const DEGREE = Math.PI / 180;
/** Slack for angles that were written in another unit. */
const SLACK = 1e-9;

const degrees = (low: number, high: number) => `${spell(low / DEGREE)} deg to ${spell(high / DEGREE)} deg`;

/** Boom angles against the travel, the table of the jack against the angles, and where a referred value holds. */
export function checkMechanism(context: Context): void {
  const boom = ["mechanism", "boom", "angle"];
  const stowed = quantityAt(context, [...boom, "stowed"])?.si;
  const extended = quantityAt(context, [...boom, "extended"])?.si;
  if (stowed !== undefined && extended !== undefined) {
    if (!(stowed < extended)) {
      const allowed = `more than ${spell(stowed / DEGREE)} deg below the horizontal`;
      report(context, [...boom, "extended"], "the boom is not lower extended than stowed", allowed);
    } else checkTravel(context, stowed, extended);
  }
  checkRatio(context);
  checkBoomSource(context);
  checkOwnWeight(context);
  checkAftPins(context);
  checkHydraulics(context);
}

/** Latched pins need their places and the drawn mechanism with its yoke, which sets the attitude at three points. */
function checkAftPins(context: Context): void {
  const path = ["mechanism", "aftPins"];
  if (keysAt(context, path).length === 0) return;
  const points = keysAt(context, ["carried", "points"]);
  for (const name of ["aftPinLeft", "aftPinRight"]) {
    if (!points.includes(name)) report(context, ["carried", "points", name], "is missing: mechanism.aftPins needs it");
  }
  const joints = ["mechanism", "linkage", "joints"];
  const drawn = keysAt(context, joints);
  if (drawn.length === 0) {
    report(
      context,
      path,
      "needs mechanism.linkage, which sets the attitude at three points",
      "a drawn mechanism with a yoke",
    );
  }
}

/** Stiffness and tip mass come from the pair or from sections; the ratio from a table or from the linkage. */
function checkBoomSource(context: Context): void {
  const boom = ["mechanism", "boom"];
  const keys = keysAt(context, boom);
  if (keys.length === 0) return;
  const drawn = keysAt(context, ["mechanism", "linkage"]).length > 0;
  if (keys.includes("structure") && !drawn) {
    report(
      context,
      [...boom, "structure"],
      "sections need mechanism.linkage, which says where the jack holds the boom",
    );
  }
  const modes = quantityAt(context, [...boom, "structure", "modes"])?.si;
  const tip = ["bending", "axial", "lateral", "effectiveTipMass"];
  if (modes !== undefined && !Number.isInteger(modes)) {
    report(context, [...boom, "structure", "modes"], "is not a whole number", "a whole number from 0 to 6");
  }
  const measured = tip.filter((key) => keys.includes(key));
  if (modes !== undefined && modes > 0 && measured.length > 0) {
    const message = `bending motions need every value at the tip from the sections, but the pair states ${measured.join(", ")}`;
    report(context, [...boom, "structure", "modes"], message, `0, or mechanism.boom without ${measured.join(", ")}`);
  }
  for (const key of tip) {
    if (keys.includes(key) || keys.includes("structure")) continue;
    const allowed = "a measured value, or mechanism.boom.structure with its sections";
    report(context, [...boom, key], "is missing", allowed);
  }
  if (!drawn && !keysAt(context, ["mechanism", "jack"]).includes("ratio")) {
    const allowed = "a table { file: tip-per-jack.csv }, or mechanism.linkage";
    report(context, ["mechanism", "jack", "ratio"], "is missing", allowed);
  }
}

/** The boom's centre of mass lies on the boom. */
function checkOwnWeight(context: Context): void {
  const length = quantityAt(context, ["mechanism", "boom", "length"])?.si;
  const path = ["mechanism", "boom", "ownWeight", "centreFromHinge"];
  const centre = quantityAt(context, path)?.si;
  if (length === undefined || centre === undefined || centre <= length * (1 + SLACK)) return;
  report(context, path, "the centre of mass lies beyond the end of the boom", `up to ${spell(length)} m`);
}

function checkTravel(context: Context, stowed: number, extended: number): void {
  const paths = [
    ["mechanism", "accumulator", "atBoomAngle"],
    ["mechanism", "snubber", "atBoomAngle"],
    ...keysAt(context, ["conditions"]).map((name) => ["conditions", name, "boomAngle"]),
  ];
  for (const path of paths) {
    const angle = quantityAt(context, path)?.si;
    if (angle === undefined || (angle >= stowed - SLACK && angle <= extended + SLACK)) continue;
    report(context, path, "the boom angle lies outside stowed to extended", degrees(stowed, extended));
  }
}

/** The table of the jack must cover every boom angle that is asked for. */
function checkRatio(context: Context): void {
  const table = tableAt(context, ["mechanism", "jack", "ratio"]);
  const angles = table?.columns.boomAngle;
  if (table === undefined || angles === undefined || table.rows === 0) return;
  const low = angles[0]!;
  const high = angles[table.rows - 1]!;
  const travel = ["mechanism", "boom", "angle"];
  const sweep = ["studies", "hold", "sweeps", "boomAngle"];
  const paths = [
    [...travel, "stowed"],
    [...travel, "extended"],
    [...sweep, "from"],
    [...sweep, "to"],
    ...keysAt(context, ["conditions"]).map((name) => ["conditions", name, "boomAngle"]),
  ];
  for (const path of paths) {
    const angle = quantityAt(context, path)?.si;
    if (angle === undefined || (angle >= low - SLACK && angle <= high + SLACK)) continue;
    if (context.issues.some((issue) => issue.path === path.join("."))) continue;
    report(context, path, `the table ${table.file} does not reach this boom angle`, degrees(low, high));
  }
}
