import ts from "typescript";
import { describe, expect, it } from "vitest";
import { sources } from "./sources.js";

/** Names that reach for the world: the clock, chance, the environment, the locale, the screen, the net. */
const forbiddenCalls = new Set(["Date.now", "Math.random", "performance.now", "fetch", "setTimeout", "setInterval", "require"]);
const forbiddenRoots = new Set(["process", "window", "document", "localStorage", "navigator", "console", "Buffer", "__dirname", "__filename"]);
const localTime =
  /^(getFullYear|getMonth|getDate|getDay|getHours|getMinutes|getSeconds|getTimezoneOffset|setHours|setMinutes|setDate|toLocaleString|toLocaleDateString|toLocaleTimeString|localeCompare)$/;

function offences(tree: ts.SourceFile): string[] {
  const found: string[] = [];
  const line = (node: ts.Node): number => tree.getLineAndCharacterOfPosition(node.getStart(tree)).line + 1;
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && forbiddenCalls.has(node.expression.getText(tree))) found.push(`${node.expression.getText(tree)} on line ${line(node)}`);
    if (ts.isNewExpression(node) && node.expression.getText(tree) === "Date" && (node.arguments?.length ?? 0) === 0) found.push(`new Date() on line ${line(node)}`);
    if (ts.isPropertyAccessExpression(node)) {
      if (ts.isIdentifier(node.expression) && forbiddenRoots.has(node.expression.text)) found.push(`${node.getText(tree)} on line ${line(node)}`);
      if (localTime.test(node.name.text)) found.push(`${node.name.text} on line ${line(node)}`);
      if (ts.isIdentifier(node.expression) && node.expression.text === "Intl") found.push(`Intl on line ${line(node)}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

/** Statements at the top of a file that would do something when it is imported. */
function worksAtImport(tree: ts.SourceFile): string[] {
  return tree.statements
    .filter((s) => ts.isExpressionStatement(s) || ts.isForStatement(s) || ts.isForOfStatement(s) || ts.isWhileStatement(s) || ts.isIfStatement(s) || ts.isTryStatement(s))
    .map((s) => s.getText(tree).slice(0, 60));
}

describe("law 6: purity below the door", () => {
  const below = sources.filter((s) => !s.path.startsWith("door/"));

  it("the judge itself sees an offence", () => {
    const bad = ts.createSourceFile("x.ts", "const t = Date.now(); new Date(); process.env.X; x.getHours(); Intl.NumberFormat;", ts.ScriptTarget.ES2022, true);
    expect(offences(bad).length).toBe(5);
    expect(worksAtImport(bad).length).toBe(4);
  });

  it("nothing reads clock, chance, environment, locale or screen", () => {
    expect(below.flatMap((s) => offences(s.tree).map((o) => `lib/${s.path}: ${o}`))).toEqual([]);
  });

  it("nothing happens at import", () => {
    expect(below.flatMap((s) => worksAtImport(s.tree).map((o) => `lib/${s.path}: ${o}`))).toEqual([]);
  });
});
