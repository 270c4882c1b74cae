import { readFileSync } from "node:fs";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import { type ReportPage, reportPage } from "../../lib/door/page/reportPage.js";
import { pageAddress } from "./chromiumPage.js";

let made: Promise<{ readonly report: ReportPage; readonly address: string }> | undefined;

/** The report of hill-school, made once for all browser tests. */
export function hillSchool(): Promise<{ readonly report: ReportPage; readonly address: string }> {
  made ??= (async () => {
    const folder = new URL("../../datasets/hill-school", import.meta.url).pathname;
    const report = reportPage(await openRecord(folder), { description: readFileSync(`${folder}/datapackage.json`, "utf8") });
    return { report, address: pageAddress("hill-school.html", report.html) };
  })();
  return made;
}
