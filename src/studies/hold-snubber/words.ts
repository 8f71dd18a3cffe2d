/** Numbers in the notes of findings. */
export const percent = (share: number): string => `${(100 * share).toFixed(Math.abs(share) < 0.1 ? 2 : 1)} %`;
export const kilo = (value: number): string => (value / 1e3).toPrecision(4);
export const milli = (value: number): string => (value * 1e3).toPrecision(3);
export const celsius = (value: number): string => `${value.toFixed(0)} °C`;
