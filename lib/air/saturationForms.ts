/** One published formula for the saturation vapor pressure of pure water substance. */
export interface SaturationForm {
  /** Temperature in °C to hPa; no checks. */
  readonly pressure: (temperature: number) => number;
  /** hPa to °C in closed form, where the formula has one; no checks. */
  readonly inverse?: (vaporPressure: number) => number;
  /** Range that its authors state · °C. Outside it the formula goes on smoothly, with growing error. */
  readonly from: number;
  readonly to: number;
  readonly source: string;
}

/** Names of the forms over liquid water. */
export type WaterForm =
  | "wmo-magnus"
  | "sonntag"
  | "alduchov-eskridge"
  | "buck-1981"
  | "buck-1996"
  | "hyland-wexler"
  | "goff"
  | "murphy-koop"
  | "iapws";

/** Names of the forms over ice; each has its twin over water, so a frost point can be found from one name. */
export type IceForm = Exclude<WaterForm, "buck-1996" | "goff">;

const { exp, log, log10, tanh } = Math;
const kelvin = (t: number): number => t + 273.15;

/** e₀ exp(a t / (b + t)), with its closed inverse. */
function magnus(e0: number, a: number, b: number, from: number, to: number, source: string): SaturationForm {
  return Object.freeze({
    pressure: (t: number): number => e0 * exp((a * t) / (b + t)),
    inverse: (e: number): number => (b * log(e / e0)) / (a - log(e / e0)),
    from,
    to,
    source,
  });
}

function form(from: number, to: number, source: string, pressure: (t: number) => number): SaturationForm {
  return Object.freeze({ pressure, from, to, source });
}

function goff(t: number): number {
  const x = 273.16 / kelvin(t);
  const y = 1 / x;
  return (
    10 **
    (10.79574 * (1 - x) -
      5.028 * log10(y) +
      1.50475e-4 * (1 - 10 ** (-8.2969 * (y - 1))) +
      0.42873e-3 * (10 ** (4.76955 * (1 - x)) - 1) +
      0.78614)
  );
}

function wagnerPruss(t: number): number {
  const T = kelvin(t);
  const x = 1 - T / 647.096;
  const sum =
    -7.85951783 * x + 1.84408259 * x ** 1.5 - 11.7866497 * x ** 3 + 22.6807411 * x ** 3.5 - 15.9618719 * x ** 4 + 1.80122502 * x ** 7.5;
  return 220640 * exp((647.096 / T) * sum);
}

function murphyKoopWater(t: number): number {
  const T = kelvin(t);
  const warm = 54.842763 - 6763.22 / T - 4.21 * log(T) + 0.000367 * T;
  const cold = 53.878 - 1331.22 / T - 9.44523 * log(T) + 0.014025 * T;
  return 0.01 * exp(warm + tanh(0.0415 * (T - 218.8)) * cold);
}

function sublimation(t: number): number {
  const x = kelvin(t) / 273.16;
  return 6.11657 * exp((-21.2144006 * x ** 0.00333333333 + 27.3203819 * x ** 1.20666667 - 6.1059813 * x ** 1.70333333) / x);
}

/**
 * Saturation vapor pressure over liquid water, form by form; coefficients as published, answers in hPa.
 *
 * "read" says where the coefficients were seen; ranges are from memory unless the source prints them.
 *
 * @source each entry; held by test/published/saturation-vapor-pressure.test.ts
 */
export const waterForms: Readonly<Record<WaterForm, SaturationForm>> = Object.freeze({
  "wmo-magnus": magnus(6.112, 17.62, 243.12, -45, 60, "WMO-No. 8 (2008), Annex 4.B; read in H. Vömel, Water Vapor Pressure Formulations"),
  sonntag: form(-100, 100, "Sonntag 1990; read in three public ports", (t) => {
    const T = kelvin(t);
    return exp(-6096.9385 / T + 16.635794 - 2.711193e-2 * T + 1.673952e-5 * T ** 2 + 2.433502 * log(T));
  }),
  "alduchov-eskridge": magnus(6.1094, 17.625, 243.04, -40, 50, "Alduchov & Eskridge 1996; read in public files that cite the paper"),
  "buck-1981": magnus(6.1121, 17.502, 240.97, -20, 50, "Buck 1981, ew1; read in H. Vömel, Water Vapor Pressure Formulations"),
  "buck-1996": form(-40, 50, "Buck 1996; read in H. Vömel, Water Vapor Pressure Formulations", (t) => 6.1121 * exp(((18.678 - t / 234.5) * t) / (257.14 + t))),
  "hyland-wexler": form(0, 200, "Hyland & Wexler 1983; read in H. Vömel, Water Vapor Pressure Formulations", (t) => {
    const T = kelvin(t);
    const sum = -5800.2206 / T + 1.3914993 - 0.048640239 * T + 0.41764768e-4 * T ** 2 - 0.14452093e-7 * T ** 3;
    return 0.01 * exp(sum + 6.5459673 * log(T));
  }),
  goff: form(-50, 100, "Goff 1957 (WMO-No. 49); read in H. Vömel, Water Vapor Pressure Formulations", goff),
  "murphy-koop": form(-150, 59, "Murphy & Koop 2005; read in a public port", murphyKoopWater),
  iapws: form(0.01, 373.946, "Wagner & Pruß 2002, the auxiliary equation of IAPWS-95; read in a public port", wagnerPruss),
});

/**
 * Saturation vapor pressure over ice, form by form; coefficients as published, answers in hPa.
 *
 * @source each entry; held by test/published/saturation-vapor-pressure.test.ts
 */
export const iceForms: Readonly<Record<IceForm, SaturationForm>> = Object.freeze({
  "wmo-magnus": magnus(6.112, 22.46, 272.62, -65, 0, "WMO-No. 8 (2008), Annex 4.B; read in a public port"),
  // 24.7219: one public port prints 24.721994, another table 29.32707 (the Pa form, 24.7219 + ln 100).
  sonntag: form(-100, 0, "Sonntag 1990; read in two public files", (t) => {
    const T = kelvin(t);
    return exp(-6024.5282 / T + 24.7219 + 1.0613868e-2 * T - 1.3198825e-5 * T ** 2 - 0.49382577 * log(T));
  }),
  "alduchov-eskridge": magnus(6.1121, 22.587, 273.86, -80, 0, "Alduchov & Eskridge 1996; from memory"),
  "buck-1981": magnus(6.1115, 22.452, 272.55, -50, 0, "Buck 1981, ei2; read in a public port"),
  "hyland-wexler": form(-100, 0, "Hyland & Wexler 1983; read in a public port", (t) => {
    const T = kelvin(t);
    const sum = -5674.5359 / T + 6.3925247 - 0.9677843e-2 * T + 0.62215701e-6 * T ** 2 + 0.20747825e-8 * T ** 3 - 0.9484024e-12 * T ** 4;
    return 0.01 * exp(sum + 4.1635019 * log(T));
  }),
  "murphy-koop": form(-163, 0, "Murphy & Koop 2005; read in a public port", (t) => {
    const T = kelvin(t);
    return 0.01 * exp(9.550426 - 5723.265 / T + 3.53068 * log(T) - 0.00728332 * T);
  }),
  iapws: form(-223, 0.01, "IAPWS R14-08, sublimation; read in the public library iapws", sublimation),
});
