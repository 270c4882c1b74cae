import type { NotebookBundle, NotebookOutput } from "./notebook.js";

/** One piece of output as a cell makes it, in the words of the notebook's messages. */
export type OutputPiece =
  | { readonly kind: "stream"; readonly name: "stdout" | "stderr"; readonly text: string }
  | { readonly kind: "display"; readonly data: NotebookBundle; readonly metadata?: Readonly<Record<string, unknown>>; readonly id?: string }
  | { readonly kind: "update"; readonly data: NotebookBundle; readonly metadata?: Readonly<Record<string, unknown>>; readonly id: string }
  | { readonly kind: "result"; readonly data: NotebookBundle; readonly metadata?: Readonly<Record<string, unknown>>; readonly count: number }
  | { readonly kind: "error"; readonly name: string; readonly value: string; readonly traceback: readonly string[] }
  | { readonly kind: "clear"; readonly wait: boolean };

/** The outputs of all cells of one run. */
export interface Gathering {
  /** Adds a piece to a cell; what a cell started earlier still belongs to it. */
  add(cell: number, piece: OutputPiece): void;
  /** What a cell has put out so far. */
  of(cell: number): readonly NotebookOutput[];
}

/**
 * Gathers output the way a notebook's front end does: printed text of one stream is joined, a shown thing with an id is
 * changed in place wherever it stands, a cleared cell begins anew.
 *
 * @param cells number of cells
 */
export function gatherOutputs(cells: number): Gathering {
  const outputs: NotebookOutput[][] = Array.from({ length: cells }, () => []);
  const shown = new Map<string, { cell: number; at: number }[]>();
  const clearNext = new Set<number>();

  const clear = (cell: number): void => {
    outputs[cell].length = 0;
    for (const [id, places] of shown) shown.set(id, places.filter((p) => p.cell !== cell));
  };
  const update = (id: string, data: NotebookBundle, metadata: Readonly<Record<string, unknown>>): void => {
    for (const { cell, at } of shown.get(id) ?? []) {
      const old = outputs[cell][at];
      if (old.output_type === "display_data" || old.output_type === "execute_result") outputs[cell][at] = { ...old, data, metadata };
    }
  };

  return {
    add(cell, piece) {
      const list = outputs[cell];
      if (piece.kind === "update") return update(piece.id, piece.data, piece.metadata ?? {});
      if (piece.kind === "clear") {
        if (piece.wait) clearNext.add(cell);
        else clear(cell);
        return;
      }
      if (clearNext.delete(cell)) clear(cell);
      if (piece.kind === "stream") {
        const last = list.at(-1);
        if (last?.output_type === "stream" && last.name === piece.name) list[list.length - 1] = { ...last, text: `${last.text as string}${piece.text}` };
        else if (piece.text !== "") list.push({ output_type: "stream", name: piece.name, text: piece.text });
      } else if (piece.kind === "error") {
        list.push({ output_type: "error", ename: piece.name, evalue: piece.value, traceback: piece.traceback });
      } else if (piece.kind === "result") {
        list.push({ output_type: "execute_result", data: piece.data, metadata: piece.metadata ?? {}, execution_count: piece.count });
      } else {
        // The newest content of an id is shown everywhere the id stands.
        if (piece.id !== undefined) {
          update(piece.id, piece.data, piece.metadata ?? {});
          shown.set(piece.id, [...(shown.get(piece.id) ?? []), { cell, at: list.length }]);
        }
        list.push({ output_type: "display_data", data: piece.data, metadata: piece.metadata ?? {} });
      }
    },
    of: (cell) => outputs[cell],
  };
}
