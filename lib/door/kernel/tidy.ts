import { applyEdits, type Edit, type EditedText } from "./edits.js";
import { type Parser, type Syntax, type SyntaxTree, walk } from "./syntax.js";

/** A cell's source made ready for the compiler. */
export interface TidiedCell extends EditedText {
  /** True when the cell has a `for await` outside any function: the compiler does not report that one. */
  readonly awaitsInLoop: boolean;
}

const functions = ["FunctionDeclaration", "FunctionExpression", "ArrowFunction", "MethodDeclaration", "Constructor", "GetAccessor", "SetAccessor", "ClassStaticBlockDeclaration"];

/** Kinds of nodes in which `await` belongs to the function, not to the cell. */
export function functionKinds(parser: Parser): ReadonlySet<number> {
  return new Set(functions.map((name) => parser.kind(name)));
}

/**
 * Edits that the compiler of cells needs: it rewrites names of earlier cells, and would rewrite names of properties with them,
 * so that `{cc}` becomes `{"cc": cc}` and `const {a: b} = o` becomes `const {"a": b} = o`; and `export` goes, as every name of a
 * cell is seen by later ones anyway.
 *
 * No line is added or taken away; {@link EditedText.back} finds the column before.
 *
 * @param parser the compiler's parser
 * @param code   a cell as written
 */
export function tidyCell(parser: Parser, code: string): TidiedCell {
  const tree = parser.parse(code);
  const edits: Edit[] = [];
  const shorthand = parser.kind("ShorthandPropertyAssignment");
  const binding = parser.kind("BindingElement");
  const identifier = parser.kind("Identifier");
  const loop = parser.kind("ForOfStatement");
  let awaitsInLoop = false;
  walk(parser, tree, (node) => {
    if (node.kind === shorthand && node.name !== undefined) {
      edits.push({ at: node.name.getStart(tree), remove: 0, insert: `"${code.slice(node.name.getStart(tree), node.name.end)}": ` });
    }
    if (node.kind === binding && node.propertyName?.kind === identifier) {
      const from = node.propertyName.getStart(tree);
      edits.push({ at: from, remove: 0, insert: '"' }, { at: node.propertyName.end, remove: 0, insert: '"' });
    }
    if (node.kind === loop && node.awaitModifier !== undefined && !isInsideFunction(parser, node)) awaitsInLoop = true;
  });
  for (const statement of tree.statements) edits.push(...withoutExport(parser, tree, statement));
  return { ...applyEdits(code, edits), awaitsInLoop };
}

function isInsideFunction(parser: Parser, node: Syntax): boolean {
  const kinds = functionKinds(parser);
  for (let at = node.parent; at !== undefined; at = at.parent) if (kinds.has(at.kind)) return true;
  return false;
}

/** Blanks `export` with spaces of the same length. */
function withoutExport(parser: Parser, tree: SyntaxTree, statement: Syntax): Edit[] {
  const blank = (from: number, to: number): Edit => ({ at: from, remove: to - from, insert: tree.text.slice(from, to).replace(/[^\n]/g, " ") });
  if (statement.kind === parser.kind("ExportDeclaration") && statement.moduleSpecifier === undefined) return [blank(statement.getStart(tree), statement.end)];
  if (statement.kind === parser.kind("ExportAssignment") && statement.expression !== undefined) return [blank(statement.getStart(tree), statement.expression.getStart(tree))];
  const marks = (statement.modifiers ?? []).filter((m) => m.kind === parser.kind("ExportKeyword") || m.kind === parser.kind("DefaultKeyword"));
  if (marks.length > 1 && statement.name === undefined) return [];
  return marks.map((m) => blank(m.getStart(tree), m.end));
}
