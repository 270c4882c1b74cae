import { mustSentence, RecordError, shown } from "../../ground/complaint.js";
import { tideEpoch } from "./argumentAtEpoch.js";
import { cyclesPerDay, type LineOfTide, tideLines } from "./lineTable.js";
import type { TidePair } from "./tideRows.js";

const dayMs = 86_400_000;
const always: readonly string[] = ["S1", "S2", "S3", "S4"];

/** The lines of a fit: all that are fitted, and which of them are reported. */
export interface FittedLines {
  readonly lines: readonly LineOfTide[];
  readonly reported: readonly string[];
}

/**
 * The lines that take part in a fit: S1, S2, S3 and, unless the readings are too sparse for it, S4, then those asked for.
 *
 * @param at     name of the calling function, for its complaints
 * @param asked  names; M2 is read as L2
 * @param withS4 whether S4 can be fitted
 * @throws TypeError  when a name is unknown, or S4 is asked for and cannot be fitted
 */
export function fittedLines(at: string, asked: readonly string[], withS4: boolean): FittedLines {
  const names = asked.map((name) => (name === "M2" ? "L2" : name));
  const known = tideLines.map((l) => l.name);
  for (const name of names) {
    if (!known.includes(name)) throw new TypeError(mustSentence(at, "lines", `be among ${known.join(", ")}`, shown(name)));
  }
  if (!withS4 && names.includes("S4")) {
    throw new RecordError(mustSentence(at, "lines", "be carried by the readings", "S4 with 9 readings a day or fewer", "drop S4 or log every two hours or oftener"), "data");
  }
  const fitted = tideLines.filter((l) => (always.includes(l.name) ? withS4 || l.name !== "S4" : names.includes(l.name)));
  const reported = fitted.map((l) => l.name).filter((name) => name !== "S4" || names.includes("S4"));
  return { lines: fitted, reported };
}

/**
 * Refuses lines that the record is too short to tell apart: two lines need 1/Δf days (Rayleigh criterion).
 *
 * @throws RecordError kind `data`, with the pair that needs most and the length it needs
 */
export function requireSeparable(at: string, lines: readonly LineOfTide[], days: number): void {
  let worst = 0;
  let pair = "";
  for (let i = 0; i < lines.length; i++) {
    for (let k = 0; k < i; k++) {
      const need = 1 / Math.abs(cyclesPerDay(lines[i]) - cyclesPerDay(lines[k]));
      // S1…S4 are a day apart at most; a length rule of their own stands in fitTides.
      if (need <= days || need <= worst || need < 1.5) continue;
      worst = need;
      pair = `${lines[k].name} and ${lines[i].name}`;
    }
  }
  if (pair === "") return;
  // Rounded up, so that the length told is always enough.
  const need = `${(Math.ceil(worst * 10) / 10).toFixed(1)} d`;
  throw new RecordError(mustSentence(at, "lines", "be separable over the record", `${pair} in ${days.toFixed(1)} d, need ${need} (Rayleigh)`, "drop one or log longer"), "data");
}

/** Cosine and sine pairs of lines, with their phase counted from the fixed epoch. */
export function pairsOf(lines: readonly LineOfTide[], midnight: number, averagedOver: number): TidePair[] {
  const whole = (midnight - tideEpoch) / dayMs;
  return lines.map((l) => {
    const f = cyclesPerDay(l);
    const x = (Math.PI * f * averagedOver) / 86_400;
    const turn = f * whole;
    return { cyclesPerDay: f, turn: turn - Math.floor(turn), damping: x === 0 ? 1 : Math.sin(x) / x };
  });
}
