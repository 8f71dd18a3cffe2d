/** Limits that keep a hostile or mistaken file from taking the machine down. */
export const LIMITS = {
  /** Bytes of one YAML file. */
  yamlBytes: 4 * 1024 * 1024,
  /** Bytes of one CSV file. */
  csvBytes: 64 * 1024 * 1024,
  /** Bytes of one mesh file. */
  meshBytes: 256 * 1024 * 1024,
  /** Maps and lists inside each other. */
  depth: 40,
  /** Values, keys and lists of one file after every alias has been followed. */
  nodes: 20_000,
  /** Files read through `include`. */
  includes: 100,
  /** Variants of one pair. */
  variants: 100,
  /** Problems that are listed. */
  issues: 1000,
} as const;

/** `4 MiB`, `200 bytes`. */
export function spellBytes(bytes: number): string {
  const mebi = bytes / (1024 * 1024);
  return mebi >= 1 ? `${Math.round(mebi * 10) / 10} MiB` : `${bytes} bytes`;
}
