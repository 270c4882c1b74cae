import { join } from "node:path";
import ts from "typescript";
import { root } from "./sources.js";

/** A public function with what its documentation says. */
export interface PublicFunction {
  readonly name: string;
  /** Path below lib/. */
  readonly path: string;
  /** The documentation block, without stars. */
  readonly text: string;
  /** Text before the first tag. */
  readonly first: string;
  /** Names after `@param`, without what follows a dot. */
  readonly described: readonly string[];
  /** Names of the parameters; one that is taken apart is "". */
  readonly parameters: readonly string[];
  readonly isVoid: boolean;
  readonly tags: readonly string[];
  readonly examples: readonly string[];
}

const entry = join(root, "lib", "index.ts");

/** The block as it stands before a declaration, stars taken off; "" where there is none. */
function blockOf(node: ts.Node): string {
  const blocks = ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc);
  const block = blocks[blocks.length - 1]?.getText() ?? "";
  return block.replace(/^\/\*\*\s?|\s*\*\/$/g, "").replace(/^[ \t]*\* ?/gm, "").trim();
}

function describedIn(text: string): string[] {
  const names = [...text.matchAll(/^@param\s+([\w.]+(?:, [\w.]+)*)/gm)].flatMap(([, list]) => (list.includes(".") ? [list] : list.split(", ")));
  return [...new Set(names.map((n) => n.split(".")[0]))];
}

/** Text of each `@example`, to the next tag. */
function examplesIn(text: string): string[] {
  return [...text.matchAll(/^@example\s+([\s\S]*?)(?=^@|$(?![\s\S]))/gm)].map(([, example]) => example.trim());
}

/** Every name that lib/index.ts gives, with the declaration it stands for. */
export function publicDeclarations(): readonly { readonly name: string; readonly path: string; readonly node: ts.Declaration; readonly text: string }[] {
  const options = { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext, skipLibCheck: true, noLib: true, types: [] };
  const program = ts.createProgram([entry], options);
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(entry);
  const module = source === undefined ? undefined : checker.getSymbolAtLocation(source);
  if (module === undefined) throw new Error("lib/index.ts could not be read");
  return checker.getExportsOfModule(module).map((symbol) => {
    const meant = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
    const node = meant.declarations?.[0];
    if (node === undefined) throw new Error(`${symbol.name} is declared nowhere`);
    // A constant's block stands before its statement.
    const holder = ts.isVariableDeclaration(node) ? node.parent.parent : node;
    return { name: symbol.name, path: node.getSourceFile().fileName.slice(join(root, "lib").length + 1), node, text: blockOf(holder) };
  });
}

/** The functions among them. */
export function publicFunctions(): readonly PublicFunction[] {
  return publicDeclarations().flatMap(({ name, path, node, text }) => {
    if (!ts.isFunctionDeclaration(node)) return [];
    return {
      name,
      path,
      text,
      first: text.split(/^@/m)[0].trim(),
      described: describedIn(text),
      parameters: node.parameters.map((p) => (ts.isIdentifier(p.name) ? p.name.text : "")),
      isVoid: node.type?.kind === ts.SyntaxKind.VoidKeyword,
      tags: [...text.matchAll(/^@(\w+)/gm)].map(([, tag]) => tag),
      examples: examplesIn(text),
    };
  });
}

/** What a public function's documentation leaves out, in words; empty when it is whole. */
export function missingIn(f: Omit<PublicFunction, "path" | "examples">): string[] {
  const missing: string[] = [];
  if (!/^\S[\s\S]{10,}?[.:;)\]…](\s|$)/.test(f.first)) missing.push("a first sentence");
  const unnamed = f.parameters.filter((p) => p !== "" && !f.described.includes(p)).map((p) => `@param ${p}`);
  missing.push(...unnamed);
  const named = f.parameters.filter((p) => p !== "");
  const others = f.described.filter((d) => !named.includes(d)).length;
  const apart = f.parameters.length - named.length;
  if (others < apart) missing.push("@param for an argument that is taken apart (@param options.name)");
  if (others > apart) missing.push(`no @param for what is no argument (${f.described.filter((d) => !named.includes(d)).join(", ")})`);
  if (!f.isVoid && !f.tags.includes("returns")) missing.push("@returns");
  if (!f.tags.includes("example")) missing.push("@example");
  return missing;
}
