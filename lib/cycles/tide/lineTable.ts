/** One line of the tide: its frequency and the astronomy behind it. */
export interface LineOfTide {
  readonly name: string;
  /** Rate of the line's argument · degrees per hour of UTC. */
  readonly degreesPerHour: number;
  /** Crests a day of the line's own clock. */
  readonly species: number;
  /** Multiples of the mean longitudes of moon, sun, lunar perigee, solar perigee in the argument. */
  readonly moon: number;
  readonly sun: number;
  readonly lunarPerigee: number;
  readonly solarPerigee: number;
  readonly says: string;
}

const line = (
  name: string,
  degreesPerHour: number,
  species: number,
  [moon, sun, lunarPerigee, solarPerigee]: readonly [number, number, number, number],
  says: string,
): LineOfTide => Object.freeze({ name, degreesPerHour, species, moon, sun, lunarPerigee, solarPerigee, says });

/**
 * The lines that can be fitted. L2, the moon's own tide in the air, has the frequency of the sea's M2.
 *
 * The argument of a line is species × local mean solar angle (15° an hour from midnight) + moon·s + sun·h + lunarPerigee·p +
 * solarPerigee·p′; the textbook constants ±90° and 180° of K1, O1, P1 and R2 are left out.
 *
 * @source S1…S4: mean solar time, exact. M2, K1, O1, N2, T2, K2, P1: constituent list on a page of the National
 * Oceanography Centre, units 10⁻⁷ °/h. R2: 2·15 + h − p′ by the rates of the same list.
 */
export const tideLines: readonly LineOfTide[] = Object.freeze([
  line("S1", 15, 1, [0, 0, 0, 0], "once a day: sun and ground"),
  line("S2", 30, 2, [0, 0, 0, 0], "twice a day: the great tide of the air"),
  line("S3", 45, 3, [0, 0, 0, 0], "three times a day"),
  line("S4", 60, 4, [0, 0, 0, 0], "four times a day"),
  line("L2", 28.9841042, 2, [-2, 2, 0, 0], "twice a lunar day: the moon"),
  line("K1", 15.0410686, 1, [0, 1, 0, 0], "once a sidereal day"),
  line("P1", 14.9589314, 1, [0, -1, 0, 0], "S1 changed by the year"),
  line("O1", 13.9430356, 1, [-2, 1, 0, 0], "once a lunar day, declination"),
  line("N2", 28.4397295, 2, [-3, 2, 1, 0], "the moon's changing distance"),
  line("T2", 29.9589333, 2, [0, -1, 0, 1], "S2 changed by the year, slower"),
  line("R2", 30.0410667, 2, [0, 1, 0, -1], "S2 changed by the year, faster"),
  line("K2", 30.0821373, 2, [0, 2, 0, 0], "S2 changed by the half year"),
]);

/** Frequency of a line · cycles per day. */
export function cyclesPerDay(of: LineOfTide): number {
  return (of.degreesPerHour * 24) / 360;
}
