export { openRecord } from "./openRecord.js";
export { writeBeside } from "./writeBeside.js";
