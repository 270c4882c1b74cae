import { goodDescription, recordFolder } from "../cli/run.js";

/** Rows every half hour of four days with a planted S2 · hPa; nothing random. */
function stationRows(semidiurnal: number): string {
  const rows: string[] = [];
  for (let i = 0; i < 4 * 48; i++) {
    const t = i / 48;
    const at = new Date(Date.UTC(2024, 4, 1) + i * 1_800_000).toISOString().slice(0, 19).replace("T", " ");
    const p = 861 + semidiurnal * Math.cos(4 * Math.PI * (t - 0.41)) + 0.3 * Math.cos(2 * Math.PI * (t - 0.25)) + 0.02 * Math.sin(977 * i);
    rows.push(`${at},${(22 + 4 * Math.cos(2 * Math.PI * (t - 0.6))).toFixed(1)},70.0,${p.toFixed(2)}`);
  }
  return `${rows.join("\n")}\n`;
}

/** The planted S2 of a generated station · hPa. */
export const plantedS2 = (k: number): number => Math.round(100 * (0.6 + 0.004 * k)) / 100;

/** Folders of invented stations, `station-000` on; those of `empty` hold no readable row, those of `faulty` an impossible latitude. */
export function stations(count: number, { empty = [], faulty = [] }: { readonly empty?: readonly number[]; readonly faulty?: readonly number[] } = {}): string[] {
  return Array.from({ length: count }, (_, k) => {
    const good = { ...goodDescription(), name: stationName(k) };
    const description = faulty.includes(k) ? { ...good, site: { latitude: 95, longitude: 0, elevation: 0 } } : good;
    return recordFolder(description, { "card.txt": empty.includes(k) ? "nothing\n" : stationRows(plantedS2(k)) });
  });
}

export const stationName = (k: number): string => `station-${String(k).padStart(3, "0")}`;

/** Rows of a table without quoted fields before the last column, as cells. */
export function cells(table: string): string[][] {
  return table.trimEnd().split("\n").map((row) => row.split(","));
}
