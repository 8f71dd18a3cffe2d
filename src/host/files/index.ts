export { DEFAULT_MAXIMUM_BYTES, readFile } from "./read.ts";
export { systemCode, systemWords } from "./words.ts";
export { makeFolders, writeFile } from "./write.ts";
