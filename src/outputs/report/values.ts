/** Values of findings and limits as printed in the report. */
import type { Finding } from "../../studies/finding/types.ts";
import { formatPair, formatQuantity } from "../numbers/index.ts";

export function valueText({ value, unit, criterion }: Finding): string {
  if (value === null) return "none";
  return criterion === undefined ? formatQuantity(value, unit) : formatPair(value, criterion.limit, unit).value;
}

export function limitText({ value, unit, criterion }: Finding): string {
  if (criterion === undefined) return "–";
  const { sense, limit } = criterion;
  return `${sense} ${formatPair(value ?? limit, limit, unit).limit}`;
}
