import { chance } from "../invent/chance.mjs";
import * as plan from "./plan.mjs";

const within = (row, { from, to }) => row.at >= from && row.at < to;

/** Puts a fault's mark on a row; `size` in the unit of the quantity, null where none is meant. */
function mark(row, flag, quantity, size, id) {
  row.marks.push({ flag, quantity, size, id: `${flag} ${id}` });
}

/** Faults that last: stuck, level shift, wet hygrometer, impossible values, and the sun (already in the readings). */
function lastingFaults(place, rows) {
  const random = chance(plan.seed, `${place} lasting faults`);
  for (const [k, fault] of plan.stuck.entries()) {
    if (fault.place !== place) continue;
    const hit = rows.filter((row) => within(row, fault));
    for (const row of hit) {
      row[fault.quantity] = hit[0][fault.quantity];
      mark(row, "stuck", fault.quantity, null, k);
    }
  }
  for (const row of rows) {
    const { quantity, size, from } = plan.step;
    if (plan.step.place === place && row.at >= from) {
      row[quantity] += size;
      mark(row, "step", quantity, size, 0);
    }
    const spell = place === "veranda" ? plan.wet.findIndex((w) => within(row, w)) : -1;
    if (spell >= 0) {
      row.relative_humidity = random.within(100, 102.5);
      mark(row, "saturated", "relative_humidity", null, spell);
    }
    // A tenth of a degree is the least that can be seen in the log.
    if (row.heated >= 0.1) mark(row, "warmed", "air_temperature", row.heated, new Date(row.at).toISOString().slice(0, 10));
  }
  for (const [k, fault] of plan.range.entries()) {
    if (fault.place !== place) continue;
    const first = rows.findIndex((row) => row.at >= fault.from);
    for (const row of rows.slice(first, first + fault.rows)) {
      row[fault.quantity] = fault.value;
      mark(row, "range", fault.quantity, null, k);
    }
  }
}

/** Single readings far off, never within two hours of another mark or a gap. */
function spikes(place, rows) {
  const random = chance(plan.seed, `${place} spikes`);
  const twoHours = 24;
  const gaps = plan.gaps.filter((gap) => gap.places.includes(place));
  const isQuiet = (i) => {
    const near = rows.slice(i - twoHours, i + twoHours + 1);
    const lasting = (row) => row.marks.some(({ flag }) => flag !== "step");
    const odd = [...gaps, plan.swap, plan.clockSetBack];
    return near.every((row) => !lasting(row) && !odd.some((o) => within(row, o)));
  };
  for (const { quantity, count, low, high } of plan.spikes.filter((s) => s.place === place)) {
    for (let k = 0; k < count; k++) {
      let i = random.whole(twoHours, rows.length - twoHours - 1);
      while (!isQuiet(i)) i = random.whole(twoHours, rows.length - twoHours - 1);
      const up = random.uniform() < 0.5;
      let size = (up ? 1 : -1) * random.within(low, high);
      // A hygrometer's spike stays on its scale, so it goes where there is room.
      if (quantity === "relative_humidity") size = rows[i][quantity] > 55 ? -Math.abs(size) : Math.abs(size);
      rows[i][quantity] += size;
      mark(rows[i], "spike", quantity, size, `${quantity} ${k}`);
    }
  }
}

/** Values that never came, as NaN with the text that stands for them. */
function missingValues(place, rows) {
  const random = chance(plan.seed, `${place} missing values`);
  for (const row of rows) {
    for (const quantity of Object.keys(plan.decimals)) {
      if (random.uniform() >= plan.missingShare || row.marks.some(({ flag }) => flag !== "step")) continue;
      row[quantity] = Number.NaN;
      row.missingText = random.oneOf(["", "NA"]);
    }
  }
}

/** Rows that were never written: gaps, and single ones lost on the radio. */
function present(place, rows) {
  const random = chance(plan.seed, `${place} lost rows`);
  const gaps = plan.gaps.filter((gap) => gap.places.includes(place));
  return rows.filter((row) => {
    const lost = random.uniform() < plan.lostShare;
    return !gaps.some((gap) => within(row, gap)) && (!lost || row.marks.some(({ flag }) => flag === "spike" || flag === "range"));
  });
}

/** The clock that was not set after the power came back, and rows written twice with other values. */
function clockAndDoubles(place, rows) {
  const { unsetClock } = plan;
  if (place === unsetClock.place) {
    const first = rows.findIndex((row) => row.at >= unsetClock.from);
    rows.slice(first, first + unsetClock.rows).forEach((row, k) => {
      row.unset = true;
      row.written = unsetClock.shows + k * plan.stepSeconds * 1000;
    });
  }
  if (place !== "veranda") return rows;
  const random = chance(plan.seed, "logged twice");
  const doubled = new Set();
  while (doubled.size < plan.loggedTwice) {
    const i = random.whole(0, rows.length - 1);
    const { marks, unset, air_temperature: t, surface_air_pressure: p } = rows[i];
    if (marks.length === 0 && !unset && !within(rows[i], plan.swap) && !Number.isNaN(t + p)) doubled.add(i);
  }
  return rows.flatMap((row, i) => {
    if (!doubled.has(i)) return [row];
    const again = { ...row, air_temperature: row.air_temperature + 0.2, surface_air_pressure: row.surface_air_pressure - 0.05 };
    return [row, again];
  });
}

/**
 * Plants every fault in the rows of one logger.
 *
 * @param place "veranda" or "library"
 * @param rows  from `soundRows`; changed
 * @returns rows as they came to the card, in time order; swapped rows carry the other place's letter
 */
export function plantFaults(place, rows) {
  lastingFaults(place, rows);
  spikes(place, rows);
  missingValues(place, rows);
  const kept = clockAndDoubles(place, present(place, rows));
  const other = place === "veranda" ? "library" : "veranda";
  for (const row of kept) {
    if (!within(row, plan.swap)) continue;
    row.letter = plan.letters[other];
    for (const quantity of Object.keys(plan.decimals)) mark(row, "swapped", quantity, null, 0);
  }
  return kept;
}
