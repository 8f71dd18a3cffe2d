/** The hooked pair in rough air: loads and motions by turbulence and by discrete gusts. */
export { type GustSource, gustAir } from "./gust-air.ts";
export { type GustPeak, type GustSearch, gustPeaks, searchGusts } from "./gust-search.ts";
export { type GustModel, gustModel } from "./linear-model.ts";
export { OUTPUT_COUNT, OUTPUTS, type OutputKey, OutputMeter } from "./outputs.ts";
export { type SimulatedGusts, simulateGusts } from "./simulate.ts";
export { ResponseSpectra, spectralResponse } from "./spectral.ts";
export { joinFilter, type StationaryResponse, stationaryResponse } from "./stationary.ts";
