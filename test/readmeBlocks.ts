import { readFileSync } from "node:fs";

/** The three examples of README.md's library section, as they stand there. */
export function readmeBlocks(): { readonly job: string; readonly page: string; readonly csv: string } {
  const text = readFileSync(new URL("../README.md", import.meta.url), "utf8");
  const section = /^## The library\n([\s\S]*?)^## /m.exec(text)?.[1] ?? "";
  const blocks = [...section.matchAll(/^```(ts|html)\n([\s\S]*?)^```/gm)];
  const kinds = blocks.map(([, kind]) => kind).join(" ");
  if (kinds !== "ts html ts") throw new Error(`README.md's library section must hold a job, a page and a CSV (got ${kinds})`);
  const [job, page, csv] = blocks.map(([, , body]) => body);
  return { job, page, csv };
}
