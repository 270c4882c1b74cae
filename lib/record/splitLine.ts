/** How a line is cut into fields. */
export interface LineStyle {
  readonly delimiter: string;
  /** Empty when the log has no quotes. */
  readonly quoteChar: string;
  readonly doubleQuote: boolean;
  readonly skipInitialSpace: boolean;
}

/**
 * Cuts one line into fields; a quoted field may hold the delimiter, never a line end.
 *
 * @returns the fields, or null when a quote is opened and not closed, or text follows a closing quote
 */
export function splitLine(line: string, style: LineStyle): string[] | null {
  const { delimiter, quoteChar, skipInitialSpace } = style;
  if (quoteChar === "" || !line.includes(quoteChar)) {
    const fields = line.split(delimiter);
    if (skipInitialSpace) for (let i = 0; i < fields.length; i++) fields[i] = fields[i].trimStart();
    return fields;
  }
  return splitQuoted(line, style);
}

function splitQuoted(line: string, style: LineStyle): string[] | null {
  const { delimiter, quoteChar, doubleQuote, skipInitialSpace } = style;
  const fields: string[] = [];
  let i = 0;
  for (;;) {
    if (skipInitialSpace) while (line[i] === " ") i++;
    if (line.startsWith(quoteChar, i)) {
      let text = "";
      i++;
      for (;;) {
        const end = line.indexOf(quoteChar, i);
        if (end < 0) return null;
        text += line.slice(i, end);
        i = end + 1;
        if (!doubleQuote || line[i] !== quoteChar) break;
        text += quoteChar;
        i++;
      }
      fields.push(text);
      if (i === line.length) return fields;
      if (!line.startsWith(delimiter, i)) return null;
      i += delimiter.length;
      continue;
    }
    const end = line.indexOf(delimiter, i);
    if (end < 0) {
      fields.push(line.slice(i));
      return fields;
    }
    fields.push(line.slice(i, end));
    i = end + delimiter.length;
  }
}
