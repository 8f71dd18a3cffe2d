export { type FlowTable, TableFlow, uniformFlow } from "./table-flow.ts";
