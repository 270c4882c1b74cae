import { random } from "../../../../lib/ground/random.js";
import { saturationVaporPressure } from "../../../../lib/air/saturationVaporPressure.js";

/** What a place's air did: house units, one value a step. */
export interface InventedAir {
  readonly t: number[];
  readonly rh: number[];
  readonly p: number[];
}

/** Options of an invented stretch of air. */
export interface AirPlan {
  readonly seed: number;
  readonly steps: number;
  /** Minutes. */
  readonly every: number;
  readonly mean?: number;
  /** Half of the daily range. */
  readonly swing?: number;
  readonly level?: number;
  /** Epoch ms of the first step, whose hour of the day the daily round follows. */
  readonly from?: number;
  /** Vapor pressure, hPa. */
  readonly vapor?: number;
}

/** Invented air: a daily round with red noise, humidity from slow vapor, pressure from slow weather and a small tide. */
export function inventedAir({ seed, steps, every, mean = 13, swing = 6, level = 1009, vapor = 10, from = 0 }: AirPlan): InventedAir {
  const chance = random(seed);
  const keep = Math.exp(-every / 600);
  const [t, rh, p]: number[][] = [[], [], []];
  let [warm, wet, weather] = [0, 0, 3 * chance.normal()];
  for (let i = 0; i < steps; i++) {
    const day = (from % 86_400_000) / 86_400_000 + (i * every) / 1440;
    warm = keep * warm + Math.sqrt(1 - keep ** 2) * chance.normal();
    wet = keep * wet + Math.sqrt(1 - keep ** 2) * chance.normal();
    weather += -0.0004 * every * weather * 0.1 + 0.012 * Math.sqrt(every) * chance.normal();
    const temperature = mean - swing * Math.cos(2 * Math.PI * (day - 0.12)) + 0.15 * swing * warm;
    t.push(temperature);
    rh.push(Math.min(99, Math.max(8, (100 * vapor * Math.exp(0.08 * wet)) / saturationVaporPressure(temperature))));
    p.push(level + weather + 0.6 * Math.cos(4 * Math.PI * (day - 0.41)));
  }
  return { t, rh, p };
}

/** Air indoors: calmer and later than outdoors. */
export function indoorAir(plan: AirPlan): InventedAir {
  return inventedAir({ ...plan, mean: plan.mean ?? 20.5, swing: plan.swing ?? 1.3, vapor: plan.vapor ?? 12 });
}
