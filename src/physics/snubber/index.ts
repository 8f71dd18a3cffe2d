export { equivalentSnubberRate, referToTip, type SnubberLaw } from "./snubber.ts";
export {
  createTangentialPath,
  dynamicStiffness,
  type TangentialPath,
  type TangentialRates,
} from "./tangential-path.ts";
