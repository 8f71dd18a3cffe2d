/** What text and report both say about a fit. */
export { clearanceMatrix, judgedClearance, lowerAt, type MatrixRow, marginOf, millimetres } from "./matrix.ts";
export {
  cellShares,
  type HeldRow,
  heldRows,
  leftOutWords,
  mapName,
  mayMove,
  numbered,
  pathSummary,
  refusal,
  regionCount,
  standing,
  telling,
  travelEnds,
  zoneStretches,
} from "./order.ts";
export { strokeRows } from "./stroke-rows.ts";
