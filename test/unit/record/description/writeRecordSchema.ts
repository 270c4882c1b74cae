/** Writes lib/record/description/record.schema.json anew: `npx tsx test/unit/record/description/writeRecordSchema.ts`. */
import { writeFileSync } from "node:fs";
import { recordSchema } from "../../../../lib/record/description/recordSchema.js";

writeFileSync(new URL("../../../../lib/record/description/record.schema.json", import.meta.url), `${JSON.stringify(recordSchema(), null, 1)}\n`);
