export { createJacobianWorkspace, type JacobianWorkspace, jacobian, type VectorFunction } from "./jacobian.ts";
