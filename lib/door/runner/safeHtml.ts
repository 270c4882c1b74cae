/** Elements that tables and short texts are made of; nothing that runs, loads, sends or covers the page. */
const elements = new Set(
  "a abbr b br caption cite code col colgroup dd del details dfn div dl dt em figcaption figure h3 h4 h5 h6 hr i ins kbd li mark math mfrac mi mn mo mover mrow ms mspace msqrt mstyle msub msubsup msup mtable mtd mtext mtr munder munderover ol p pre q s samp semantics annotation section small span strong sub summary sup table tbody td tfoot th thead time tr u ul var wbr".split(" "),
);
const empty = new Set(["br", "col", "hr", "wbr"]);
/** Attributes without power; style is held to what needs no address. */
const attributes = new Set("abbr align aria-label aria-hidden class colspan datetime dir display encoding headers href id lang mathvariant open role rowspan scope span start style tabindex title valign xmlns".split(" "));

/** One tag, with its attributes in double or single quotes or bare. */
const tag = /<(\/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s+[a-zA-Z][-a-zA-Z:]*(?:\s*=\s*(?:"[^"]*"|'[^']*'|[^\s"'<>=`]+))?)*)\s*(\/?)>/y;
const attribute = /([a-zA-Z][-a-zA-Z:]*)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'<>=`]+)))?/g;

/**
 * Whether html of a cell may stand in a page as it is: known elements only, rightly nested, no attribute with power.
 *
 * It is a check and not a repair: what does not pass is shown in its plain form instead. The page's policy, under which no
 * script of a cell runs, stands behind it.
 *
 * @param html a fragment
 */
export function isSafeHtml(html: string): boolean {
  const open: string[] = [];
  let at = 0;
  for (;;) {
    const next = html.indexOf("<", at);
    if (next === -1) return open.length === 0;
    tag.lastIndex = next;
    const found = tag.exec(html);
    if (found === null) return false;
    const [whole, closing, written, inside] = found;
    const name = written.toLowerCase();
    if (!elements.has(name)) return false;
    if (closing === "/") {
      if (inside !== "" || open.pop() !== name) return false;
    } else {
      for (const [, key, double, single, bare] of inside.matchAll(attribute)) {
        if (!hasNoPower(key.toLowerCase(), double ?? single ?? bare ?? "")) return false;
      }
      if (!empty.has(name)) open.push(name);
    }
    at = next + whole.length;
  }
}

function hasNoPower(key: string, value: string): boolean {
  if (!attributes.has(key)) return false;
  if (key === "href") return /^(#|https?:\/\/)/i.test(value);
  if (key === "style") return !/url|position|expression|import|\\|&|z-index/i.test(value);
  return true;
}
