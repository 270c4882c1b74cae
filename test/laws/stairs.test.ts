import { describe, expect, it } from "vitest";
import { type Source, sources, target } from "./sources.js";

/** Floors of the house, lowest first; a name with a slash is a room inside a floor. */
const floors: readonly (readonly string[])[] = [
  ["ground"],
  ["record", "air"],
  ["grid"],
  ["cycles/spectrum", "cycles/tide", "cycles/swings", "cycles/climate"],
  ["trust", "indoors"],
  ["answers"],
  ["figure"],
  ["door"],
];

/** Pairs of rooms on one floor that may know each other, and why. */
const allowed = new Set([
  "cycles/swings > cycles/spectrum", // the swings test a spectrum
]);

function room(path: string): { name: string; floor: number } {
  for (let floor = 0; floor < floors.length; floor++) {
    for (const name of floors[floor]) if (path.startsWith(`${name}/`)) return { name, floor };
  }
  throw new Error(`lib/${path} stands in no room`);
}

const inRooms = sources.filter((s) => s.path !== "index.ts");

function relativeTargets(source: Source): string[] {
  return source.modules.filter((m) => m.startsWith(".")).map((m) => target(source, m));
}

describe("law 1: stairs", () => {
  it("reads the sources it judges", () => {
    expect(inRooms.length).toBeGreaterThan(5);
  });

  it("every file stands in a room and imports only from its own room or a lower floor", () => {
    const wrong: string[] = [];
    for (const source of inRooms) {
      const from = room(source.path);
      for (const path of relativeTargets(source)) {
        const to = room(path);
        if (to.name === from.name || to.floor < from.floor || allowed.has(`${from.name} > ${to.name}`)) continue;
        wrong.push(`lib/${source.path} imports lib/${path}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it("no file imports lib/index.ts, and index.ts holds no logic", () => {
    expect(inRooms.filter((s) => relativeTargets(s).includes("index.ts")).map((s) => s.path)).toEqual([]);
    const index = sources.find((s) => s.path === "index.ts");
    const lines = (index?.text ?? "").replace(/\/\*[\s\S]*?\*\//g, "").split(";").map((s) => s.trim()).filter((s) => s !== "");
    expect(lines.filter((s) => !/^export (type )?\{[^}]*\} from /.test(s.replace(/\s+/g, " ")))).toEqual([]);
  });

  it("there are no cycles", () => {
    const next = new Map(inRooms.map((s) => [s.path, relativeTargets(s)]));
    const state = new Map<string, "open" | "done">();
    const cycles: string[] = [];
    const walk = (path: string, trail: string[]): void => {
      if (state.get(path) === "done") return;
      if (state.get(path) === "open") {
        cycles.push([...trail.slice(trail.indexOf(path)), path].join(" > "));
        return;
      }
      state.set(path, "open");
      for (const to of next.get(path) ?? []) walk(to, [...trail, path]);
      state.set(path, "done");
    };
    for (const path of next.keys()) walk(path, []);
    expect(cycles).toEqual([]);
  });

  it("no two files share a base name, and none passes 250 lines", () => {
    const seen = new Map<string, string>();
    const twins: string[] = [];
    for (const { path } of inRooms) {
      const name = path.split("/").at(-1) as string;
      if (seen.has(name)) twins.push(`${seen.get(name)} and ${path}`);
      seen.set(name, path);
    }
    expect(twins).toEqual([]);
    const long = sources.filter((s) => s.path !== "index.ts" && s.text.split("\n").length > 251).map((s) => s.path);
    expect(long).toEqual([]);
  });
});
