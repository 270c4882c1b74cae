import type { RecordCommand } from "./toldRecord.js";

/** What a command about records was asked, as plain words that may go to another thread. */
export type CommandOptions = Readonly<Record<string, unknown>>;

/** Commands that answer about one record at a time. */
export type CommandName = "check" | "tides" | "swings" | "indoors" | "climate" | "grid" | "report";

/**
 * The command of a name, with its options checked; what it needs is loaded only then.
 *
 * @param name    of the command
 * @param options as the command line read them
 * @param records all that are asked about
 * @throws RecordError when the options cannot be
 */
export async function commandNamed(name: CommandName, options: CommandOptions, records: readonly string[]): Promise<RecordCommand<unknown>> {
  const given = options as never;
  const make: Record<CommandName, () => Promise<RecordCommand<never>>> = {
    check: async () => (await import("./checkCommand.js")).checkCommand as RecordCommand<never>,
    tides: async () => (await import("./tidesCommand.js")).tidesCommand(given) as RecordCommand<never>,
    swings: async () => (await import("./swingsCommand.js")).swingsCommand as RecordCommand<never>,
    indoors: async () => (await import("./indoorsCommand.js")).indoorsCommand(given) as RecordCommand<never>,
    climate: async () => (await import("./climateCommand.js")).climateCommand(given) as RecordCommand<never>,
    grid: async () => (await (await import("./gridCommand.js")).gridCommand(given, records)) as RecordCommand<never>,
    report: async () => (await import("./reportCommand.js")).reportCommand(given, records.length) as RecordCommand<never>,
  };
  return (await make[name]()) as RecordCommand<unknown>;
}
