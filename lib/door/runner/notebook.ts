/** Text as a notebook keeps it: one string, or a list of lines that keep their line ends. */
export type NotebookText = string | readonly string[];

/** A MIME bundle as a notebook keeps it: text for most types, any value for JSON types. */
export type NotebookBundle = Readonly<Record<string, unknown>>;

/** What a cell put out, of nbformat 4.5's four kinds. */
export type NotebookOutput =
  | { readonly output_type: "stream"; readonly name: string; readonly text: NotebookText }
  | { readonly output_type: "display_data"; readonly data: NotebookBundle; readonly metadata: Readonly<Record<string, unknown>> }
  | { readonly output_type: "execute_result"; readonly data: NotebookBundle; readonly metadata: Readonly<Record<string, unknown>>; readonly execution_count: number | null }
  | { readonly output_type: "error"; readonly ename: string; readonly evalue: string; readonly traceback: readonly string[] };

/** What every cell has. */
interface AnyCell {
  readonly id: string;
  readonly metadata: { readonly tags?: readonly string[] } & Readonly<Record<string, unknown>>;
  readonly source: NotebookText;
  /** Pictures pasted into the text, by file name. */
  readonly attachments?: Readonly<Record<string, NotebookBundle>>;
}

/** A cell with code and what it put out. */
export interface CodeCell extends AnyCell {
  readonly cell_type: "code";
  readonly outputs: readonly NotebookOutput[];
  readonly execution_count: number | null;
}

/** A cell of text; `raw` is meant for other programs and is not shown. */
export interface TextCell extends AnyCell {
  readonly cell_type: "markdown" | "raw";
}

export type NotebookCell = CodeCell | TextCell;

/**
 * A notebook in memory, as the open notebook format keeps it.
 *
 * @source nbformat 4.5 JSON schema (jupyter/nbformat, BSD-3-Clause); test/notebooks/nbformat.v4.5.schema.json is its copy
 */
export interface Notebook {
  readonly nbformat: 4;
  readonly nbformat_minor: number;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly cells: readonly NotebookCell[];
}

/**
 * A notebook's text as one string.
 *
 * @param text one string, or lines with their line ends
 */
export function textOf(text: NotebookText): string {
  return typeof text === "string" ? text : text.join("");
}

/**
 * Whether a cell carries a tag.
 *
 * @param cell any cell
 * @param tag  such as `raises-exception`, `answer`
 */
export function hasTag(cell: NotebookCell, tag: string): boolean {
  return cell.metadata.tags?.includes(tag) === true;
}
