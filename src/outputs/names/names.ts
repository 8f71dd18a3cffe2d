/** Names of parts and pairs as people read them. */

/** `mainDoorRight` → `main door right`. */
export function wordsOf(name: string): string {
  return name
    .replace(/([a-z0-9])([A-Z])/g, "$1 $2")
    .replace(/[_-]+/g, " ")
    .toLowerCase()
    .trim();
}

/** `carrier.bay` → `carrier bay`, `mainDoorRight.door` → `main door right`, `boom.leg` → `boom leg`. */
export function partName(part: string): string {
  const dot = part.indexOf(".");
  if (dot < 0) return wordsOf(part);
  const body = wordsOf(part.slice(0, dot));
  const shape = wordsOf(part.slice(dot + 1));
  return shape === "" || body.split(" ").includes(shape) ? body : `${body} ${shape}`;
}

/** A part's name without its side, so that mirrored parts share one: `main door`. */
export function sidelessName(part: string): string {
  return partName(part)
    .split(" ")
    .filter((word) => word !== "right" && word !== "left")
    .join(" ");
}

/** `boom leg – carried fuselage, either side`: a pair and its mirrored one that came out alike. */
export function mirroredPairName([a, b]: readonly [string, string]): string {
  return `${sidelessName(a)} – ${sidelessName(b)}, either side`;
}

/** `carrier bay – carried tail`. */
export function pairName([a, b]: readonly [string, string]): string {
  return `${partName(a)} – ${partName(b)}`;
}

/** A path of the pair without what every reader knows: `carried.airloads.roll.Clbeta` → `roll.Clbeta`. */
export function shortPath(path: string): string {
  return path.replace(/^(carried\.(massStates\.|airloads\.)?|mechanism\.)/, "");
}
