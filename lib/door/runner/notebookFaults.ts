/** A fault: where in the document, what must hold, what was found. */
type Tell = (at: string, requirement: string, found: unknown) => undefined;

type Plain = Record<string, unknown>;

const isPlain = (value: unknown): value is Plain => typeof value === "object" && value !== null && !Array.isArray(value);
const isText = (value: unknown): boolean => typeof value === "string" || (Array.isArray(value) && value.every((line) => typeof line === "string"));
const isCount = (value: unknown): boolean => value === null || (Number.isInteger(value) && (value as number) >= 0);

/** Keys that each kind of cell and output must have; nothing else may stand there but `attachments`. */
const cellKeys: Readonly<Record<string, readonly string[]>> = {
  code: ["id", "cell_type", "metadata", "source", "outputs", "execution_count"],
  markdown: ["id", "cell_type", "metadata", "source"],
  raw: ["id", "cell_type", "metadata", "source"],
};
const outputKeys: Readonly<Record<string, readonly string[]>> = {
  stream: ["output_type", "name", "text"],
  display_data: ["output_type", "data", "metadata"],
  execute_result: ["output_type", "data", "metadata", "execution_count"],
  error: ["output_type", "ename", "evalue", "traceback"],
};

/**
 * Checks a document against the notebook format, nbformat 4.5.
 *
 * @param document parsed JSON of any kind
 * @returns        one sentence a fault, `path must … (got …)`; empty when it is a notebook
 * @source nbformat 4.5 JSON schema; test/notebooks checks the agreement with it
 */
export function notebookFaults(document: unknown): string[] {
  const faults: string[] = [];
  const tell: Tell = (at, requirement, found) => void faults.push(`${at} must ${requirement} (got ${told(found)})`);
  if (!isPlain(document)) {
    tell("the notebook", "be an object", document);
    return faults;
  }
  if (document.nbformat !== 4) tell("nbformat", "be 4", document.nbformat);
  if (!Number.isInteger(document.nbformat_minor) || (document.nbformat_minor as number) < 5) tell("nbformat_minor", "be an integer of at least 5", document.nbformat_minor);
  onlyKeys("the notebook", document, ["nbformat", "nbformat_minor", "metadata", "cells"], [], tell);
  if (!isPlain(document.metadata)) tell("metadata", "be an object", document.metadata);
  else documentMetadata(document.metadata, tell);
  if (!Array.isArray(document.cells)) tell("cells", "be a list", document.cells);
  else {
    const ids = new Set<unknown>();
    document.cells.forEach((cell: unknown, i) => {
      cellFaults(`cells[${i}]`, cell, tell);
      const id = isPlain(cell) ? cell.id : undefined;
      if (ids.has(id)) tell(`cells[${i}].id`, "be unlike every other cell's", id);
      ids.add(id);
    });
  }
  return faults;
}

function documentMetadata(metadata: Plain, tell: Tell): undefined {
  const { kernelspec, language_info: language } = metadata;
  if (kernelspec !== undefined) {
    if (!isPlain(kernelspec)) tell("metadata.kernelspec", "be an object", kernelspec);
    else for (const key of ["name", "display_name"]) if (typeof kernelspec[key] !== "string") tell(`metadata.kernelspec.${key}`, "be text", kernelspec[key]);
  }
  if (language !== undefined) {
    if (!isPlain(language)) tell("metadata.language_info", "be an object", language);
    else {
      if (typeof language.name !== "string") tell("metadata.language_info.name", "be text", language.name);
      for (const key of ["file_extension", "mimetype", "pygments_lexer"]) {
        if (language[key] !== undefined && typeof language[key] !== "string") tell(`metadata.language_info.${key}`, "be text", language[key]);
      }
      const mode = language.codemirror_mode;
      if (mode !== undefined && typeof mode !== "string" && !isPlain(mode)) tell("metadata.language_info.codemirror_mode", "be text or an object", mode);
    }
  }
  if (metadata.title !== undefined && typeof metadata.title !== "string") tell("metadata.title", "be text", metadata.title);
  if (metadata.authors !== undefined && !Array.isArray(metadata.authors)) tell("metadata.authors", "be a list", metadata.authors);
  const original = metadata.orig_nbformat;
  if (original !== undefined && !(Number.isInteger(original) && (original as number) >= 1)) tell("metadata.orig_nbformat", "be an integer of at least 1", original);
}

function cellFaults(at: string, cell: unknown, tell: Tell): undefined {
  if (!isPlain(cell)) return tell(at, "be an object", cell);
  const kind = cell.cell_type;
  if (typeof kind !== "string" || !(kind in cellKeys)) return tell(`${at}.cell_type`, "be code, markdown or raw", kind);
  onlyKeys(at, cell, cellKeys[kind], kind === "code" ? [] : ["attachments"], tell);
  if (typeof cell.id !== "string" || !/^[a-zA-Z0-9_-]{1,64}$/.test(cell.id)) tell(`${at}.id`, "be 1 to 64 letters, digits, - or _", cell.id);
  if (!isText(cell.source)) tell(`${at}.source`, "be text or a list of lines", cell.source);
  if (!isPlain(cell.metadata)) tell(`${at}.metadata`, "be an object", cell.metadata);
  else cellMetadata(`${at}.metadata`, cell.metadata, kind, tell);
  if (cell.attachments !== undefined) {
    if (!isPlain(cell.attachments)) tell(`${at}.attachments`, "be an object", cell.attachments);
    else for (const [name, data] of Object.entries(cell.attachments)) bundleFaults(`${at}.attachments["${name}"]`, data, tell);
  }
  if (kind !== "code") return;
  if (!isCount(cell.execution_count)) tell(`${at}.execution_count`, "be null or an integer of at least 0", cell.execution_count);
  if (!Array.isArray(cell.outputs)) tell(`${at}.outputs`, "be a list", cell.outputs);
  else cell.outputs.forEach((output: unknown, i) => void outputFaults(`${at}.outputs[${i}]`, output, tell));
}

function cellMetadata(at: string, metadata: Plain, kind: string, tell: Tell): undefined {
  const { tags, name, jupyter, collapsed, scrolled, format, execution } = metadata;
  if (tags !== undefined) {
    const good = Array.isArray(tags) && tags.every((tag) => typeof tag === "string" && /^[^,]+$/.test(tag)) && new Set(tags).size === tags.length;
    if (!good) tell(`${at}.tags`, "be a list of different words without commas", tags);
  }
  if (name !== undefined && !(typeof name === "string" && name !== "")) tell(`${at}.name`, "be text that is not empty", name);
  if (jupyter !== undefined && !isPlain(jupyter)) tell(`${at}.jupyter`, "be an object", jupyter);
  if (kind === "raw" && format !== undefined && typeof format !== "string") tell(`${at}.format`, "be text", format);
  if (kind !== "code") return;
  if (collapsed !== undefined && typeof collapsed !== "boolean") tell(`${at}.collapsed`, "be true or false", collapsed);
  if (scrolled !== undefined && typeof scrolled !== "boolean" && scrolled !== "auto") tell(`${at}.scrolled`, 'be true, false or "auto"', scrolled);
  if (execution !== undefined && !(isPlain(execution) && Object.values(execution).every((v) => typeof v === "string"))) tell(`${at}.execution`, "be an object of texts", execution);
}

function outputFaults(at: string, output: unknown, tell: Tell): undefined {
  if (!isPlain(output)) return tell(at, "be an object", output);
  const kind = output.output_type;
  if (typeof kind !== "string" || !(kind in outputKeys)) return tell(`${at}.output_type`, "be stream, display_data, execute_result or error", kind);
  onlyKeys(at, output, outputKeys[kind], [], tell);
  if (kind === "stream") {
    if (typeof output.name !== "string") tell(`${at}.name`, "be text", output.name);
    if (!isText(output.text)) tell(`${at}.text`, "be text or a list of lines", output.text);
  } else if (kind === "error") {
    for (const key of ["ename", "evalue"]) if (typeof output[key] !== "string") tell(`${at}.${key}`, "be text", output[key]);
    if (typeof output.traceback === "string" || !isText(output.traceback)) tell(`${at}.traceback`, "be a list of texts", output.traceback);
  } else {
    bundleFaults(`${at}.data`, output.data, tell);
    if (!isPlain(output.metadata)) tell(`${at}.metadata`, "be an object", output.metadata);
    if (kind === "execute_result" && !isCount(output.execution_count)) tell(`${at}.execution_count`, "be null or an integer of at least 0", output.execution_count);
  }
}

function bundleFaults(at: string, bundle: unknown, tell: Tell): undefined {
  if (!isPlain(bundle)) return tell(at, "be an object", bundle);
  for (const [type, data] of Object.entries(bundle)) {
    if (!/^application\/(.*\+)?json$/.test(type) && !isText(data)) tell(`${at}["${type}"]`, "be text or a list of lines", data);
  }
}

function onlyKeys(at: string, value: Plain, needed: readonly string[], allowed: readonly string[], tell: Tell): undefined {
  for (const key of needed) if (!(key in value)) tell(`${at}.${key}`, "be there", undefined);
  const odd = Object.keys(value).filter((key) => !needed.includes(key) && !allowed.includes(key));
  if (odd.length > 0) tell(at, `hold only ${[...needed, ...allowed].join(", ")}`, odd.join(", "));
}

/** A found value, short. */
function told(value: unknown): string {
  if (value === undefined) return "nothing";
  const text = JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 37)}…` : text;
}
