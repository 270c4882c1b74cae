import { describe, expect, it } from "vitest";
import { column, instants, type Loose, readCard } from "../card.js";

const daily = (zone: string, change: (r: Loose) => void = () => undefined): Loose =>
  column(zone, (r) => {
    r.schema.fields[0] = { name: "day", type: "date", zone };
    change(r);
  });
const log = "day,t\n2024-03-29,1\n2024-03-30,2\n2024-03-31,3\n2024-04-01,4\n";

describe("a log of one date field", () => {
  it("has each row at the noon of its civil day", () => {
    expect(instants(readCard(daily("+07:00"), log), "here")).toEqual(["2024-03-29T05:00Z", "2024-03-30T05:00Z", "2024-03-31T05:00Z", "2024-04-01T05:00Z"]);
    // Clocks go forward on 31 March 2024 in London: noon is an hour earlier from then on.
    expect(instants(readCard(daily("Europe/London"), log), "here")).toEqual(["2024-03-29T12:00Z", "2024-03-30T12:00Z", "2024-03-31T11:00Z", "2024-04-01T11:00Z"]);
  });

  it("reads its stamps as of 00:00 where sampling is told", () => {
    const first = (stamp: string): string => instants(readCard(daily("Z", (r) => { r.sampling = { averagedOver: 86_400, stamp }; }), log), "here")[0];
    expect([first("start"), first("middle"), first("end")]).toEqual(["2024-03-29T12:00Z", "2024-03-29T00:00Z", "2024-03-28T12:00Z"]);
  });

  it("takes a pattern, and tells damaged lines by it", () => {
    const record = readCard(daily("Z", (r) => { r.schema.fields[0].format = "%d.%m.%Y"; }), "day,t\n28.02.2024,1\n29.02.2024,2\n30.02.2024,3\n2024-03-01,4\n01.03.2024,5\n,6\n");
    expect(instants(record, "here")).toEqual(["2024-02-28T12:00Z", "2024-02-29T12:00Z", "2024-03-01T12:00Z"]);
    expect(record.files[0].rejected.map((r) => r.reason)).toEqual(['day does not exist (got "30.02.2024": February 2024 has 29 days)', 'day is not of the form %d.%m.%Y (got "2024-03-01")', "day is empty"]);
  });
});
