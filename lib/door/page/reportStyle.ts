/** Rules that the report adds to the house's style sheet. */
export const reportStyle: string = `
main { max-width: 54rem; margin: 0 auto; padding: 0 1.25rem; }
header.page { background: var(--card); border-bottom: 1px solid var(--line); margin-bottom: 2.5rem; }
header.page > div, footer.page { max-width: 54rem; margin: 0 auto; padding: 0 1.25rem; }
header.page > div { padding-block: 2.4rem 1.8rem; }
.kind { margin: 0 0 0.3rem; font-size: 0.8125rem; letter-spacing: 0.09em; text-transform: uppercase; color: var(--soft); }
.facts { margin: 0; color: var(--soft); }
.facts span { white-space: nowrap; }
.invented { display: inline-block; margin: 0.9rem 0 0; padding: 0.15rem 0.7rem; border: 1px solid var(--mark-line); border-radius: 1rem; background: var(--mark); font-size: 0.875rem; }
.brief { list-style: none; margin: 0; padding: 0; border-top: 1.5px solid var(--rule); }
.brief li { max-width: none; margin: 0; padding: 0.8rem 0; border-bottom: 1px solid var(--line); display: grid; grid-template-columns: 15rem 1fr; gap: 0.2rem 1.5rem; }
.brief a { font-family: var(--serif); font-weight: 600; }
.brief p { margin: 0 0 0.4rem; } .brief p:last-child { margin-bottom: 0; }
section.question { margin-top: 4rem; padding-top: 1.6rem; border-top: 1.5px solid var(--rule); }
section.question > h2 { margin-bottom: 1rem; }
.answer { font-family: var(--serif); font-size: clamp(1.15rem, 1.05rem + 0.6vw, 1.35rem); line-height: 1.45; max-width: 44rem; margin-bottom: 1.2rem; text-wrap: pretty; }
.figure { margin-inline: auto; max-width: 52rem; }
.figure .still { background: var(--card); break-inside: avoid; box-shadow: 0 0 0 1px var(--line); border-radius: 6px; overflow: hidden; }
.figure .still svg { display: block; width: 100%; height: auto; }
.figure .still.live { cursor: pointer; }
.figure .room { box-shadow: 0 0 0 1px var(--line); border-radius: 6px; overflow: hidden; background: var(--card); }
.figure .still .narrow { display: none; }
.figure .tools { margin: 0.4rem 0 0; min-height: 2.3rem; }
.figure details { margin-top: 0.3rem; }
button { font: inherit; font-size: 0.875rem; color: var(--accent); background: none; border: 1px solid var(--line); border-radius: 1rem; padding: 0.25rem 0.9rem; cursor: pointer; }
button:hover { border-color: var(--accent); } button:disabled { cursor: default; color: var(--soft); }
.mislead { border-left: 3px solid var(--mark-line); padding: 0.1rem 0 0.1rem 1.1rem; margin: 1.6rem 0; }
.mislead > :is(h3, h4) { margin-top: 0.2rem; } .mislead > :last-child { margin-bottom: 0.2rem; }
.made { color: var(--soft); font-size: 0.9375rem; }
.made > :is(h3, h4) { color: var(--ink); margin-top: 1.4rem; }
.caution { margin-top: 1.4rem; }
.scroll > table { min-width: 0; } .scroll caption { max-width: calc(100vw - 2rem); } th.number { white-space: normal; } th[scope="row"] { font-weight: 500; min-width: 8.5rem; }
details.long[open] > summary { font-weight: 600; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
pre.description { max-height: 28rem; overflow: auto; white-space: pre-wrap; overflow-wrap: anywhere; }
.broken { unicode-bidi: isolate; }
footer.page { margin-top: 4rem; padding-block: 1.4rem 3rem; border-top: 1px solid var(--line); font-size: 0.875rem; color: var(--soft); }
@media (max-width: 40rem) {
  main, header.page > div, footer.page { padding-inline: 1rem; }
  .brief li { grid-template-columns: 1fr; }
  section.question { margin-top: 3rem; }
}
@media screen and (max-width: 35rem) {
  .figure { margin-inline: -0.5rem; } .figure > figcaption, .figure > .tools, .figure > details { padding-inline: 0.5rem; }
  .figure .still .wide { display: none; } .figure .still .narrow { display: block; }
}
@media print {
  html { font-size: 12px; }
  main, header.page > div, footer.page { max-width: none; padding: 0; }
  header.page { border: 0; margin-bottom: 1rem; } header.page > div { padding: 0; }
  section.question { margin-top: 2rem; border: 0; padding-top: 0; }
  #question-trust, #question-air, #question-house, #question-coming { break-before: page; margin-top: 0; }
  .brief li { padding: 0.35rem 0; grid-template-columns: 13rem 1fr; }
  p, li, dd, figcaption { max-width: none; }
  .figure { max-width: 158mm; margin: 0.8rem 0 1.2rem; }
  .figure .room, .figure details { display: none; }
  .figure .still[hidden] { display: block; }
  .figure .still { box-shadow: none; }
  .answer { font-size: 11.5pt; max-width: none; }
  th[scope="row"] { min-width: 0; }
  th, td { padding-block: 0.15rem; }
  .scroll { break-inside: avoid; } details.long, details.long .scroll { break-inside: auto; }
  details.printed::details-content { display: block; content-visibility: visible; }
  .mislead { margin: 1rem 0; }
  pre.description { max-height: none; overflow: visible; font-size: 7pt; }
}
`;
