export { openRecord } from "./openRecord.js";
export { writeBeside } from "./writeBeside.js";
export { writeGrid } from "./writeGrid.js";
