import type { ExportedPlace, TideExport } from "./tideExport.js";

/**
 * One C99 header with the tide of every place: for the small program of a station's own display.
 *
 * No heap, float only (whole seconds are 64-bit integers), compiles with -Wall -Wextra -Werror. For each place: the detected
 * lines by name, a table of hourly values by month in local mean solar time, and a function of Unix time.
 *
 * @param data from `tideExport`
 */
export function tideHeader(data: TideExport): string {
  const guard = `${identifier(data.record).toUpperCase()}_TIDE_H`;
  const parts = Object.entries(data.places).map(([name, place]) => placePart(identifier(name), name, place));
  return `/* Tide of the air pressure at ${comment(data.record)}, written by airtides.
 * hPa about the mean; only lines that were detected. The number is the mean tide of the record's days.
 * Not for aviation or navigation, and no storm warning.
 */
#ifndef ${guard}
#define ${guard}

#include <math.h>
#include <stdint.h>

#ifndef AIRTIDES_LINE
#define AIRTIDES_LINE
typedef struct {
  const char *name;
  float cycles_per_day;
  float amplitude_hpa;  /* mean to crest */
  float maximum_h;      /* first crest: hours of local mean solar time (lunar hours for L2) */
  int whole_cycles;     /* nearest whole number of cycles a day */
  float extra_cycles;   /* cycles a day beyond it */
  float cosine_hpa;     /* at the epoch 2000-01-01T00:00Z */
  float sine_hpa;
} airtides_line;

static inline float airtides_sum(const airtides_line *lines, int count, int64_t unix_seconds) {
  int64_t since = unix_seconds - INT64_C(946684800);
  int64_t day = since / 86400;
  int64_t rest = since % 86400;
  float sum = 0.0f;
  if (rest < 0) { rest += 86400; day -= 1; }
  for (int i = 0; i < count; i++) {
    float part = (float)rest / 86400.0f;
    float turns = (float)lines[i].whole_cycles * part + lines[i].extra_cycles * ((float)day + part);
    float angle = 6.28318531f * (turns - floorf(turns));
    sum += lines[i].cosine_hpa * cosf(angle) + lines[i].sine_hpa * sinf(angle);
  }
  return sum;
}
#endif

${parts.join("\n")}
#endif
`;
}

function placePart(id: string, name: string, place: ExportedPlace): string {
  const count = place.lines.length;
  const rows = place.lines.map((l) => {
    const whole = Math.round(l.cyclesPerDay);
    return `  { "${l.name}", ${float(l.cyclesPerDay)}, ${float(l.amplitude)}, ${float(l.maximumAt)}, ${whole}, ${float(l.cyclesPerDay - whole)}, ${float(l.cosine)}, ${float(l.sine)} },`;
  });
  // C has no empty arrays: a place without a detected line keeps one that adds nothing.
  const none = '  { "none", 0.0f, 0.0f, 0.0f, 0, 0.0f, 0.0f, 0.0f },';
  const table = Array.from({ length: 12 }, (_, m) => `  { ${hourly(place, m + 1).map(float).join(", ")} },`);
  return `/* ${comment(name)}, ${comment(place.quantity)}, ${place.from} to ${place.to}, ${place.longitude} degrees east */
static const int ${id}_tide_count = ${count};
static const airtides_line ${id}_tide_lines[${Math.max(1, count)}] = {
${(count === 0 ? [none] : rows).join("\n")}
};
/* hPa at each full hour of local mean solar time, January to December; a month without data of its own has the mean tide. */
static const float ${id}_tide_hourly[12][24] = {
${table.join("\n")}
};
/* hPa at a Unix time in seconds. */
static inline float ${id}_tide_hpa(int64_t unix_seconds) {
  return airtides_sum(${id}_tide_lines, ${id}_tide_count, unix_seconds);
}
/* hPa from the table of the month (1 to 12) at an hour of local mean solar time (0 to 24), joined by straight lines. */
static inline float ${id}_tide_table_hpa(int month, float hour) {
  const float *row = ${id}_tide_hourly[(month + 11) % 12];
  int k = (int)hour;
  float part = hour - (float)k;
  return row[k % 24] * (1.0f - part) + row[(k + 1) % 24] * part;
}
`;
}

/** Solar lines of a month at the full hours of local mean solar time. */
function hourly(place: ExportedPlace, month: number): number[] {
  const own = place.months.find((m) => m.month === month);
  const lines = (own === undefined ? place.lines : own.lines).filter((l) => /^S\d$/.test(l.name));
  return Array.from({ length: 24 }, (_, h) => lines.reduce((sum, l) => sum + l.amplitude * Math.cos((2 * Math.PI * Number(l.name.slice(1)) * (h - l.maximumAt)) / 24), 0));
}

function float(value: number): string {
  const text = value.toPrecision(8).replace(/\.?0+$/, "").replace(/\.?0+e/, "e");
  return `${/[.e]/.test(text) ? text : `${text}.0`}f`;
}

/** A name as a C identifier; what C does not allow becomes an underscore and its code, so that two names stay two. */
function identifier(name: string): string {
  const text = name.replace(/[^A-Za-z0-9_]/g, (c) => (c === "-" || c === " " || c === "." ? "_" : `_${c.codePointAt(0)?.toString(16)}`));
  return /^[A-Za-z]/.test(text) ? text : `place_${text}`;
}

function comment(text: string): string {
  return text.replace(/[^\x20-\x7e]/g, "?").replaceAll("*/", "* /").replaceAll("/*", "/ *").replaceAll("\\", "/");
}
