import { exportTides } from "../../answers/exportTides.js";
import { displaySymbol } from "../../ground/display.js";
import { type TidesAnswer, tidesOf } from "../../answers/tidesOf.js";
import { writeBeside } from "../disk/writeBeside.js";
import { type RecordCommand, wrongUse } from "./runRecords.js";

/** `airtides tides`: the tide of every place, or its coefficients for another program. */
export function tidesCommand(options: { readonly lines?: readonly string[]; readonly export?: "c" | "csv" | "json"; readonly out?: string; readonly json?: boolean }): RecordCommand<TidesAnswer> {
  const { export: format, out } = options;
  if (out !== undefined && format === undefined) throw wrongUse("--out must stand with --export c, csv or json (got no --export)");
  return {
    answer: (record) => tidesOf(record, { lines: options.lines ?? [] }),
    text: (answer, columns) => answer[displaySymbol](columns)["text/plain"],
    ...(format === undefined
      ? {}
      : {
          instead: async (answer: TidesAnswer): Promise<string> => {
            const text = exportTides(answer, format);
            if (out === undefined) return text;
            const bytes = await writeBeside(out, text);
            return `wrote ${out} (${bytes} bytes)\n`;
          },
        }),
  };
}
