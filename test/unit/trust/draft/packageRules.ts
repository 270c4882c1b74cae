/**
 * Faults of a description by Data Package 2.0 as its prose has it, written from the rules alone and not from our reader's checks.
 *
 * Source: reference-values §10.2 of the project's notes, read from the standard's pages (package, resource, dialect, schema) and its 2.0 profile.
 */
export function packageFaults(d: any): string[] {
  const faults: string[] = [];
  const must = (ok: boolean, says: string): void => {
    if (!ok) faults.push(says);
  };
  must(d.$schema === "https://datapackage.org/profiles/2.0/datapackage.json", "$schema names the 2.0 profile");
  must(/^[a-z0-9._-]+$/.test(d.name), "name in lower case letters, digits, point, hyphen, underscore");
  must(Array.isArray(d.resources) && d.resources.length >= 1, "at least one resource");
  const names = d.resources.map((r: any) => r.name);
  must(new Set(names).size === names.length && names.every((n: unknown) => typeof n === "string" && n !== ""), "resource names unique");
  for (const r of d.resources) {
    must(r.type === "table", "tabular resources say type table");
    must(r.path !== undefined && r.data === undefined, "path and no data");
    const paths = Array.isArray(r.path) ? r.path : [r.path];
    for (const p of paths) must(typeof p === "string" && !/^([/\\]|[a-z]+:)/i.test(p) && !p.split("/").some((x: string) => x === "" || x.startsWith(".")), `path ${p} is inside`);
    const dialect = r.dialect ?? {};
    must(dialect.delimiter === undefined || dialect.delimiter.length > 0, "delimiter not empty");
    must(dialect.quoteChar === undefined || dialect.quoteChar.length === 1, "quoteChar one character");
    for (const key of Object.keys(dialect)) must(["delimiter", "header", "headerRows", "headerJoin", "commentRows", "commentChar", "quoteChar", "doubleQuote", "skipInitialSpace", "lineTerminator", "escapeChar", "nullSequence"].includes(key), `dialect.${key} is the standard's`);
    const fields = r.schema.fields;
    must(new Set(fields.map((f: any) => f.name)).size === fields.length, "field names unique");
    for (const f of fields) {
      must(typeof f.name === "string" && f.name !== "", "field has a name");
      must(["string", "number", "integer", "datetime", "date", "time"].includes(f.type), "field has a type");
      must(f.quantity === undefined || f.type === "number" || f.type === "integer", "a quantity is a number");
      must(f.format === undefined || (/^([^%]|%[YymdHIpMSfzjbB%])*$|^%[sQ]$/.test(f.format) && f.format !== "any"), `format ${f.format} is strptime`);
      checkMissing(f.missingValues, must);
    }
    checkMissing(r.schema.missingValues, must);
  }
  return faults;
}

function checkMissing(list: unknown, must: (ok: boolean, says: string) => void): void {
  if (list === undefined) return;
  must(Array.isArray(list) && list.every((m) => typeof m === "string") && new Set(list).size === list.length, "missing values are texts and all different");
}
