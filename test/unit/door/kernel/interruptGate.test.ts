import { expect, it } from "vitest";
import { breakCode, interruptGate, sharedPlaces } from "../../../../lib/door/kernel/interruptGate.js";

it("a signal goes out only while code runs; every interrupt is counted", () => {
  const places = new Int32Array(new SharedArrayBuffer(12));
  const gate = interruptGate(places);
  let signals = 0;
  const signal = (): void => void signals++;
  breakCode(places, signal);
  expect([gate.count(), signals]).toEqual([1, 0]);
  gate.enter();
  gate.leave();
  breakCode(places, signal);
  expect([gate.count(), signals]).toEqual([2, 0]);
  gate.enter();
  breakCode(places, signal);
  // The run does not end before the signal; a second interrupt sends no second one.
  breakCode(places, signal);
  expect([gate.count(), signals, Atomics.load(places, sharedPlaces.code)]).toEqual([4, 1, 3]);
  const before = Date.now();
  gate.leave();
  expect(Date.now() - before).toBeGreaterThan(1500);
  gate.reset();
  breakCode(places, signal);
  expect([gate.count(), signals]).toEqual([5, 1]);
});
