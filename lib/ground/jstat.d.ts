/** The part of jstat 1.9.6 that lib/ground/distributions.ts uses; the package ships no types. */
declare module "jstat" {
  const jStat: {
    /** Regularized incomplete beta function I_x(a, b). */
    ibeta(x: number, a: number, b: number): number;
    readonly studentt: { inv(p: number, dof: number): number };
    readonly chisquare: { cdf(x: number, dof: number): number; inv(p: number, dof: number): number };
    readonly centralF: { cdf(x: number, dof1: number, dof2: number): number; inv(p: number, dof1: number, dof2: number): number };
    readonly normal: { cdf(x: number, mean: number, sd: number): number; inv(p: number, mean: number, sd: number): number };
  };
  export default jStat;
}
