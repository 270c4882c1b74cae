/**
 * Writes the reference pages of the published package, dist/reference/: one page a room, from the documentation of lib/index.ts's names.
 *
 * Plain JavaScript beside build.mjs: it belongs to making the package (`npm pack`, script prepack), not to the library. Another folder may be
 * named as argument.
 */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import ts from "typescript";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const lib = join(root, "lib");
const doors = [{ entry: "index.ts", from: "airtides" }, { entry: "door/disk/disk.ts", from: "airtides/disk" }];
const subpaths = new Set(["air", "record", "grid", "cycles", "indoors", "figure"]);
/** Rooms in the order in which one meets them, and what each is for. */
const rooms = {
  record: "What the logger said: records, series, flags, reading a log",
  answers: "One question each: record in, answer out",
  trust: "Faults, clock, agreement, altitude",
  air: "Moist air and altitude",
  grid: "Even steps, gaps, detrending, filters",
  cycles: "Spectra, tide, swings, climate",
  indoors: "What a house makes of the weather",
  figure: "Figures as plain descriptions",
  ground: "Estimates, instants, sun, least squares, chance",
  door: "Files; needs Node",
};

const escaped = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
const prose = (text) => escaped(text).replace(/`([^`]+)`/g, "<code>$1</code>");
const pathOf = (node) => node.getSourceFile().fileName.slice(lib.length + 1);
const roomOf = (node) => pathOf(node).split("/")[0];

/** The documentation of a declaration without its stars; first the text, then `[tag, text]`. */
function documentation(node) {
  const blocks = ts.getJSDocCommentsAndTags(ts.isVariableDeclaration(node) ? node.parent.parent : node).filter(ts.isJSDoc);
  const block = (blocks.at(-1)?.getText() ?? "").replace(/^\/\*\*\s?|\s*\*\/$/g, "").replace(/^[ \t]*\* ?/gm, "");
  const [text, ...tags] = block.split(/^@(?=\w)/m);
  return { text: text.trim(), tags: tags.map((tag) => /^(\w+)\s*([\s\S]*)$/.exec(tag.trim()).slice(1)) };
}

/** How it is called, or its shape with the comments of its fields. */
function signature(node) {
  if (ts.isFunctionDeclaration(node)) return node.getText().slice(0, node.body.getStart() - node.getStart()).replace(/^export /, "").trim();
  if (ts.isVariableDeclaration(node)) return `const ${node.name.getText()}${node.type === undefined ? "" : `: ${node.type.getText()}`}`;
  if (ts.isClassDeclaration(node)) {
    const isPublic = (m) => !ts.isPrivateIdentifier(m.name ?? node.name) && !(ts.getCombinedModifierFlags(m) & ts.ModifierFlags.Private);
    const lines = node.members.filter(isPublic).map((m) => `  ${m.getText().slice(0, m.body === undefined ? undefined : m.body.getStart() - m.getStart()).trim()};`.replace(/;;$/, ";"));
    return `class ${node.name.getText()} {\n${lines.join("\n")}\n}`;
  }
  return node.getText().replace(/^export /, "");
}

/** Public names with their declarations, then the shapes that those speak of, each once. */
function collected() {
  const program = ts.createProgram(doors.map((d) => join(lib, d.entry)), { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext, skipLibCheck: true, types: [] });
  const checker = program.getTypeChecker();
  const meant = (symbol) => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol);
  const names = doors.flatMap(({ entry, from }) => checker.getExportsOfModule(checker.getSymbolAtLocation(program.getSourceFile(join(lib, entry)))).map((s) => ({ name: s.name, from, node: meant(s).declarations[0] })));
  const seen = new Map(names.map((n) => [n.node, n]));
  const visit = (node) => {
    const name = ts.isTypeReferenceNode(node) ? node.typeName : ts.isExpressionWithTypeArguments(node) ? node.expression : null;
    const symbol = name === null ? undefined : checker.getSymbolAtLocation(name);
    const shape = symbol === undefined ? undefined : meant(symbol).declarations?.[0];
    if (shape?.getSourceFile().fileName.startsWith(`${lib}/`) && !ts.isTypeParameterDeclaration(shape) && !seen.has(shape)) {
      seen.set(shape, { name: shape.name.getText(), from: null, node: shape });
      visit(shape);
    }
    if (!ts.isBlock(node)) ts.forEachChild(node, visit);
  };
  for (const { node } of names) visit(node);
  return [...seen.values()];
}

const rows = (title, list) => (list.length === 0 ? "" : `<tr><th scope="row" rowspan="${list.length}">${title}</th>${list.map((cells) => `<td>${cells.join(" ")}</td>`).join("</tr><tr>")}</tr>`);

/** One name as it stands on its page. */
function entryOf({ name, from, node }, linked) {
  const { text, tags } = documentation(node);
  const of = (tag) => tags.filter(([t]) => t === tag).map(([, body]) => body);
  const [first, ...more] = text.split(/\n\s*\n/);
  const params = of("param").map((body) => /^([\w.]+(?:, [\w.]+)*)\s*([\s\S]*)$/.exec(body)?.slice(1) ?? ["", body]).map(([p, says]) => [`<code>${p}</code>`, linked(says, name, prose)]);
  const plain = (tag) => of(tag).map((body) => [linked(body, name, prose)]);
  const table = rows("takes", params) + rows("gives", plain("returns")) + rows("throws", plain("throws")) + rows("example", of("example").map((body) => [`<code>${escaped(body)}</code>`])) + rows("source", plain("source"));
  const room = roomOf(node);
  const where = from === null ? "a shape that the names above speak of" : `<code>${from}</code>${from === "airtides" && subpaths.has(room) ? `, <code>airtides/${room}</code>` : ""}`;
  return `<section id="${name}"><h2>${name}</h2><p class="where">${where} · lib/${pathOf(node)}</p><p>${prose(first)}</p><pre>${linked(signature(node), name)}</pre>${more.map((p) => `<p>${prose(p)}</p>`).join("")}${table === "" ? "" : `<table>${table}</table>`}</section>`;
}

const style = "body{font:16px/1.5 system-ui,sans-serif;color:#1c2430;background:#fff;max-width:62rem;margin:0 auto;padding:1rem}h2{margin:2.5rem 0 0;border-top:1px solid #c9d2dc;padding-top:1rem}.where{color:#55606d;margin:0}pre{background:#f2f6fa;padding:.6rem;overflow-x:auto}code,pre{font:14px/1.45 ui-monospace,monospace}table{border-collapse:collapse}th,td{text-align:left;vertical-align:top;padding:.15rem .8rem .15rem 0}td>code:first-child{white-space:pre-wrap}ul{columns:16rem;padding-left:1.2rem}a{color:#0b5394}";
const page = (title, body) => `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escaped(title)}</title><style>${style}</style></head><body>${body}</body></html>\n`;

/** Writes all pages into a folder, which is emptied first; gives the names by page. */
export function writeReference(folder) {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const all = collected();
  const place = new Map(all.map((n) => [n.name, `${roomOf(n.node)}.html#${n.name}`]));
  const linked = (text, own, form = escaped) => form(text).replace(/\b[A-Z]\w+\b/g, (word) => (word !== own && place.has(word) ? `<a href="${place.get(word)}">${word}</a>` : word));
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const written = {};
  const contents = [];
  for (const [room, says] of Object.entries(rooms)) {
    const own = all.filter((n) => roomOf(n.node) === room).sort((a, b) => Number(a.from === null) - Number(b.from === null));
    written[room] = own.map((n) => n.name);
    const list = `<ul>${own.filter((n) => n.from !== null).map((n) => `<li><a href="${room}.html#${n.name}">${n.name}</a></li>`).join("")}</ul>`;
    contents.push(`<h2><a href="${room}.html">${room}</a></h2><p>${says}.</p>${list}`);
    writeFileSync(join(folder, `${room}.html`), page(`airtides: ${room}`, `<p><a href="index.html">All rooms</a></p><h1>${room}</h1><p>${says}.</p>${list}${own.map((n) => entryOf(n, linked)).join("\n")}`));
  }
  const lost = all.filter((n) => !(roomOf(n.node) in rooms));
  if (lost.length > 0) throw new Error(`reference: every name must lie in a room that has a page (got ${lost.map((n) => `${n.name} in ${pathOf(n.node)}`).join(", ")})`);
  writeFileSync(join(folder, "index.html"), page("airtides: reference", `<h1>airtides ${version}: every public name</h1><p>House units: °C, hPa, %, g/m³, hours. NaN is missing. Instants are epoch milliseconds, UTC. [n] is the length of an array. Numbers of examples are those of the invented record hill-school.</p>${contents.join("")}`));
  return written;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const folder = process.argv[2] ?? join(root, "dist", "reference");
  const written = writeReference(folder);
  process.stderr.write(`${folder}: ${Object.values(written).flat().length} names in ${Object.keys(written).length} rooms\n`);
}
