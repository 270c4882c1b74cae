/**
 * The one style sheet of every page this project writes: the report, the notebooks' pages and their index.
 *
 * Light and dark by the reader's own setting, readable at 360 px, clean on A4. It loads nothing: no font, no picture.
 * Roles are CSS variables; a page adds what is its own after it.
 */
export const pageStyle: string = `
:root {
  color-scheme: light dark;
  --paper: #fbfaf7; --card: #ffffff; --ink: #1d2733; --soft: #566270; --line: #d9dde0; --rule: #1d2733;
  --outside: #0b5f94; --inside: #b5450b; --accent: #0b5f94; --mark: #fdf3d8; --mark-line: #c08a00;
  --serif: "Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", Charter, Georgia, "Liberation Serif", serif;
  --sans: system-ui, -apple-system, "Segoe UI", Roboto, "Helvetica Neue", "Noto Sans", "Liberation Sans", Arial, sans-serif;
  --mono: ui-monospace, "SFMono-Regular", Menlo, Consolas, "Liberation Mono", monospace;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #14191f; --card: #1a2129; --ink: #e6eaee; --soft: #a9b4bf; --line: #35404b; --rule: #8c98a4;
    --outside: #6db6e8; --inside: #f0955f; --accent: #7cc0ee; --mark: #2e2814; --mark-line: #d9a92b;
  }
}
*, *::before, *::after { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; scroll-padding-top: 1rem; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.0625rem/1.6 var(--sans); overflow-wrap: break-word; }
.sheet { max-width: 54rem; margin: 0 auto; padding: 0 1.25rem; }
a { color: var(--accent); text-underline-offset: 0.15em; }
a:focus-visible, summary:focus-visible, button:focus-visible, [tabindex]:focus-visible { outline: 3px solid var(--accent); outline-offset: 3px; border-radius: 2px; }
.skip { position: absolute; left: -99rem; }
.skip:focus { left: 1rem; top: 1rem; z-index: 9; padding: 0.5rem 1rem; background: var(--card); }
h1, h2, h3, h4 { font-family: var(--serif); line-height: 1.2; font-weight: 600; text-wrap: balance; }
h1 { font-size: clamp(1.9rem, 1.3rem + 2.6vw, 2.9rem); margin: 0 0 0.4rem; }
h2 { font-size: clamp(1.45rem, 1.2rem + 1.2vw, 1.9rem); margin: 0 0 0.8rem; }
h3 { font-size: 1.25rem; margin: 2.4rem 0 0.6rem; }
h4 { font-size: 1.05rem; margin: 1.6rem 0 0.4rem; }
p, ul, ol, dl { margin: 0 0 1rem; }
p, li, dd { max-width: 42rem; }
ul, ol { padding-left: 1.3rem; }
li { margin-bottom: 0.3rem; }
small, .small { font-size: 0.875rem; color: var(--soft); }
code, pre, kbd { font-family: var(--mono); font-size: 0.875em; }
pre { margin: 0 0 1rem; padding: 0.8rem 1rem; background: var(--card); border: 1px solid var(--line); border-radius: 6px; overflow-x: auto; line-height: 1.45; }
hr { border: 0; border-top: 1px solid var(--line); margin: 2.5rem 0; }
blockquote { margin: 0 0 1rem; padding-left: 1rem; border-left: 3px solid var(--line); color: var(--soft); }
figure { margin: 1.4rem 0 1.8rem; padding: 0; }
figcaption { font-size: 0.9375rem; color: var(--soft); margin-top: 0.4rem; max-width: 42rem; }
table { border-collapse: collapse; font-size: 0.9375rem; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--soft); padding-bottom: 0.4rem; }
th, td { padding: 0.3rem 0.9rem 0.3rem 0; text-align: left; vertical-align: top; border-bottom: 1px solid var(--line); }
thead th { border-bottom: 1.5px solid var(--rule); font-weight: 600; }
th.number, td.number { text-align: right; white-space: nowrap; }
.scroll { overflow-x: auto; margin: 0 0 1rem; max-width: 100%; }
.scroll > table { min-width: max-content; }
details { margin: 0 0 1rem; }
summary { cursor: pointer; color: var(--accent); padding: 0.25rem 0; }
details[open] > summary { margin-bottom: 0.5rem; }
.note, .warning { padding: 0.7rem 1rem; margin: 0 0 1rem; background: var(--card); border: 1px solid var(--line); border-radius: 6px; max-width: 44rem; }
.warning { background: var(--mark); border-color: var(--mark-line); }
.note > :last-child, .warning > :last-child { margin-bottom: 0; }
.outside { color: var(--outside); } .inside { color: var(--inside); }
.hljs-comment, .hljs-meta { color: var(--soft); font-style: italic; }
.hljs-keyword, .hljs-built_in, .hljs-literal { color: var(--outside); font-weight: 600; }
.hljs-string, .hljs-regexp, .hljs-template-variable { color: var(--inside); }
.hljs-number, .hljs-type { color: var(--accent); }
@media (max-width: 40rem) {
  body { font-size: 1rem; }
  .sheet { padding: 0 1rem; }
  h3 { margin-top: 2rem; }
}
@media (prefers-reduced-motion: no-preference) { html { scroll-behavior: smooth; } }
@page { size: A4; margin: 16mm 15mm 18mm; }
@media print {
  :root { color-scheme: light; --paper: #fff; --card: #fff; --ink: #000; --soft: #3d4650; --line: #b9bfc4; --rule: #000; --outside: #0b5f94; --inside: #b5450b; --accent: #000; --mark: #fff; --mark-line: #000; }
  body { font-size: 10pt; line-height: 1.42; }
  .sheet { max-width: none; padding: 0; }
  h1 { font-size: 22pt; } h2 { font-size: 15pt; } h3 { font-size: 12pt; margin-top: 1.2rem; }
  h1, h2, h3, h4 { break-after: avoid; }
  figure, tr, .note, .warning { break-inside: avoid; }
  p, li { orphans: 3; widows: 3; }
  thead { display: table-header-group; }
  a { color: inherit; text-decoration: none; }
  pre { white-space: pre-wrap; }
  .scroll { overflow: visible; } .scroll > table { min-width: 0; }
  .skip, .screen-only { display: none; }
}
`;
