import { existsSync, readFileSync, rmdirSync, rmSync } from "node:fs";
import { homedir } from "node:os";
import { join, resolve } from "node:path";
import { RecordError } from "../../ground/complaint.js";
import { writeBeside } from "../disk/writeBeside.js";
import { ownRoot } from "../kernel/ownPackage.js";
import { kernelFolders, kernelName, kernelSpec, type KernelSpec, type Machine, specFolder } from "../kernel/spec.js";
import { jsonText } from "./json.js";
import type { ExitCode } from "./outcome.js";

export type KernelAction = "install" | "remove" | "status";

/** What the command tells. */
interface KernelState {
  readonly name: string;
  /** Folder of the kernel's description. */
  readonly path: string;
  readonly installed: boolean;
}

/**
 * `airtides kernel`: registers the kernel with Jupyter, takes it away, or says where it stands; no Python is needed.
 *
 * @param action         what to do
 * @param options.prefix an installation such as a virtual environment; default this user
 * @param machine        where; tests give their own
 * @throws RecordError   when a description of somebody else's lies there, or nothing can be written
 */
export async function kernelCommand(
  action: KernelAction,
  options: { readonly prefix?: string; readonly json?: boolean; readonly quiet?: boolean },
  machine: Machine = { platform: process.platform, home: homedir(), environment: process.env },
): Promise<ExitCode> {
  const note = (sentence: string): void => {
    if (options.quiet !== true) process.stderr.write(`${sentence}\n`);
  };
  const prefix = options.prefix === undefined ? undefined : resolve(options.prefix);
  const target = specFolder(machine, prefix);
  const state = action === "install" ? await install(target, machine, note) : action === "remove" ? remove(target) : statusOf(target, prefix, machine, note);
  process.stdout.write(options.json === true ? jsonText(state) : `${told(action, state)}\n`);
  return 0;
}

async function install(folder: string, machine: Machine, note: (sentence: string) => void): Promise<KernelState> {
  const spec = kernelSpec(process.execPath, ownRoot());
  if (!existsSync(spec.argv[1])) throw new RecordError(`${spec.argv[1]} must exist before the kernel can be installed; run npm run build in ${ownRoot()}`, "description");
  const file = join(folder, "kernel.json");
  refuseForeign(file);
  await writeBeside(file, jsonText(spec), { replace: true });
  if (!kernelFolders(machine).includes(join(folder, ".."))) note(`a Jupyter that belongs to this folder will find it; any other looks elsewhere (JUPYTER_PATH may name ${join(folder, "..", "..")})`);
  return { name: kernelName, path: folder, installed: true };
}

function remove(folder: string): KernelState {
  const file = join(folder, "kernel.json");
  refuseForeign(file);
  rmSync(file, { force: true });
  try {
    rmdirSync(folder);
  } catch {
    // Not there, or something of the owner's lies in it.
  }
  return { name: kernelName, path: folder, installed: false };
}

function statusOf(target: string, prefix: string | undefined, machine: Machine, note: (sentence: string) => void): KernelState {
  const places = prefix === undefined ? kernelFolders(machine).map((folder) => join(folder, kernelName)) : [target];
  const found = places.find((folder) => existsSync(join(folder, "kernel.json")));
  if (found === undefined) return { name: kernelName, path: target, installed: false };
  const spec = readSpec(join(found, "kernel.json"));
  for (const path of spec?.argv.slice(0, 2) ?? []) if (!existsSync(path)) note(`${join(found, "kernel.json")} names ${path}, which is not there any more; run airtides kernel install again`);
  if (spec === null || !isOurs(spec)) note(`${join(found, "kernel.json")} was not written by this command`);
  return { name: kernelName, path: found, installed: true };
}

function told(action: KernelAction, { path, installed }: KernelState): string {
  if (action === "remove") return `the kernel ${kernelName} is no longer in ${path}`;
  const title = kernelSpec("", "").display_name;
  if (action === "install") return `the kernel “${title}” stands in ${path}; start Jupyter and choose it`;
  return installed ? `the kernel “${title}” is installed in ${path}` : `the kernel “${title}” is not installed; airtides kernel install would put it into ${path}`;
}

function readSpec(file: string): KernelSpec | null {
  try {
    const spec = JSON.parse(readFileSync(file, "utf8")) as Partial<KernelSpec> | null;
    return Array.isArray(spec?.argv) && spec.argv.every((word) => typeof word === "string") ? (spec as KernelSpec) : null;
  } catch {
    return null;
  }
}

function isOurs(spec: KernelSpec): boolean {
  return spec.argv.some((word) => /[\\/]door[\\/]kernel[\\/]kernelMain\.js$/.test(word));
}

/** A description under our name that we did not write stays as it is. */
function refuseForeign(file: string): void {
  if (!existsSync(file)) return;
  const spec = readSpec(file);
  if (spec === null || !isOurs(spec)) throw new RecordError(`${file} was not written by airtides kernel install and is left as it is; move it away first`, "description", { file });
}
