import { reportStyle } from "../page/reportStyle.js";

/** A shadow at the side where something scrollable goes on, by grounds that move with the text and grounds that stay. */
function shadows(ground: string): string {
  return `background: linear-gradient(to right, ${ground} 40%, transparent) 0 0 / 2.5rem 100% no-repeat local, linear-gradient(to left, ${ground} 40%, transparent) 100% 0 / 2.5rem 100% no-repeat local,
  linear-gradient(to right, var(--shade), transparent) 0 0 / 0.7rem 100% no-repeat scroll, linear-gradient(to left, var(--shade), transparent) 100% 0 / 0.7rem 100% no-repeat scroll, ${ground}`;
}

/**
 * Rules of the notebooks' pages and their index, after the house's style sheet: those that the report has too, then their own.
 */
export function notebookStyle(): string {
  return `${reportStyle}
:root { --shade: rgb(20 30 40 / 0.22); --code-ground: color-mix(in srgb, var(--ink) 4%, var(--card)); }
@media (prefers-color-scheme: dark) { :root { --shade: rgb(0 0 0 / 0.65); } }
main, header.page > div, footer.page { max-width: 56rem; }
main > :is(p, ul, ol, blockquote, h1, h3, h4) { max-width: 44rem; }
header.page { margin-bottom: 1.4rem; font-size: 0.9rem; color: var(--soft); }
header.page > div { padding-block: 0.8rem; }
header.page nav, footer.page nav { display: flex; flex-wrap: wrap; gap: 0.3rem 1.5rem; justify-content: space-between; }
footer.page { border: 0; } footer.page > * { border-top: 1px solid var(--line); padding-top: 1.1rem; }
main h1 { margin: 0.8rem 0 1rem; }
main h2 { margin: 2.8rem 0 0.8rem; padding-top: 1.1rem; border-top: 1px solid var(--line); }
li, dd, .cell p, .note, .warning { max-width: none; }
pre { font-size: 0.82rem; } pre code, pre samp { font: inherit; }
:not(pre) > code { background: color-mix(in srgb, var(--ink) 7%, transparent); padding: 0.08em 0.3em; border-radius: 4px; }
.hljs-subst { color: var(--ink); } .hljs-built_in, .hljs-title { font-weight: 400; }
.contents { margin: 0 0 2rem; padding: 0.9rem 1.2rem; background: var(--card); border: 1px solid var(--line); border-radius: 6px; font-size: 0.9375rem; }
.contents ol { margin: 0; columns: 17rem; } .contents p { margin: 0 0 0.3rem; font-weight: 600; }
.cell { position: relative; margin: 0 0 1.6rem; border: 1px solid var(--line); border-radius: 6px; background: var(--card); }
.cell > :first-child { border-radius: 5px 5px 0 0; } .cell > :only-child { border-radius: 5px; }
.cell[data-count]::before { content: attr(data-count); position: absolute; right: 0; top: 0; padding: 0.1rem 0.55rem; font: 0.75rem/1.5 var(--sans); color: var(--soft); z-index: 1; }
.cell[data-count] > .code { padding-top: 1.3rem; }
@media screen and (min-width: 64rem) {
  .cell[data-count]::before { right: 100%; padding: 0.85rem 0.7rem 0 0; }
  .cell[data-count] > .code { padding-top: 0.8rem; }
}
.cell:target { outline: 2px solid var(--accent); }
.cell pre { margin: 0; border: 0; border-radius: 0; }
.cell > .code { ${shadows("var(--code-ground)")}; box-shadow: inset 3px 0 var(--accent); padding-left: 1.2rem; }
.cell > .outputs { padding: 0.9rem 1.2rem; }
.cell > .code + .outputs { border-top: 1px solid var(--line); }
.cell .outputs > * { margin: 0; } .cell .outputs > * + * { margin-top: 0.9rem; }
.shown > :last-child { margin-bottom: 0; }
.outputs pre { padding: 0; line-height: 1.42; ${shadows("var(--card)")}; }
.outputs .stderr { padding-left: 0.8rem; box-shadow: inset 3px 0 var(--inside); }
.scroll { ${shadows("var(--paper)")}; } .cell .scroll { ${shadows("var(--card)")}; margin: 0; }
.cell .figure { max-width: none; margin-inline: 0; }
/* The drawing library's color of a pressed button, which no theme reaches. */
@media (prefers-color-scheme: dark) { .room .updatemenu-item-rect[style*="244, 250, 255"] { fill: #24506f !important; } }
.outputs img { display: block; }
.fault { border: 1px solid var(--inside); border-left-width: 4px; border-radius: 4px; padding: 0.7rem 0.9rem; }
.fault strong { color: var(--inside); } .fault pre { margin-top: 0.5rem; }
img, svg { max-width: 100%; height: auto; }
math { font-family: "STIX Two Math", "Cambria Math", "Latin Modern Math", math; font-size: 1.06em; }
.formula { display: block; overflow-x: auto; overflow-y: hidden; padding-block: 0.4em; margin: 0 0 0.6em; ${shadows("var(--paper)")}; }
.cell .formula, .solution .formula { ${shadows("var(--card)")}; }
.katex-error { color: var(--inside); font-family: var(--mono); font-size: 0.875em; }
details.solution { border: 1px solid var(--line); border-radius: 6px; padding: 0.2rem 1.2rem; background: var(--card); }
details.solution > summary { font-weight: 600; } details.solution > :last-child { margin-bottom: 0.9rem; }
details.rest > summary { font-size: 0.875rem; }
.index { list-style: none; padding: 0; } .index > li { border-top: 1px solid var(--line); padding: 1.1rem 0 0.9rem; margin: 0; }
.index h2 { all: unset; display: block; font: 600 1.2rem/1.3 var(--serif); } .index p { margin: 0.3rem 0 0; } .index .state { font-size: 0.875rem; color: var(--soft); }
.index .state.bad { color: var(--inside); }
@media (max-width: 40rem) { .cell { margin-inline: -0.4rem; } pre { font-size: 0.78rem; } .cell > .outputs { padding: 0.8rem 0.9rem; } .cell > .code { padding-inline: 0.9rem; } .cell .figure > * { padding-inline: 0; } }
@media print {
  header.page, footer.page nav { display: none; } footer.page > * { border: 0; }
  .cell > .code { break-inside: avoid; }
  .cell > .code, .outputs pre, .scroll, .formula, .cell .scroll, .cell .formula { background: none; overflow: visible; }
  main h2 { margin-top: 1.6rem; } .contents { break-inside: avoid; }
}
`;
}
