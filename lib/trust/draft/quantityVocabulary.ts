/** What a header's word speaks of; `other` is anything this project does not read. */
export type Topic = "air_temperature" | "relative_humidity" | "surface_air_pressure" | "air_pressure_at_mean_sea_level" | "dew_point_temperature" | "pressure" | "other";

/**
 * Words of headers by what they speak of: common words of some thirty languages, lower case, without accents.
 *
 * Words of four letters and more are looked for anywhere in a header's word, shorter ones must be the whole word.
 *
 * @source common practice, no source
 */
const vocabulary: Readonly<Record<Topic, readonly string[]>> = Object.freeze({
  dew_point_temperature: ["dewpoint", "dewpt", "dewp", "dew", "taupunkt", "rosee", "rocio", "rugiada", "orvalho", "dauwpunt", "dugpunkt", "duggpunkt", "doggpunkt", "daggpunkt", "kastepiste", "rosneho", "rosy", "rosisca", "titikembun", "embun", "росы", "露点", "露點", "이슬점", "td", "dp", "tdew"],
  air_pressure_at_mean_sea_level: ["slp", "mslp", "pmsl", "msl", "qnh", "qff", "sealevel", "meereshohe", "meeresniveau", "nivelmar", "niveaumer", "reduced", "reduziert", "reduit", "nn", "nhn", "海面"],
  surface_air_pressure: ["qfe", "stationspressure", "stationsdruck"],
  pressure: ["pressure", "press", "baro", "barom", "barometer", "barometro", "druck", "luftdruck", "pression", "presion", "pressione", "pressao", "druk", "luchtdruk", "tryk", "trykk", "tryck", "paine", "ilmanpaine", "tlak", "cisnienie", "basinc", "tekanan", "nyomas", "slegis", "spiediens", "ohurohk", "давл", "тиск", "πιεσ", "气压", "氣壓", "気圧", "기압", "p", "bp", "pres", "prs", "prss", "patm"],
  relative_humidity: ["humidity", "humid", "hum", "humi", "feuchte", "luftfeuchte", "feuchtigkeit", "humidite", "hygro", "humedad", "umidita", "umidade", "umid", "vochtigheid", "vocht", "fugtighed", "fuktighet", "fukt", "kosteus", "vlhkost", "wilgotnosc", "kelembapan", "kelembaban", "rutubet", "paratartalom", "vlaznost", "dregme", "mitrums", "niiskus", "влажн", "волог", "υγρασ", "湿度", "濕度", "습도", "rh", "rf", "lf", "hr", "ur", "h", "rhum", "relhum", "nem"],
  air_temperature: ["temperature", "temperatur", "temperatura", "temperatuur", "temp", "teplota", "lampotila", "lampo", "drybulb", "suhu", "sicaklik", "homerseklet", "hitastig", "temperatyr", "темп", "θερμοκρ", "温度", "溫度", "気温", "气温", "氣溫", "온도", "기온", "t", "ta", "tc", "tf", "tk", "tmp", "tair", "thermo", "therm"],
  other: [
    "batt", "battery", "akku", "bat", "vbat", "volt", "voltage", "spannung", "vcc", "v", "mv", "rssi", "snr", "signal", "lqi", "wind", "gust", "boe", "viento", "vent", "rain", "regen", "pluie", "lluvia", "precip", "niederschlag", "lux", "light", "licht", "illum", "uv", "uvi",
    "radiation", "solar", "strahlung", "irradiance", "dioxide", "tvoc", "voc", "iaq", "gas", "dust", "noise", "index", "idx", "count", "counter", "no", "nr", "num", "number", "seq", "sequence", "record", "row", "id", "uptime", "millis", "heap", "status", "state", "error", "flag", "quality", "altitude", "alt", "altitud", "hohe", "hoehe", "elevation",
    "speed", "direction", "dir", "soil", "boden", "water", "pool", "leaf", "snow", "visibility", "cloud", "heatindex", "feels", "feelslike", "apparent", "windchill", "chill", "wetbulb", "wet", "vpd", "absolutehumidity", "mixing", "enthalpy", "cpu", "chip", "board", "weekday", "current", "power", "energy", "ozone", "entropy", "trend", "tendency", "rate", "charge", "memory", "checksum", "crc", "firmware", "version", "thw", "humidex", "moisture", "motion", "delta",
  ],
});

/** Words that look like another topic's and are not: `hPa` in a header is a unit, `impression` is no pressure. */
const looksAlike = /attempt|template|contempor|compress|express|impress|hourly|throughout/;

/** Lower case, without accents: `Température` is `temperature`. */
export function plainWord(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").normalize("NFC").replace(/ß/g, "ss").replace(/ł/gi, "l").replace(/[øö]/gi, "o").replace(/æ/gi, "ae").replace(/ı/g, "i").toLowerCase();
}

/** What one word speaks of, or null. */
export function topicOf(word: string): Topic | null {
  if (looksAlike.test(word)) return null;
  let found: Topic | null = null;
  let longest = 0;
  for (const [topic, words] of Object.entries(vocabulary) as [Topic, readonly string[]][]) {
    for (const known of words) {
      const isLong = known.length >= 4 || (known.length >= 2 && /[^\u0000-\u024f]/.test(known));
      if (known.length <= longest || !(word === known || (isLong && (topic === "other" ? word.startsWith(known) : word.includes(known))))) continue;
      found = topic;
      longest = known.length;
    }
  }
  return found;
}

/** What a word written without blanks between words (Chinese, Japanese, Korean) holds beside its topic: 室内温度 leaves 室内. */
export function besideTopic(word: string, topic: Topic): string {
  if (!/[\u3040-\u30ff\u3400-\u9fff\uac00-\ud7af]/.test(word)) return "";
  const known = vocabulary[topic].filter((k) => word.includes(k)).sort((a, b) => b.length - a.length)[0];
  return known === undefined ? "" : word.replace(known, "");
}

/** How many of the longer known words of other scripts and languages a text holds: tells the encoding of a header. */
export function vocabularyHits(text: string): number {
  const plain = plainWord(text);
  const accented = text.toLowerCase();
  let hits = 0;
  for (const words of Object.values(vocabulary)) for (const known of words) if ((known.length >= 4 || /[^\u0000-\u024f]/.test(known)) && plain.includes(known)) hits += /[^\u0000-\u024f]/.test(known) ? 2 : 1;
  // A known word with a sign that is no letter inside was cut apart by the wrong encoding.
  return hits + (accented.includes("°") || accented.includes("℃") ? 0.5 : 0);
}
