import { chance } from "../invent/chance.mjs";
import { printed } from "../invent/sensor.mjs";
import { clockParts } from "../invent/stamp.mjs";
import * as plan from "./plan.mjs";

/** One row as the logger prints it. */
function lineOf(row) {
  const { year, month, day, hour, minute, second } = clockParts(row.written);
  const numbers = Object.entries(plan.decimals).map(([quantity, decimals]) => {
    return Number.isNaN(row[quantity]) ? row.missingText : printed(row[quantity], decimals);
  });
  return [`${year}-${month}-${day}`, `${hour}:${minute}:${second}`, row.letter, ...numbers].join(",");
}

/** The lines of one card before anything is spoiled: comment, header, rows; a header again each time the power came back. */
function soundLines(card, rows) {
  const lines = [{ kind: "comment", text: "# invented log, hill-school" }, { kind: "header", text: plan.header }];
  const returns = plan.gaps.filter((gap) => gap.places.length === 2).map((gap) => gap.to);
  let before = card.from;
  for (const row of rows) {
    if (row.at < card.from || row.at >= card.to) continue;
    if (returns.some((ms) => before < ms && row.at >= ms)) {
      lines.push({ kind: "comment", text: "# power came back" }, { kind: "header", text: plan.header });
    }
    before = row.at;
    lines.push({ kind: row.unset ? "unset" : "row", text: lineOf(row), row });
  }
  return lines;
}

/** Places in `lines` for `count` accidents, none within three lines of another or of anything that is not a row. */
function quietSpots(random, lines, count, taken) {
  const spots = [];
  while (spots.length < count) {
    const i = random.whole(5, lines.length - 6);
    const near = [-3, -2, -1, 0, 1, 2, 3].map((k) => i + k);
    const isPlain = (k) => lines[k].kind === "row" && !lines[k].row.marks.some(({ flag }) => flag !== "step");
    if (near.some((k) => taken.has(k) || !isPlain(k))) continue;
    taken.add(i);
    spots.push(i);
  }
  return spots;
}

/** Cuts a line so that at least its last field is gone and its comma with it. */
function cut(random, text) {
  return text.slice(0, random.whole(3, text.lastIndexOf(",")));
}

/** Puts a question mark in the place of one digit of a number. */
function garbled(random, text) {
  const fields = text.split(",");
  const k = random.whole(3, 5);
  const digits = [...fields[k]].map((c, i) => (c >= "0" && c <= "9" ? i : -1)).filter((i) => i >= 0);
  if (digits.length === 0) return null;
  const i = random.oneOf(digits);
  fields[k] = `${fields[k].slice(0, i)}?${fields[k].slice(i + 1)}`;
  return fields.join(",");
}

/** The same lines with accidents: cut, glued to the next, garbled, and blank lines and comments between. */
function spoil(random, lines, cutAtEnd) {
  const taken = new Set();
  const out = lines.map((line) => ({ ...line, extra: [] }));
  for (const i of quietSpots(random, lines, plan.spoiled.cut, taken)) Object.assign(out[i], { kind: "cut", text: cut(random, out[i].text) });
  for (const i of quietSpots(random, lines, plan.spoiled.glued, taken)) {
    Object.assign(out[i], { kind: "glued", text: out[i].text + out[i + 1].text });
    out[i + 1].dropped = true;
  }
  for (const i of quietSpots(random, lines, plan.spoiled.garbled, taken)) {
    const text = garbled(random, out[i].text);
    if (text !== null) Object.assign(out[i], { kind: "garbled", text });
  }
  for (const i of quietSpots(random, lines, plan.spoiled.blank, taken)) out[i].extra.push({ kind: "blank", text: "" });
  for (const i of quietSpots(random, lines, plan.spoiled.comment, taken)) out[i].extra.push({ kind: "comment", text: "# card checked" });
  const flat = out.filter((line) => !line.dropped).flatMap((line) => [...line.extra, line]);
  if (cutAtEnd) {
    const last = flat[flat.length - 1];
    Object.assign(last, { kind: "cut", text: cut(random, last.text) });
  }
  return flat;
}

/**
 * Writes the rows of both loggers to the three copies of the card.
 *
 * @param rows of both loggers in the order in which they were written
 * @returns [{ path, text, lines: [{ kind, text, row }] }], kind: row, comment, header, blank, cut, glued, garbled, unset
 */
export function writeCards(rows) {
  return plan.cards.map((card) => {
    const lines = spoil(chance(plan.seed, `accidents ${card.path}`), soundLines(card, rows), card.cutAtEnd);
    const text = lines.map((line) => line.text).join(card.lineEnd) + (card.cutAtEnd ? "" : card.lineEnd);
    return { path: card.path, text, lines };
  });
}
