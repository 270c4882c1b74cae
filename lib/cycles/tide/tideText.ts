import type { Estimate } from "../../ground/estimate.js";
import type { Constituent, TideFit } from "./tideFit.js";

/** `1.12 (1.04 to 1.21)` with the digits that the interval carries. */
function told({ value, low, high }: Estimate, unit: string): string {
  const width = high - low;
  const digits = width > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(width / 2)))) : 3;
  return `${value.toFixed(digits)} ${unit} (${low.toFixed(digits)} to ${high.toFixed(digits)})`;
}

function lineText(c: Constituent, unit: string): string {
  const clock = /^S\d$/.test(c.name) ? "sun time" : c.name === "L2" ? "lunar hours after the moon's transit" : "of its own clock";
  const crest = c.maximumAt === null ? `not detected; this record would show ${c.detectionLimit.toPrecision(2)} ${unit}` : `crest at ${told(c.maximumAt, "h")} ${clock}`;
  return `  ${c.name}  ${told(c.amplitude, unit)}  ${crest}`;
}

/**
 * A tide fit as plain text: one line a constituent with its 95 % interval, then the warnings.
 *
 * @param fit see `fitTides`
 */
export function tideText(fit: TideFit): string {
  const head = `${fit.place}, ${fit.quantity}: ${fit.days.toFixed(1)} days, ${fit.hours} hours with readings, mean ${fit.mean.toFixed(1)} ${fit.unit === "K" ? "degC" : fit.unit}`;
  return [head, ...fit.constituents.map((c) => lineText(c, fit.unit)), ...fit.warnings.map((w) => `  ! ${w}`), "  In brackets: 95 % intervals."].join("\n");
}
