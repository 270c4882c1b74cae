import { expect, it } from "vitest";
import { draftDescription } from "../../../../lib/trust/draft/draftDescription.js";
import { siteLines } from "../../../../lib/trust/draft/siteWords.js";

it("lines that tell a coordinate or a height are quoted, once, and others are not", () => {
  expect(siteLines(["# Station: Hilltop 7", "Latitude: 46.2 N", '"Longitude","7.5"', "lat 46.2, lon 7.5", "Latitude: 46.2 N", "Elevation (m a.s.l.): 905"])).toEqual(["Latitude: 46.2 N", 'Longitude","7.5', "lat 46.2, lon 7.5"]);
  expect(siteLines(["2024-03-01 09:05,21.3,64", "platform 9", "time,temp,hum,press", "Höhe: 905 m", "Elevation (m a.s.l.): 905", "Altitude above ground: none"])).toEqual(["Höhe: 905 m", "Elevation (m a.s.l.): 905"]);
});

it("the question of the site holds what the log says, and a log that says nothing is not quoted", () => {
  const rows = Array.from({ length: 48 }, (_, h) => `2024-03-${String(1 + Math.floor(h / 24)).padStart(2, "0")} ${String(h % 24).padStart(2, "0")}:00,${(12 + h % 5).toFixed(1)},${(905 + 0.1 * h).toFixed(1)}`);
  const asked = (titles: readonly string[]): string => {
    const head = new TextEncoder().encode(`${[...titles, "time,temp,press", ...rows].join("\n")}\n`);
    return draftDescription([{ path: "log.csv", head, tail: null, bytes: head.length }]).questions.find(({ path }) => path === "site")?.ask ?? "";
  };
  expect(asked(["Latitude: 46.2 N", "Elevation: 905 m"])).toMatch(/cannot be judged\. The log says "Latitude: 46\.2 N", "Elevation: 905 m"\. A middle pressure of/);
  expect(asked([])).toMatch(/cannot be judged\. A middle pressure of/);
});
