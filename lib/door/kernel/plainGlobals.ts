/**
 * The few names of Node that most cells use, in TypeScript: reading all of Node's types takes as long as everything else at the start.
 *
 * They agree with @types/node where they say something. A cell that the compiler finds fault with under these is compiled again under
 * the whole types, so a name that is missing here costs a moment, once, and nothing else.
 */
export const plainGlobals = `interface Console {
  assert(condition?: unknown, ...data: any[]): void;
  count(label?: string): void;
  countReset(label?: string): void;
  debug(...data: any[]): void;
  dir(item?: any, options?: object): void;
  error(...data: any[]): void;
  group(...data: any[]): void;
  groupEnd(): void;
  info(...data: any[]): void;
  log(...data: any[]): void;
  table(tabularData?: any, properties?: readonly string[]): void;
  time(label?: string): void;
  timeEnd(label?: string): void;
  timeLog(label?: string, ...data: any[]): void;
  trace(...data: any[]): void;
  warn(...data: any[]): void;
}
declare var console: Console;
declare namespace NodeJS {
  interface Timeout {
    hasRef(): boolean;
    ref(): this;
    refresh(): this;
    unref(): this;
    close(): this;
    [Symbol.toPrimitive](): number;
  }
}
declare function setTimeout<TArgs extends any[]>(callback: (...args: TArgs) => void, delay?: number, ...args: TArgs): NodeJS.Timeout;
declare function setTimeout(callback: (_: void) => void, delay?: number): NodeJS.Timeout;
declare function setInterval<TArgs extends any[]>(callback: (...args: TArgs) => void, delay?: number, ...args: TArgs): NodeJS.Timeout;
declare function setInterval(callback: (_: void) => void, delay?: number): NodeJS.Timeout;
declare function clearTimeout(timeout: NodeJS.Timeout | string | number | undefined): void;
declare function clearInterval(timeout: NodeJS.Timeout | string | number | undefined): void;
declare function queueMicrotask(callback: () => void): void;
`;
