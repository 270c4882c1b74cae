import { colorPairs } from "./darkColors.js";
import { drawIds, drawScript } from "./drawScript.js";
import { drawingLibrary } from "./drawingLibrary.js";
import type { PageParts } from "./pageDocument.js";

/**
 * What a page carries for its figures beside its text: their descriptions, the dark colors, one packed drawing library and
 * the script that draws when touched. A page without figures carries the script alone.
 *
 * @param descriptions JSON of data, layout and config, by the id that the figure's `data-figure` names
 */
export function carriedFigures(descriptions: ReadonlyMap<string, string>): Pick<PageParts, "data" | "scripts" | "laterScripts"> {
  if (descriptions.size === 0) return { scripts: [drawScript] };
  const library = drawingLibrary();
  return {
    data: [
      ...[...descriptions].map(([id, text]) => ({ id, type: "application/json", text })),
      { id: drawIds.colors, type: "application/json", text: JSON.stringify(colorPairs()) },
      { id: drawIds.library, type: "application/gzip", text: library.packed },
    ],
    scripts: [drawScript],
    laterScripts: [`'${library.hash}'`],
  };
}
