import { describe, expect, it } from "vitest";
import { kernelFolders, kernelSpec, type Machine, specFolder, userDataFolder } from "../../../../lib/door/kernel/spec.js";

const machine = (platform: NodeJS.Platform, environment: Record<string, string> = {}): Machine => ({ platform, home: platform === "win32" ? "C:\\Users\\ada" : platform === "darwin" ? "/Users/ada" : "/home/ada", environment });

describe("where Jupyter keeps a kernel of this user", () => {
  // Source: Jupyter documentation, "Common directories and file locations", Data files; and jupyter_core 4.12, paths.py jupyter_data_dir.
  const rows: [string, Machine, string][] = [
    ["Linux", machine("linux"), "/home/ada/.local/share/jupyter"],
    ["Linux with XDG_DATA_HOME", machine("linux", { XDG_DATA_HOME: "/data" }), "/data/jupyter"],
    ["macOS", machine("darwin"), "/Users/ada/Library/Jupyter"],
    ["macOS does not look at XDG_DATA_HOME", machine("darwin", { XDG_DATA_HOME: "/data" }), "/Users/ada/Library/Jupyter"],
    ["Windows", machine("win32", { APPDATA: "C:\\Users\\ada\\AppData\\Roaming" }), "C:\\Users\\ada\\AppData\\Roaming\\jupyter"],
    ["Windows without APPDATA", machine("win32"), "C:\\Users\\ada\\.jupyter\\data"],
    ["Windows with JUPYTER_CONFIG_DIR only", machine("win32", { JUPYTER_CONFIG_DIR: "D:\\config" }), "D:\\config\\data"],
    ["anywhere with JUPYTER_DATA_DIR", machine("darwin", { JUPYTER_DATA_DIR: "/elsewhere" }), "/elsewhere"],
    ["an empty variable is none", machine("linux", { JUPYTER_DATA_DIR: "", XDG_DATA_HOME: "" }), "/home/ada/.local/share/jupyter"],
  ];
  for (const [what, where, folder] of rows) it(what, () => expect(userDataFolder(where)).toBe(folder));

  it("with --prefix it lies under share/jupyter of that folder", () => {
    expect(specFolder(machine("linux"), "/venv")).toBe("/venv/share/jupyter/kernels/airtides");
    expect(specFolder(machine("win32"), "D:\\venv")).toBe("D:\\venv\\share\\jupyter\\kernels\\airtides");
    expect(specFolder(machine("linux"))).toBe("/home/ada/.local/share/jupyter/kernels/airtides");
  });
});

describe("the order in which Jupyter looks", () => {
  it("listed, user, environment, system", () => {
    expect(kernelFolders(machine("linux", { JUPYTER_PATH: "/a:/b", VIRTUAL_ENV: "/venv" }))).toEqual(["/a", "/b", "/home/ada/.local/share/jupyter", "/venv/share/jupyter", "/usr/local/share/jupyter", "/usr/share/jupyter"].map((d) => `${d}/kernels`));
  });
  it("environment before user when that is asked for", () => {
    for (const yes of ["1", "true", "yes"]) expect(kernelFolders(machine("linux", { CONDA_PREFIX: "/conda", JUPYTER_PREFER_ENV_PATH: yes }))[0]).toBe("/conda/share/jupyter/kernels");
    for (const no of ["0", "no", "False", "off", ""]) expect(kernelFolders(machine("linux", { CONDA_PREFIX: "/conda", JUPYTER_PREFER_ENV_PATH: no }))[0]).toBe("/home/ada/.local/share/jupyter/kernels");
  });
  it("on Windows", () => {
    expect(kernelFolders(machine("win32", { APPDATA: "C:\\R", PROGRAMDATA: "C:\\P", JUPYTER_PATH: "D:\\a;D:\\b" }))).toEqual(["D:\\a\\kernels", "D:\\b\\kernels", "C:\\R\\jupyter\\kernels", "C:\\P\\jupyter\\kernels"]);
  });
});

it("kernel.json names absolute files, speaks of interrupts by message, and gives the connection file last", () => {
  const spec = kernelSpec("/usr/bin/node", "/opt/airtides");
  expect(spec.argv).toEqual(["/usr/bin/node", "/opt/airtides/dist/door/kernel/kernelMain.js", "{connection_file}"]);
  expect(spec).toMatchObject({ display_name: "TypeScript (airtides)", language: "typescript", interrupt_mode: "message" });
});
