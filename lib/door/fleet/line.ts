import { RecordError } from "../../ground/complaint.js";
import { failureLine, recordLine, requireAnswering } from "./recordLine.js";

// `node dist/door/fleet/line.js COMMAND RECORD`: one JSON line, a fault of the record in its place. The exit code is not the record's:
// it is 0 when the line is final, 2 for wrong use, 3 when another attempt may do better (GNU parallel's --retries).
const [command, path, ...more] = process.argv.slice(2);
try {
  if (path === undefined || more.length > 0) throw new RecordError(`line.js must be given COMMAND and one RECORD (got ${process.argv.length - 2} words)`, "description");
  const name = requireAnswering(command);
  try {
    process.stdout.write(`${(await recordLine(name, path)).line}\n`);
  } catch (error) {
    process.stdout.write(`${failureLine(path, `${name} of ${path} broke off: ${(error as Error).message}`)}\n`);
    process.exitCode = 3;
  }
} catch (error) {
  if (!(error instanceof RecordError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 2;
}
