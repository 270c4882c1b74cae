import type { Figure } from "../../figure/figure.js";
import { heatColors } from "../../figure/still/heatMarks.js";
import { colorSteps, steppedColors } from "../../figure/still/axisScale.js";
import { paint } from "../../figure/still/paint.js";
import type { ThemeName } from "../../figure/theme.js";

/** A color of the light figure beside that of the dark one. */
export type ColorPair = readonly [string, string];

/** A figure, light, and the colors it has on a dark page. */
export interface ThemedFigure {
  readonly figure: Figure;
  /** As they stand in the description: for the drawing library. */
  readonly described: readonly ColorPair[];
  /** As they stand in the still: for a style sheet. */
  readonly drawn: readonly ColorPair[];
}

/**
 * Makes a figure in both themes and sets their colors beside each other.
 *
 * @param make gives the figure in a theme, or null where the answer cannot carry it
 */
export function themed(make: (theme: ThemeName) => Figure | null): ThemedFigure | null {
  const figure = make("light");
  const twin = make("dark");
  if (figure === null || twin === null) return null;
  const described = new Map<string, string>();
  gather({ data: figure.data, layout: figure.layout }, { data: twin.data, layout: twin.layout }, described);
  const drawn = new Map<string, string>();
  for (const [light, dark] of described) drawn.set(paint(light).color, paint(dark).color);
  figure.data.forEach((trace, k) => {
    const other = twin.data[k];
    if (trace.type !== "heatmap" || other?.type !== "heatmap") return;
    const [cells, cellsOfTwin] = [heatColors(trace).colors, heatColors(other).colors];
    cells.forEach((color, i) => void (drawn.has(color) || drawn.set(color, cellsOfTwin[i])));
    const [key, keyOfTwin] = [steppedColors(trace.colorscale), steppedColors(other.colorscale)];
    for (let i = 0; i < colorSteps; i++) if (!drawn.has(key[i])) drawn.set(key[i], keyOfTwin[i]);
  });
  return Object.freeze({ figure, described: [...described], drawn: [...drawn] });
}

/** Every color of one description that differs in the other; what comes first counts. */
function gather(light: unknown, dark: unknown, pairs: Map<string, string>): void {
  if (typeof light === "string") {
    if (typeof dark === "string" && /^(#|rgba?\()/.test(light) && !pairs.has(light)) pairs.set(light, dark);
    return;
  }
  if (typeof light !== "object" || light === null || typeof dark !== "object" || dark === null) return;
  for (const [key, value] of Object.entries(light)) gather(value, (dark as Record<string, unknown>)[key], pairs);
}

/**
 * Style rules that turn a light still dark: a color is found by its value, since a still writes it as an attribute.
 *
 * @param scope selector of what holds the still
 */
export function darkStillRules(scope: string, drawn: readonly ColorPair[]): string {
  return drawn
    .filter(([light, dark]) => light !== dark)
    .map(([light, dark]) => `${scope} [fill="${light}"]{fill:${dark}}${scope} [stroke="${light}"]{stroke:${dark}}`)
    .join("\n");
}
