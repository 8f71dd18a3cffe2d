export { type Dimension, type Similitude, similitude } from "./similitude.ts";
