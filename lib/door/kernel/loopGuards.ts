import { applyEdits, type Edit, type EditedText } from "./edits.js";
import { functionKinds } from "./tidy.js";
import type { Parser, Syntax } from "./syntax.js";

const loops = ["ForStatement", "ForInStatement", "ForOfStatement", "WhileStatement", "DoStatement"];
const head = "(async function () {";

/** A loop that awaits looks every time, any other every 4096th time: looking costs more than a short body. */
const everyTime = "$airtidesCheck();";
const sometimes = "if (($airtidesTicks = ($airtidesTicks + 1) & 4095) === 0) $airtidesCheck();";

/**
 * Puts a look at the interrupt flag into the loops of asynchronous code: once a cell has awaited, a signal can no longer
 * break it.
 *
 * Lines stay as they are; `$airtidesCheck` comes from `__tslab__.check`.
 *
 * @param parser        the compiler's parser
 * @param script        compiled JavaScript of a cell
 * @param awaitsOnTop   true when the cell itself awaits, so that loops outside functions are asynchronous too
 */
export function guardLoops(parser: Parser, script: string, awaitsOnTop: boolean): EditedText {
  if (!/\b(?:for|while|do)\b/.test(script) || !(awaitsOnTop || /\basync\b/.test(script))) return { text: script, back: (offset) => offset };
  // Inside an async function `await` is read as such; offsets are moved back by the head's length.
  const tree = parser.parse(`${head}${script}\n})`, "js");
  const isLoop = new Set(loops.map((name) => parser.kind(name)));
  const isFunction = functionKinds(parser);
  const asyncKeyword = parser.kind("AsyncKeyword");
  const awaiting = parser.kind("AwaitExpression");
  const block = parser.kind("Block");
  const edits: Edit[] = [];

  const awaits = (node: Syntax): boolean => node.kind === awaiting || node.awaitModifier !== undefined || parser.someChild(node, (child) => !isFunction.has(child.kind) && awaits(child));
  const visit = (node: Syntax, isAsync: boolean, depth: number): void => {
    let inside = isAsync;
    let below = depth;
    if (isFunction.has(node.kind)) {
      inside = depth === 0 ? awaitsOnTop : (node.modifiers ?? []).some((m) => m.kind === asyncKeyword);
      below = depth + 1;
    }
    if (inside && isLoop.has(node.kind) && node.statement !== undefined) {
      const body = node.statement;
      const guard = awaits(node) ? everyTime : sometimes;
      const start = body.getStart(tree) - head.length;
      if (body.kind === block) edits.push({ at: start + 1, remove: 0, insert: ` ${guard}` });
      else edits.push({ at: start, remove: 0, insert: `{ ${guard} ` }, { at: body.end - head.length, remove: 0, insert: " }" });
    }
    parser.someChild(node, (child) => {
      visit(child, inside, below);
      return false;
    });
  };
  visit(tree, false, 0);
  if (edits.length === 0) return { text: script, back: (offset) => offset };
  return applyEdits(script, [{ at: 0, remove: 0, insert: "let $airtidesTicks = 0; const $airtidesCheck = __tslab__.check; " }, ...edits]);
}
