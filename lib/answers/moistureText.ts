import type { Estimate } from "../ground/estimate.js";
import type { PairNumbers } from "../indoors/pairNumbers.js";
import type { RiskHours } from "../indoors/surfaceRisk.js";
import { estimateInWords, shareInWords, turnedOver, wrapped } from "./words.js";

/**
 * Moisture, condensation, mould and comfort of a pair as text for people.
 *
 * @param pair    numbers of a pair of places
 * @param surface temperature factor f_Rsi of the surface judged
 * @param columns width of the screen
 * @returns       no line where no humidity was logged
 */
export function moistureLines(pair: PairNumbers, surface: number, columns: number): string[] {
  const { moistureExcess, vaporPressureExcess, humidityClass, condensation, mould, comfort } = pair;
  const lines: string[] = [];
  const say = (text: string): void => void lines.push(...wrapped(text, columns));
  if (moistureExcess !== null && vaporPressureExcess !== null) {
    const less = moistureExcess.high < 0;
    const size = (e: Estimate, scale: number, unit: string): string => {
      const { value, low, high } = less ? turnedOver(e) : e;
      return estimateInWords({ ...e, value: scale * value, low: scale * low, high: scale * high, unit });
    };
    const holds = less || moistureExcess.low > 0 ? `the air holds ${size(moistureExcess, 1, "g m-3")} ${less ? "less" : "more"} water vapor than outside` : `the air holds as much water vapor as outside, within what can be told: ${size(moistureExcess, 1, "g m-3")} more`;
    const rank = humidityClass === null ? "" : ` ${humidityClass.says}`;
    say(`Moisture: inside ${holds} (${size(vaporPressureExcess, 100, "Pa")}).${rank}`);
  }
  if (condensation !== null && mould !== null) {
    say(`On an inner surface of temperature factor ${surface.toFixed(2)}: ${hours(mould, "at 80 % humidity and above, where mould may grow")}; ${hours(condensation, "of condensation")}. At 80 % and other factors: ${others(mould)}; if the hygrometer reads ${readings(mould)}.`);
  }
  if (comfort !== null && moistureExcess !== null) {
    const judged = comfort.bands.filter((b) => b.hours > 0 && b.within !== null);
    if (judged.length > 0) say(`Comfort, for people who adapt and rooms without cooling machines: ${judged.map((b) => `${b.band} ${b.within === null ? "" : shareInWords(b.within.value)}`).join(", ")} of the hours. ${comfort.says.join(" ")}`);
  }
  return lines;
}

function hours({ hours: count, share }: RiskHours, what: string): string {
  const reach = share === null ? "" : count === 0 ? ` (a share of up to ${shareInWords(share.high)} may have been missed)` : ` (${shareInWords(share.value)}, ${shareInWords(share.low)} to ${shareInWords(share.high)})`;
  return `${Math.round(count)} h ${what}${reach}`;
}

function readings({ atOtherReadings }: RiskHours): string {
  return atOtherReadings.map((r) => `${Math.abs(r.humidity)} % too ${r.humidity < 0 ? "high" : "low"}: ${Math.round(r.hours)} h`).join(", ");
}

function others({ atOtherFactors }: RiskHours): string {
  return atOtherFactors.map((f) => `${f.factor.toFixed(2)} gives ${Math.round(f.hours)} h`).join(", ");
}
