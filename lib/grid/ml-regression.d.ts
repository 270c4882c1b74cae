/** The part of ml-regression 6.3.0 that lib/grid/detrend.ts uses; the package ships no types. */
declare module "ml-regression" {
  export class PolynomialRegression {
    constructor(x: readonly number[], y: readonly number[], degree: number);
    predict(x: number): number;
    readonly coefficients: readonly number[];
  }
}
