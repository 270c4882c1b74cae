import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import ts from "typescript";

/** One source file of lib/ with the modules it names. */
export interface Source {
  /** Path below lib/, with forward slashes. */
  readonly path: string;
  readonly text: string;
  /** Every module named in import, export … from, import(), and createRequire(…).resolve(). */
  readonly modules: readonly string[];
  readonly tree: ts.SourceFile;
}

export const root: string = new URL("../..", import.meta.url).pathname;

function* filesBelow(folder: string): Generator<string> {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesBelow(path);
    else if (entry.name.endsWith(".ts")) yield path;
  }
}

function modulesOf(tree: ts.SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if ((ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) && node.moduleSpecifier && ts.isStringLiteral(node.moduleSpecifier)) {
      found.push(node.moduleSpecifier.text);
    }
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      const first = node.arguments[0];
      found.push(first !== undefined && ts.isStringLiteral(first) ? first.text : "?");
    }
    // A package whose file is read and not run is found by createRequire(…).resolve("name"); asking for its package.json only asks where it is.
    if (ts.isCallExpression(node) && /^createRequire\(.*\)\.resolve$/s.test(node.expression.getText(tree))) {
      const first = node.arguments[0];
      if (first !== undefined && ts.isStringLiteral(first) && !first.text.endsWith("/package.json")) found.push(first.text);
    }
    if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal)) {
      found.push(node.argument.literal.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

/** All TypeScript sources of lib/, parsed. */
export const sources: readonly Source[] = [...filesBelow(join(root, "lib"))].map((file) => {
  const text = readFileSync(file, "utf8");
  const tree = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  return { path: relative(join(root, "lib"), file).split(sep).join("/"), text, modules: modulesOf(tree), tree };
});

/** Where a relative module of a source lies below lib/ (`.ts` ending). */
export function target(from: Source, module: string): string {
  const parts = from.path.split("/").slice(0, -1);
  for (const step of module.split("/")) {
    if (step === "..") parts.pop();
    else if (step !== ".") parts.push(step);
  }
  return parts.join("/").replace(/\.js$/, ".ts");
}
