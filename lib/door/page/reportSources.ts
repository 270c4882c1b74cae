import { sentenceHtml } from "./reportMarkup.js";

interface Source {
  readonly text: string;
  /** Where a reader finds it; left out where we have not seen the page ourselves. */
  readonly link?: string;
}

/** Name of a source of the report. */
export type SourceKey = "chapman" | "constituents" | "standardAtmosphere" | "wmo8" | "dataPackage" | "wmoTendency" | "duchon" | "sineTapers" | "theilSen" | "iso13786" | "iso13788" | "din4108" | "comfort" | "welch";

const sources: Readonly<Record<SourceKey, Source>> = {
  chapman: { text: "S. Chapman, R. S. Lindzen, Atmospheric Tides, 1970, ISBN 978-90-277-0113-8 (its numbers from memory)" },
  constituents: { text: "Constituent list of the National Oceanography Centre; mean longitudes by J. Meeus, Astronomical Algorithms" },
  standardAtmosphere: { text: "U.S. Standard Atmosphere 1976 = ISO 2533" },
  wmo8: { text: "WMO-No. 8, Guide to Instruments and Methods of Observation, Annex 4.B: moist air" },
  dataPackage: { text: "Data Package standard, version 2.0", link: "https://datapackage.org/profiles/2.0/datapackage.json" },
  wmoTendency: { text: "WMO code table 0200, characteristic of pressure tendency; in a public copy", link: "http://artefacts.ceda.ac.uk/badc_datadocs/surface/code.html" },
  duchon: { text: "C. E. Duchon 1979, Lanczos filtering (from memory)" },
  sineTapers: { text: "K. S. Riedel, A. Sidorenko 1995, sine tapers (from memory)" },
  theilSen: { text: "P. K. Sen 1968; H. B. Mann 1945 and M. G. Kendall 1975; E. C. Weatherhead and others 1998 (from memory)" },
  iso13786: { text: "ISO 13786, decrement factor and time lag (from memory)" },
  iso13788: { text: "ISO 13788:2012, surface humidity and classes of moisture load (limits from memory)", link: "https://codehub.building.govt.nz/resources/iso-137882012" },
  din4108: { text: "DIN 4108-2, temperature factor 0.70 and 80 % at the surface, as told by gebaeudeforum.de, November 2021" },
  comfort: { text: "EN 16798-1 and ASHRAE 55, adaptive comfort (from memory)" },
  welch: { text: "P. D. Welch 1967, averaged spectra; E. B. Wilson 1927, intervals of shares" },
};

/** Sources as a line of html, with links where there are any; a reader follows them, the page itself loads nothing. */
export function sourcesHtml(keys: readonly SourceKey[]): string {
  if (keys.length === 0) return "";
  const told = keys.map((key) => {
    const { text, link }: Source = sources[key];
    return link === undefined ? sentenceHtml(text) : `<a href="${sentenceHtml(link)}" rel="noreferrer">${sentenceHtml(text)}</a>`;
  });
  return `<p class="sources">Sources: ${told.join(" · ")}.</p>`;
}

/** All sources, for the end of the page. */
export const allSources: readonly SourceKey[] = Object.freeze(Object.keys(sources) as SourceKey[]);
