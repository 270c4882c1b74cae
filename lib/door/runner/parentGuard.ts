import { watchParent } from "../kernel/parentWatch.js";

// A thread of the notebook's process: nothing imports it. No cell can hold it up, so that no process outlives the command.
watchParent(() => process.kill(process.pid, "SIGKILL"));
