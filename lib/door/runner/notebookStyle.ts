/** Rules that the notebooks' pages and their index add to the house's style sheet. */
export const notebookStyle: string = `
main, header.page > div, footer.page { max-width: 48rem; }
header.page { margin-bottom: 1.4rem; font-size: 0.9rem; color: var(--soft); }
header.page > div { padding-block: 0.8rem; }
header.page nav, footer.page nav { display: flex; flex-wrap: wrap; gap: 0.3rem 1.5rem; justify-content: space-between; }
main h1 { margin: 0.8rem 0 1rem; }
main h2 { margin: 2.8rem 0 0.8rem; padding-top: 1.1rem; border-top: 1px solid var(--line); }
p, li, dd { max-width: none; }
:not(pre) > code { background: color-mix(in srgb, var(--ink) 7%, transparent); padding: 0.08em 0.3em; border-radius: 4px; }
.contents { margin: 0 0 2rem; padding: 0.8rem 1.2rem; background: var(--card); border: 1px solid var(--line); border-radius: 6px; font-size: 0.9375rem; }
.contents ol { margin: 0; } .contents p { margin: 0 0 0.3rem; font-weight: 600; }
.cell { margin: 0 0 1.6rem; border: 1px solid var(--line); border-radius: 6px; background: var(--card); overflow: hidden; }
.cell pre { margin: 0; border: 0; border-radius: 0; background: none; }
.cell > .code { background: color-mix(in srgb, var(--ink) 4%, var(--card)); border-left: 3px solid var(--accent); }
.cell > .outputs { padding: 0.9rem 1.1rem; }
.cell > .code + .outputs { border-top: 1px solid var(--line); }
.outputs > * { margin: 0 0 0.9rem; } .outputs > :last-child { margin-bottom: 0; }
.outputs pre { padding: 0; line-height: 1.4; } .outputs pre.long { max-height: 30rem; overflow: auto; }
.outputs .stderr { border-left: 3px solid var(--inside); padding-left: 0.8rem; }
.outputs .scroll { margin: 0; } .outputs img { display: block; }
.fault { border: 1px solid var(--inside); border-left-width: 4px; border-radius: 4px; padding: 0.7rem 0.9rem; }
.fault strong { color: var(--inside); } .fault pre { margin-top: 0.5rem; }
img, svg { max-width: 100%; height: auto; }
math { font-family: "STIX Two Math", "Cambria Math", "Latin Modern Math", math; font-size: 1.06em; }
.formula { display: block; overflow-x: auto; overflow-y: hidden; padding-block: 0.4em; margin: 0 0 0.6em; }
.katex-error { color: var(--inside); font-family: var(--mono); font-size: 0.875em; }
details.answer { border: 1px solid var(--line); border-radius: 6px; padding: 0.2rem 1.1rem; background: var(--card); }
details.answer > summary { font-weight: 600; } details.answer > :last-child { margin-bottom: 0.9rem; }
.index { list-style: none; padding: 0; } .index > li { border-top: 1px solid var(--line); padding: 1.1rem 0 0.9rem; margin: 0; }
.index h2 { all: unset; display: block; font: 600 1.2rem/1.3 var(--serif); } .index p { margin: 0.3rem 0 0; } .index .state { font-size: 0.875rem; color: var(--soft); }
.index .state.bad { color: var(--inside); }
@media (max-width: 40rem) { .cell { margin-inline: -0.4rem; } .cell pre { font-size: 0.8rem; } .cell > .outputs { padding: 0.8rem; } }
@media print {
  header.page nav, footer.page nav,   .cell { overflow: visible; } .cell > .code, .outputs pre { break-inside: avoid; }
  .outputs pre.long { max-height: none; overflow: visible; break-inside: auto; } .formula { overflow: visible; }
  main h2 { margin-top: 1.6rem; }
}
`;
