import type { Series } from "../../record/series.js";
import type { TideFit, TideOptions } from "./tideFit.js";

/**
 * The pressure tide of a series with honest intervals. (Types first: the body follows in the next commit.)
 */
export declare function fitTides(series: Series, options: TideOptions): TideFit;
