/** Colors for a light page or for a dark one. */
export type ThemeName = "light" | "dark";

/** What every figure may be told. */
export interface FigureOptions {
  /** Colors for a light page (default, also for print) or a dark one. */
  readonly theme?: ThemeName;
}

/** Colors of one theme; each is written out, so that a figure needs no style sheet. */
export interface Palette {
  readonly name: ThemeName;
  readonly paper: string;
  readonly ink: string;
  /** Second words: ticks, notes. */
  readonly softInk: string;
  readonly grid: string;
  readonly axis: string;
  readonly outside: string;
  readonly inside: string;
  /** Of bands about a line, seen through. */
  readonly outsideBand: string;
  readonly insideBand: string;
  /** The tide, and what is fitted. */
  readonly fit: string;
  readonly fitBand: string;
  /** Reference levels and backgrounds. */
  readonly reference: string;
  readonly referenceBand: string;
  /** Faults and jumps. */
  readonly fault: string;
  readonly faultBand: string;
  /** Nothing measured. */
  readonly blank: string;
  readonly low: string;
  readonly high: string;
  /** From little to much; readable without color, darker (lighter on dark) is more. */
  readonly ramp: readonly (readonly [number, string])[];
  /** From cold to warm about a middle. */
  readonly coldWarm: readonly (readonly [number, string])[];
}

/**
 * Outside and inside are blue and vermilion of Okabe and Ito's eight, a pair that stays apart for every kind of color-blind reader;
 * on dark their sky blue, and an orange. The fit's green is their bluish green, darker so that letters in it can be read.
 *
 * @source M. Okabe, K. Ito, "Color Universal Design" (2008); values as listed at emilhvitfeldt.github.io/r-color-palettes, colorblindr::OkabeIto
 */
const light: Palette = Object.freeze({
  name: "light",
  paper: "#ffffff",
  ink: "#1d2329",
  softInk: "#555e68",
  grid: "#e4e7ea",
  axis: "#8a939c",
  outside: "#0072b2",
  inside: "#d55e00",
  outsideBand: "rgba(0,114,178,0.20)",
  insideBand: "rgba(213,94,0,0.24)",
  fit: "#00795a",
  fitBand: "rgba(0,121,90,0.22)",
  reference: "#5b646d",
  referenceBand: "rgba(91,100,109,0.18)",
  fault: "#a0326b",
  faultBand: "rgba(160,50,107,0.25)",
  blank: "#f1f3f5",
  low: "#0072b2",
  high: "#d55e00",
  ramp: Object.freeze([[0, "#f2f6fa"], [0.25, "#bfd7ea"], [0.5, "#7fb2d6"], [0.75, "#3b86ba"], [1, "#0b4a7a"]] as const),
  coldWarm: Object.freeze([[0, "#2c5aa0"], [0.25, "#8db3d9"], [0.5, "#f4f1e6"], [0.75, "#f0a35e"], [1, "#b0430b"]] as const),
});

const dark: Palette = Object.freeze({
  name: "dark",
  paper: "#14181c",
  ink: "#e8ecf0",
  softInk: "#aab3bc",
  grid: "#2b3239",
  axis: "#6d7781",
  outside: "#56b4e9",
  inside: "#f08a3c",
  outsideBand: "rgba(86,180,233,0.24)",
  insideBand: "rgba(240,138,60,0.26)",
  fit: "#35c49a",
  fitBand: "rgba(53,196,154,0.24)",
  reference: "#98a2ac",
  referenceBand: "rgba(152,162,172,0.22)",
  fault: "#e58ab8",
  faultBand: "rgba(229,138,184,0.30)",
  blank: "#20262c",
  low: "#56b4e9",
  high: "#f08a3c",
  ramp: Object.freeze([[0, "#1b2a36"], [0.25, "#20496a"], [0.5, "#2f7aae"], [0.75, "#66b1de"], [1, "#d3ecfb"]] as const),
  coldWarm: Object.freeze([[0, "#79b4f2"], [0.25, "#3f6ea3"], [0.5, "#3a3d40"], [0.75, "#b3662c"], [1, "#ffb070"]] as const),
});

/**
 * The colors of a theme.
 *
 * @param theme light or dark · default light
 * @returns     see Palette, frozen
 * @example paletteOf("light").outside // "#0072b2"
 */
export function paletteOf(theme: ThemeName = "light"): Palette {
  return theme === "dark" ? dark : light;
}

/** Fonts that every machine has; sizes in px. */
export const fontFamily: string = 'system-ui, -apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif';
export const fontSize: Readonly<Record<"title" | "text" | "tick", number>> = Object.freeze({ title: 15, text: 13, tick: 12 });
