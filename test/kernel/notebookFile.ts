/** A notebook of code cells (nbformat 4.5), as a front end would save it. */
export function notebookFile(cells: readonly string[]): string {
  return JSON.stringify({
    nbformat: 4,
    nbformat_minor: 5,
    metadata: { kernelspec: { name: "airtides", display_name: "TypeScript (airtides)", language: "typescript" } },
    cells: cells.map((source, i) => ({ cell_type: "code", id: `cell-${i}`, metadata: {}, source, outputs: [], execution_count: null })),
  });
}

/** A cell that gives a figure as lib/figure does: Plotly's description, and a still. */
export function figureCell(name: string, still = true): string {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200"><rect width="300" height="200" fill="#cde"/><text x="20" y="100">still of ${name}</text></svg>`;
  return `({ alt: "${name}: a line that rises", [Symbol.for("Jupyter.display")]: () => ({
  "text/plain": "${name} rises",
  ${still ? `"image/svg+xml": ${JSON.stringify(svg)},` : ""}
  "application/vnd.plotly.v1+json": { data: [{ type: "scatter", x: [1, 2, 3], y: [1, 4, 9], name: "${name} </script> <b>" }], layout: { title: { text: "${name}" }, height: 300 } },
}) })`;
}
