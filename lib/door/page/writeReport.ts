import { stat } from "node:fs/promises";
import { join } from "node:path";
import type { Figure } from "../../figure/figure.js";
import { drawStill } from "../../figure/still/still.js";
import { RecordError } from "../../ground/complaint.js";
import { readText } from "../disk/openLog.js";
import { writeBeside } from "../disk/writeBeside.js";
import { findChromium, noChromium, photographedPicture, printedPage } from "./chromium.js";
import { type ReportPage, reportGenerator } from "./reportPage.js";

/** A file that was written. */
export interface WrittenFile {
  readonly path: string;
  readonly bytes: number;
}

/** Where a report goes. */
export interface ReportPlace {
  /** Folder of `report.html` and `report.pdf`. */
  readonly out: string;
  readonly pdf: boolean;
  /** Folder of the figures as SVG and PNG; left out for none. */
  readonly figures?: string;
}

/** By this a later run knows a figure that an earlier one wrote. */
const figureMark = "<!-- a figure of airtides report -->";
/** Width of a figure that stands by itself · px. */
const figureWidth = 760;
const largest = 1 << 26;

/**
 * Refuses to go on when something else stands where the report would go; a report of an earlier run may be replaced.
 *
 * @throws RecordError naming the first file in the way
 */
async function requireRoom({ out, pdf, figures }: ReportPlace, names: readonly string[]): Promise<void> {
  const page = join(out, "report.html");
  const isOwn = await standsOwn(page, `content="${reportGenerator}"`);
  if (isOwn === false) throw inTheWay(page);
  // A PDF holds no mark of ours: it is ours where it stands beside our page.
  if (pdf && isOwn !== true && (await exists(join(out, "report.pdf")))) throw inTheWay(join(out, "report.pdf"));
  if (figures === undefined) return;
  for (const name of names) {
    const drawing = join(figures, `${name}.svg`);
    const isOwnDrawing = await standsOwn(drawing, figureMark);
    if (isOwnDrawing === false) throw inTheWay(drawing);
    if (isOwnDrawing === null && (await exists(join(figures, `${name}.png`)))) throw inTheWay(join(figures, `${name}.png`));
  }
}

/**
 * Writes a report: the page, and where asked the PDF and the figures; each file whole or not at all.
 *
 * Without a Chromium the page and the SVG are written, and a warning says what is missing.
 *
 * @returns what was written, and what could not be
 * @throws RecordError when something else stands in the way or the disk refuses
 */
export async function writeReport(report: ReportPage, place: ReportPlace): Promise<{ readonly written: readonly WrittenFile[]; readonly warnings: readonly string[] }> {
  const figures = place.figures === undefined ? [] : named(report.figures);
  await requireRoom(place, figures.map((f) => f.name));
  const written: WrittenFile[] = [];
  const warnings: string[] = [];
  const keep = async (path: string, content: string | Uint8Array): Promise<void> => void written.push({ path, bytes: await writeBeside(path, content, { replace: true }) });
  const page = join(place.out, "report.html");
  await keep(page, report.html);
  const chromium = place.pdf || figures.length > 0 ? await findChromium() : null;
  const tried = async (what: string, make: (program: string) => Promise<void>): Promise<void> => {
    if (chromium === null) {
      warnings.push(`${what} not written: ${noChromium}`);
      return;
    }
    try {
      await make(chromium);
    } catch (error) {
      if (error instanceof RecordError) throw error;
      warnings.push(`${what} not written: ${(error as Error).message}`);
    }
  };
  if (place.pdf) await tried("the PDF was", async (program) => keep(join(place.out, "report.pdf"), await printedPage(program, page)));
  for (const { name, figure } of figures) await keep(join(place.figures as string, `${name}.svg`), `${drawStill(figure, { width: figureWidth })}\n${figureMark}\n`);
  if (figures.length > 0) {
    await tried("the figures as PNG were", async (program) => {
      for (const { name, figure } of figures) {
        const drawing = join(place.figures as string, `${name}.svg`);
        await keep(join(place.figures as string, `${name}.png`), await photographedPicture(program, drawing, { width: figureWidth, height: figure.layout.height }));
      }
    });
  }
  return { written, warnings };
}

/** Figures with a file's name each; one that comes again gets a number. */
function named(figures: readonly Figure[]): readonly { readonly name: string; readonly figure: Figure }[] {
  const counts = new Map<string, number>();
  return figures.map((figure) => {
    const count = (counts.get(figure.name) ?? 0) + 1;
    counts.set(figure.name, count);
    return { name: count === 1 ? figure.name : `${figure.name}-${count}`, figure };
  });
}

/** true: ours · false: something else · null: nothing there. */
async function standsOwn(path: string, mark: string): Promise<boolean | null> {
  const there = await stat(path).catch(() => null);
  if (there === null) return null;
  if (!there.isFile() || there.size > largest) return false;
  return (await readText(path, largest).catch(() => "")).includes(mark);
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(() => true, () => false);
}

function inTheWay(path: string): RecordError {
  return new RecordError(`${path} exists already and was not written by an earlier report; name another folder with --out or --figures, or move it away`, "description", { file: path });
}
