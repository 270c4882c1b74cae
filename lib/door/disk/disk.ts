export { openRecord } from "./openRecord.js";
export { sampleLog } from "./sampleLog.js";
export { writeBeside } from "./writeBeside.js";
export { writeGrid } from "./writeGrid.js";
