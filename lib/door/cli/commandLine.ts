import { Argument, Command, CommanderError, Option } from "commander";
import type { CommandName } from "./commandNamed.js";
import { type ExitCode, failureOf } from "./outcome.js";
import type { Narrowing } from "./narrowed.js";

interface RecordOptions extends Narrowing {
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly jobs?: string;
}

/** Options that every command about records has. */
function aboutRecords(program: Command, name: string, says: string): Command {
  return program
    .command(name)
    .description(says)
    .argument("<record...>", "folder with a datapackage.json, or that file itself")
    .option("--since <time>", "leave out what is earlier (civil time of the record's zone, or ISO 8601)")
    .option("--until <time>", "leave out this time and what is later")
    .option("--place <name>", "keep this place only; may be repeated", (value: string, all: string[] | undefined) => [...(all ?? []), value])
    .option("--json", "one JSON document on standard output and nothing else")
    .option("--quiet", "no notes on standard error")
    .option("--jobs <number>", "so many records at a time, each in a thread of its own; default 1");
}

/** Names after an option, apart by commas. */
function listed(text: string): string[] {
  return text.split(",").map((s) => s.trim());
}

/** Loads a command and runs it, side by side where that is asked and there are several records. */
async function runNamed(name: CommandName, records: readonly string[], options: RecordOptions): Promise<ExitCode> {
  const { runRecords, screenColumns, tell, wrongUse } = await import("./runRecords.js");
  const { commandNamed } = await import("./commandNamed.js");
  const jobs = options.jobs === undefined ? 1 : Number(options.jobs);
  if (!(Number.isInteger(jobs) && jobs >= 1 && jobs <= 256)) throw wrongUse(`--jobs must be a whole number from 1 to 256 (got ${JSON.stringify(options.jobs)})`);
  // Made here also when threads make their own: a wrong option is told once, before anything is read.
  const command = await commandNamed(name, { ...options }, records);
  if (jobs === 1 || records.length === 1) return runRecords(records, options, command);
  const { sideBySide } = await import("./sideBySide.js");
  return tell(await sideBySide({ name, options: { ...options }, records, telling: { ...options, columns: screenColumns() } }, jobs), options);
}

/**
 * The whole command line: words in, exit code out; writes to standard output and standard error only.
 *
 * @param words what stands after the program's name
 */
export async function runCommandLine(words: readonly string[]): Promise<ExitCode> {
  let code: ExitCode = 0;
  const program = new Command("airtides")
    .description("Finds the cycles of the air in what people log at home, and says how sure it is.")
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, "")) })
    .showSuggestionAfterError(true);

  const about = (name: CommandName, says: string): Command =>
    aboutRecords(program, name, says).action(async (records: string[], options: RecordOptions) => {
      code = await runNamed(name, records, options);
    });

  about("check", "can this record be trusted: every line accounted for, gaps, faults, clock, barometer");
  about("tides", "the twice-daily tide of the air pressure, with intervals")
    .option("--lines <names>", "further lines of the tide, such as S4,L2", listed)
    .addOption(new Option("--export <format>", "write the coefficients for another program").choices(["c", "csv", "json"]))
    .option("--out <file>", "where the export goes; never over an existing file; default standard output");
  about("swings", "the slow wave of passing weather, lows and highs, and the tendency without the tide");
  about("indoors", "what the house does to the weather: damping, delay, moisture, and what changed").option(
    "--factor <number>",
    "temperature factor of the surface judged for condensation and mould, 0 to 1; default 0.70",
  );
  about("climate", "days, months and years, the yearly round, and a trend or the reason for none")
    .option("--base <degrees>", "base of the degree days, °C; default 18")
    .option("--hot <degrees>", "a hot day reaches at least this, °C; default 30");
  about("grid", "the cleaned, regular grid of a record, to take away into any other analysis")
    .requiredOption("--out <file>", "where it goes, by ending: .csv, .json, .nc (NetCDF after CF) or .parquet; never over an existing file")
    .option("--step <minutes>", "length of a step; default the usual step of the densest place")
    .option("--fill-up-to <minutes>", "longest gap that is bridged by a straight line; default 60")
    .option("--with <names>", "further quantities: dew-point, absolute-humidity, sea-level, tide-free", listed);
  about("report", "all of it as one page that needs nothing else: answers, figures, cautions")
    .option("--out <folder>", "where report.html goes; default airtides-out/NAME")
    .option("--pdf", "report.pdf too, where a Chromium is found")
    .option("--figures <folder>", "every figure as SVG there, and PNG where a Chromium is found");

  program
    .command("describe")
    .description("looks at unknown logs and drafts their datapackage.json, with a reason for each guess and the questions that are left")
    .argument("<file...>", "text logs")
    .option("--out <file>", "where the draft goes, best datapackage.json beside the logs; never over an existing file; default nowhere")
    .option("--json", "one JSON document on standard output and nothing else")
    .option("--quiet", "no notes on standard error")
    .action(async (files: string[], options: { out?: string; json?: boolean }) => {
      const { describeCommand } = await import("./describeCommand.js");
      code = await describeCommand(files, options);
    });

  program
    .command("notebooks")
    .description("runs the notebooks, on your record if you name one, to pages that need nothing else, and an index")
    .argument("[record]", "folder with a datapackage.json, or that file itself; without it each notebook takes its own example")
    .option("--out <folder>", "where pages and notebooks go; default airtides-out/NAME/notebooks")
    .option("--only <name>", "this notebook only, by name, number or .ipynb file; may be repeated", (value: string, all: string[] | undefined) => [...(all ?? []), value])
    .option("--json", "one JSON document on standard output and nothing else")
    .option("--quiet", "no progress on standard error")
    .action(async (record: string | undefined, options: { out?: string; only?: string[]; json?: boolean; quiet?: boolean }) => {
      const { notebooksCommand } = await import("./notebooksCommand.js");
      code = await notebooksCommand(record, options);
    });

  program
    .command("kernel")
    .description("TypeScript in Jupyter: registers the kernel “airtides” for this user, takes it away, or says where it stands")
    .addArgument(new Argument("<action>", "what to do").choices(["install", "remove", "status"]))
    .option("--prefix <folder>", "for the Jupyter of this folder, such as a virtual environment, instead of this user's")
    .option("--json", "one JSON document on standard output and nothing else")
    .option("--quiet", "no notes on standard error")
    .action(async (action: "install" | "remove" | "status", options: { prefix?: string; json?: boolean; quiet?: boolean }) => {
      const { kernelCommand } = await import("./kernelCommand.js");
      code = await kernelCommand(action, options);
    });

  try {
    await program.parseAsync([...words], { from: "user" });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    const failure = failureOf("", error);
    process.stderr.write(`${failure.sentence}\n`);
    return failure.code;
  }
  return code;
}
