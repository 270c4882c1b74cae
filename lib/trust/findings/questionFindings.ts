import type { AirRecord } from "../../record/airRecord.js";
import { consequence, type Finding, type LaterCommand } from "./finding.js";

/** What an unanswered question leaves a guess, by the end of its path, and whose numbers would mean something else. */
const kinds: readonly { readonly path: RegExp; readonly what: string; readonly commands: readonly LaterCommand[] }[] = [
  { path: /\.format$/, what: "the order of day, month and year", commands: ["tides", "swings", "indoors", "climate"] },
  { path: /\.zone$/, what: "the zone of the times", commands: ["tides", "indoors", "climate"] },
  { path: /\.unit$/, what: "the unit of a column", commands: ["tides", "swings", "indoors", "climate"] },
  { path: /\.quantity$/, what: "what a column holds", commands: ["tides", "swings", "indoors", "climate"] },
  { path: /\.exposure$/, what: "what stands outside and what inside", commands: ["indoors"] },
];

/**
 * Questions of a drafted description that change what the numbers mean, as long as they are not answered: one finding a kind.
 *
 * Title, site and sampling are asked too, but no number reads otherwise by them: without a site there is no tide, and who averages says
 * so to move it by half an average.
 *
 * @param record any record
 * @source limits of this project
 */
export function questionFindings({ questions = [] }: AirRecord): Finding[] {
  return kinds.flatMap(({ path, what, commands }): Finding[] => {
    const open = questions.filter((q) => path.test(q.path)).map((q) => q.path);
    if (open.length === 0) return [];
    return [
      {
        weight: 1,
        says: `${what} is a guess: the description asks for it and has no answer yet (${open.join(", ")})`,
        remedy: 'write the answer where the path says, or, where the draft is right, take the question out of "questions"',
        consequences: consequence(commands, "note", `${what} is a guess until the description answers it`),
      },
    ];
  });
}
