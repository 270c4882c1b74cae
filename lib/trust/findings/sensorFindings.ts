import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";
import { type Quantity, quantityWords } from "../../record/quantity.js";
import type { Agreement } from "../agreement.js";
import type { Altitude } from "../altitude.js";
import { foldOfPlace } from "../faults/unfoldedWarmth.js";
import { feltSentence, feltTemperature } from "../feltTemperature.js";
import { unitChanges } from "../unitChange.js";
import { unitDoubts } from "../unitDoubt.js";
import { consequence, type Finding, type FindingWords, fine } from "./finding.js";

/**
 * Two sensors side by side may differ by so much before one of them must be doubted: what makers state for sensors of the home class,
 * ±0.2…1 °C, ±2…3 %, ±1 hPa, for each of the two.
 *
 * @source stated accuracies in a published comparison of eight types (Linux Magazine 279)
 */
const classLimit: Readonly<Partial<Record<Quantity, number>>> = { air_temperature: 1, relative_humidity: 5, surface_air_pressure: 2 };
/** Barometers drift by up to so much a year · hPa (common practice, no source). */
const usualDrift = 1;

/**
 * Levels and units: barometer against height, columns against what can be, sensors against each other.
 *
 * @param record    flagged
 * @param altitude  from altitudeOf, by place
 * @param agreement from agreementOf
 * @param words     names and times
 */
export function sensorFindings(record: AirRecord, altitude: Readonly<Record<string, Altitude>>, agreement: readonly Agreement[], words: FindingWords): Finding[] {
  return [
    ...unitDoubts(record, words.place).map(
      (says): Finding => ({ weight: 2, says, remedy: "correct the unit of that field in the description", consequences: consequence(["tides", "swings", "indoors", "climate"], "all", "a whole column is read in the wrong unit") }),
    ),
    ...unitChanges(record).map(
      ({ place, at, ratio, before, after }): Finding => ({
        weight: 2,
        says: `the pressure of ${words.place(place)} is ${Number(ratio.toPrecision(3))} times what it was from ${words.day(at)} on, as when a logger changes from ${before} to ${after}`,
        remedy: "put the lines of either unit into a log of their own, and give each its own resource and unit in the description",
        consequences: consequence(["tides", "swings", "climate"], "all", `the pressure of ${words.place(place)} is in two units`),
      }),
    ),
    ...Object.values(record.places).flatMap((place) => folded(record, place, words)),
    ...Object.entries(altitude).map(([name, a]) => level(words.place(name), a)),
    ...feltTemperature(record).map(
      (felt): Finding => ({
        weight: 1,
        says: feltSentence(felt, words.place),
        remedy: "keep that barometer at an even temperature, out of the sun and away from heaters and its own charger; S2 and S3 hardly change, S1 is not to be believed more closely than that",
        consequences: consequence(["tides"], "note", `S1 of ${words.place(felt.place)} holds about ${felt.inTide.toFixed(2)} hPa of the sensor's own temperature`),
      }),
    ),
    ...agreement.flatMap((a) => agrees(a, words)),
  ];
}

/** A thermometer whose values below zero lost their minus sign. */
function folded(record: AirRecord, place: PlaceRecord, words: FindingWords): Finding[] {
  const fold = foldOfPlace(record, place);
  if (fold === null) return [];
  const name = words.place(place.name);
  return [
    {
      weight: 2,
      says: `temperatures of ${name} below zero seem to have lost their minus sign: none is below 0 °C, though on ${fold.touches} days from ${words.day(fold.from)} to ${words.day(fold.to)} they come down to it, and ${fold.inverted} of ${fold.coldDays} cold days are coldest by day and warmest by night`,
      remedy: "look at a frosty day in the log itself: where the logger or the program that copied it drops the sign, mend that, and read the card again; the signs cannot be put back with certainty",
      consequences: consequence(["indoors", "climate"], "all", `the temperatures of ${name} below zero are read as warmth`),
    },
  ];
}

function level(name: string, { plausible, median, expected, looksLike, impliedElevation }: Altitude): Finding {
  if (plausible) return fine(`the barometer of ${name} fits the height: ${median.toFixed(1)} hPa where ${expected.toFixed(1)} hPa is usual`);
  const isReduced = looksLike === "sea level";
  const half = Math.round((impliedElevation.high - impliedElevation.low) / 2);
  const consequences = isReduced
    ? consequence(["tides"], "all", `the pressure of ${name} looks reduced to sea level, which adds a false tide at this height`)
    : consequence(["climate"], "part", `the barometer of ${name} is off its level`, "in the level of the pressure");
  return {
    weight: 2,
    says: `the barometer of ${name} does not fit the height (${median.toFixed(1)} hPa where ${expected.toFixed(1)} hPa is usual)`,
    remedy: isReduced
      ? "log the pressure at the station; if only the reduced one is there, give the field the quantity air_pressure_at_mean_sea_level"
      : `check the elevation in the description (this would be ${impliedElevation.value.toFixed(0)} ± ${half} m), the unit, and the barometer against a known one`,
    consequences,
  };
}

function agrees({ a, b, quantity, basis, bias, drift, warnings }: Agreement, words: FindingWords): Finding[] {
  const found: Finding[] = [];
  const what = `the ${quantityWords[quantity]} of ${words.place(a)}`;
  const half = (bias.high - bias.low) / 2;
  const decimals = quantity === "relative_humidity" ? 0 : 1;
  const size = `${Math.abs(bias.value).toFixed(decimals)} ± ${half.toFixed(decimals)} ${bias.unit}`;
  const limit = classLimit[quantity];
  if (basis === "co-location") {
    if (limit !== undefined && (bias.low > limit || bias.high < -limit)) {
      found.push({
        weight: 1,
        says: `side by side ${what} reads ${size} ${bias.value > 0 ? "above" : "below"} that of ${words.place(b)}, more than two sensors of the home class should differ (${limit} ${bias.unit})`,
        remedy: "compare both with a third one you trust; until then take their difference off, as indoors does",
        consequences: [],
      });
    }
    for (const warning of warnings) {
      if (!/^only/.test(warning)) continue;
      found.push({ weight: 1, says: `the ${quantityWords[quantity]} of ${words.place(a)} and ${words.place(b)} was compared side by side for a short time: ${warning}`, remedy: "put both on one table for two days and tell it as an event of kind co-location", consequences: consequence(["indoors"], "note", `what the sensors differ by in ${quantityWords[quantity]} is known from a few hours only`) });
    }
  }
  if (drift !== null && (drift.low > usualDrift || drift.high < -usualDrift)) {
    found.push({
      weight: 1,
      says: `the barometers of ${words.place(a)} and ${words.place(b)} drift apart by ${Math.abs(drift.value).toFixed(1)} ± ${((drift.high - drift.low) / 2).toFixed(1)} hPa a year: which of the two drifts they cannot tell, and under a year one that feels its own warmth looks the same`,
      remedy: "compare both with a third barometer now and in some months",
      consequences: consequence(["climate"], "note", "a slow change of pressure may be a barometer's"),
    });
  }
  return found;
}
