import { join, posix, win32 } from "node:path";

/** The kernel's name in every list of kernels. */
export const kernelName = "airtides";

/** What of the machine decides where a kernel's description lies; given by tests. */
export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly home: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
}

/**
 * Folders in which Jupyter looks for kernels, the first found wins; each holds one folder a kernel.
 *
 * @source Jupyter's documentation of data files ("Common directories and file locations"), and jupyter_core 4.12 paths.py
 */
export function kernelFolders(machine: Machine): readonly string[] {
  const { platform, environment } = machine;
  const path = platform === "win32" ? win32 : posix;
  const listed = (environment.JUPYTER_PATH ?? "").split(path.delimiter).filter((part) => part !== "");
  const system = platform === "win32" ? [path.join(environment.PROGRAMDATA ?? "C:\\ProgramData", "jupyter")] : ["/usr/local/share/jupyter", "/usr/share/jupyter"];
  const own = environmentFolders(machine);
  const user = [userDataFolder(machine)];
  const preferred = !["", "0", "n", "no", "off", "false"].includes((environment.JUPYTER_PREFER_ENV_PATH ?? "").toLowerCase());
  return [...listed, ...(preferred ? [...own, ...user] : [...user, ...own]), ...system].map((data) => path.join(data, "kernels"));
}

/** Data folder of an active virtual environment, if any. */
function environmentFolders({ platform, environment }: Machine): readonly string[] {
  const path = platform === "win32" ? win32 : posix;
  const prefix = environment.VIRTUAL_ENV ?? environment.CONDA_PREFIX;
  return prefix === undefined || prefix === "" ? [] : [path.join(prefix, "share", "jupyter")];
}

/** Jupyter's data folder of this user. */
export function userDataFolder({ platform, home, environment }: Machine): string {
  const path = platform === "win32" ? win32 : posix;
  const named = environment.JUPYTER_DATA_DIR;
  if (named !== undefined && named !== "") return named;
  if (platform === "darwin") return path.join(home, "Library", "Jupyter");
  if (platform === "win32") {
    const roaming = environment.APPDATA;
    if (roaming !== undefined && roaming !== "") return path.join(roaming, "jupyter");
    const config = environment.JUPYTER_CONFIG_DIR;
    return path.join(config !== undefined && config !== "" ? config : path.join(home, ".jupyter"), "data");
  }
  const shared = environment.XDG_DATA_HOME;
  return path.join(shared !== undefined && shared !== "" ? shared : path.join(home, ".local", "share"), "jupyter");
}

/**
 * The folder of our kernel's description.
 *
 * @param machine where
 * @param prefix  an installation such as a virtual environment; undefined is this user
 */
export function specFolder(machine: Machine, prefix?: string): string {
  const path = machine.platform === "win32" ? win32 : posix;
  const data = prefix === undefined ? userDataFolder(machine) : path.join(prefix, "share", "jupyter");
  return path.join(data, "kernels", kernelName);
}

/** A kernel.json as Jupyter reads it. */
export interface KernelSpec {
  readonly argv: readonly string[];
  readonly display_name: string;
  readonly language: string;
  readonly interrupt_mode: "message";
  readonly metadata: Readonly<Record<string, unknown>>;
}

/**
 * Our kernel.json. Both paths are absolute, so that nothing depends on a search path.
 *
 * @param node the Node to start it with
 * @param root folder of the package
 */
export function kernelSpec(node: string, root: string): KernelSpec {
  return {
    argv: [node, join(root, "dist", "door", "kernel", "kernelMain.js"), "{connection_file}"],
    display_name: "TypeScript (airtides)",
    language: "typescript",
    interrupt_mode: "message",
    metadata: { debugger: false },
  };
}
