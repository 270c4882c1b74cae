const hourMs = 3600000;

/** Local mean solar time in hours, 0 … 24, of an instant (epoch ms) at a longitude (degrees east). */
export function solarHour(ms, longitude) {
  const hour = (ms / hourMs + longitude / 15) % 24;
  return hour < 0 ? hour + 24 : hour;
}

/**
 * Pressure tide at an instant: sum over lines of amplitude · cos(2π n (h − maximumAt)/24), h local mean solar time.
 *
 * @param lines     [{ name, timesPerDay, amplitude hPa, maximumAt hours of local mean solar time }]
 * @param ms        epoch ms
 * @param longitude degrees east
 * @returns hPa
 */
export function tide(lines, ms, longitude) {
  const hour = solarHour(ms, longitude);
  let sum = 0;
  for (const { timesPerDay, amplitude, maximumAt } of lines) {
    sum += amplitude * Math.cos((2 * Math.PI * timesPerDay * (hour - maximumAt)) / 24);
  }
  return sum;
}
