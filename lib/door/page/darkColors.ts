import { type Palette, paletteOf } from "../../figure/theme.js";

/** Every color of the light theme beside the dark theme's color of the same role, as they stand in a figure's description. */
export function colorPairs(): readonly (readonly [string, string])[] {
  const [light, dark] = [paletteOf("light"), paletteOf("dark")];
  const pairs = new Map<string, string>();
  for (const role of Object.keys(light) as (keyof Palette)[]) {
    const [from, to] = [light[role], dark[role]];
    if (role === "name") continue;
    if (typeof from === "string") pairs.set(from, to as string);
    else from.forEach(([, color], i) => void (pairs.has(color) || pairs.set(color, (to as typeof from)[i][1])));
  }
  return [...pairs];
}
