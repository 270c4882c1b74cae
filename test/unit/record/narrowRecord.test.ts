import { describe, expect, it } from "vitest";
import { narrowRecord } from "../../../lib/record/narrowRecord.js";
import { card, complaint, instants, readCard } from "./card.js";

const lines = ["09:00,V,1,860", "09:05,L,2,861", "09:10,V,3,", "09:15,L,4,862", "09:20,V,5,"].map((l) => `2024-03-01,${l}`);
const record = readCard(card(), lines.join("\n"));
const at = (minute: number): number => Date.UTC(2024, 2, 1, 2, minute);

describe("narrowRecord", () => {
  it("keeps since, leaves out until, and tells the span that is left", () => {
    const part = narrowRecord(record, { since: at(5), until: at(20) });
    expect([instants(part, "veranda"), instants(part, "library")]).toEqual([["2024-03-01T02:10Z"], ["2024-03-01T02:05Z", "2024-03-01T02:15Z"]]);
    expect([part.from, part.to]).toEqual([at(5), at(15)]);
    expect(Array.from(part.places.library.series.air_temperature!.values)).toEqual([2, 4]);
    expect(part.places.library.series.air_temperature!.start).toBe(part.places.library.start);
    expect(part.places.veranda.series.surface_air_pressure).toBeUndefined();
    expect(part.files).toBe(record.files);
    expect(Object.isFrozen(part) && Object.isFrozen(part.places.veranda)).toBe(true);
  });

  it("keeps the places asked for, and leaves the record unchanged", () => {
    const before = JSON.stringify(record);
    expect(Object.keys(narrowRecord(record, { places: ["library"] }).places)).toEqual(["library"]);
    expect(narrowRecord(record, {}).places.veranda).toBe(record.places.veranda);
    const early = narrowRecord(record, { until: at(5) });
    expect([early.places.library.readings, early.places.library.series]).toEqual([0, {}]);
    expect(JSON.stringify(record)).toBe(before);
  });

  it("refuses an unknown place and an empty rest", () => {
    expect(complaint(() => narrowRecord(record, { places: ["attic"] }))).toBe('place must be one of veranda, library (got "attic")');
    expect(complaint(() => narrowRecord(record, { since: at(21) }))).toBe(
      "card must hold a reading in the span asked for (got none since 2024-03-01T02:21:00Z); the record runs from 2024-03-01T02:00:00Z to 2024-03-01T02:20:00Z",
    );
    expect(complaint(() => narrowRecord(record, { since: at(6), until: at(5), places: ["veranda"] }))).toContain("(got none since 2024-03-01T02:06:00Z until 2024-03-01T02:05:00Z in veranda)");
  });
});
