import { steppedColors } from "../../figure/still/axisScale.js";
import { paint } from "../../figure/still/paint.js";
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

/**
 * Style rules that turn light stills dark: a color is found by its value, since a still writes it as an attribute.
 *
 * @param scope selector of what holds the stills
 */
export function darkStillStyle(scope: string): string {
  const [light, dark] = [paletteOf("light"), paletteOf("dark")];
  const pairs = new Map<string, string>();
  for (const [from, to] of colorPairs()) pairs.set(paint(from).color, paint(to).color);
  // Heat maps are drawn in steps of their scale.
  for (const scale of ["ramp", "coldWarm"] as const) {
    const [steps, others] = [steppedColors(light[scale]), steppedColors(dark[scale])];
    steps.forEach((color, k) => void (pairs.has(color) || pairs.set(color, others[k])));
  }
  const rules = [...pairs].flatMap(([from, to]) => [`${scope} [fill="${from}"]{fill:${to}}`, `${scope} [stroke="${from}"]{stroke:${to}}`]);
  return `@media screen and (prefers-color-scheme: dark) {\n${rules.join("\n")}\n}\n`;
}
