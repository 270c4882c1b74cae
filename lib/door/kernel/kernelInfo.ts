import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { protocolVersion } from "./wire.js";

/**
 * Content of a kernel_info_reply.
 *
 * @param root folder of the package
 * @source Jupyter messaging protocol 5.4, "Kernel info"
 */
export function kernelInfo(root: string): Readonly<Record<string, unknown>> {
  const own = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
  // Read from the compiler's package, so that the answer does not wait for the compiler.
  const tslab = createRequire(createRequire(import.meta.url).resolve("tslab/package.json"));
  const language = JSON.parse(readFileSync(tslab.resolve("@tslab/typescript-for-tslab/package.json"), "utf8")) as { version: string };
  return {
    status: "ok",
    protocol_version: protocolVersion,
    implementation: "airtides",
    implementation_version: own.version,
    banner: `airtides ${own.version}: TypeScript ${language.version} on Node ${process.versions.node}. import { … } from "airtides"`,
    help_links: [],
    debugger: false,
    supported_features: [],
    language_info: {
      name: "typescript",
      version: language.version,
      mimetype: "text/typescript",
      file_extension: ".ts",
      pygments_lexer: "typescript",
      nbconvert_exporter: "script",
      codemirror_mode: { name: "javascript", mode: "typescript", typescript: true },
    },
  };
}
