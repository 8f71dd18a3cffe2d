/** Something wrong in a value; `index` counts characters from the start of the value's text. */
export interface Problem {
  readonly message: string;
  readonly allowed?: string;
  readonly index?: number;
  /** Key inside the map form at which it is wrong. */
  readonly key?: string;
}
