import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The package that this file belongs to, as cells may import it. */
export interface OwnPackage {
  readonly root: string;
  readonly name: string;
  readonly version: string;
  /** Import name (`airtides`, `airtides/disk`) to the files with its types and its code. */
  readonly entries: ReadonlyMap<string, { readonly types: string; readonly code: string }>;
}

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly exports: Readonly<Record<string, string | { readonly types: string; readonly default: string }>>;
}

/** The package's folder: three up from here, in lib/ as in dist/. */
export function ownRoot(): string {
  return join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..");
}

/**
 * Reads the package's own package.json.
 *
 * @throws Error when the package has not been built
 */
export function ownPackage(): OwnPackage {
  const root = ownRoot();
  const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as Manifest;
  const entries = new Map<string, { types: string; code: string }>();
  for (const [key, value] of Object.entries(manifest.exports)) {
    if (typeof value === "string") continue;
    const code = join(root, value.default);
    // A part that is not there is not offered; without the main one nothing is.
    if (!existsSync(code) && key !== ".") continue;
    if (!existsSync(code)) throw new Error(`${code} must exist before a cell can import ${manifest.name}; run npm run build in ${root}`);
    entries.set(key === "." ? manifest.name : `${manifest.name}/${key.slice(2)}`, { types: join(root, value.types), code });
  }
  return { root, name: manifest.name, version: manifest.version, entries };
}
