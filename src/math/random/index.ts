export { philoxBlock } from "./philox.ts";
export { RandomStream } from "./stream.ts";
