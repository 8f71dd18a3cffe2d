export { eulerFromQuaternion, quaternionFromEuler } from "./euler.ts";
export { rotateToBody, rotateToParent, rotationMatrix } from "./matrix.ts";
export { normaliseQuaternion, quaternionFromRotationVector, quaternionMultiply, quaternionRate } from "./quaternion.ts";
