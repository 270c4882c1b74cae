import { type Random, random } from "../../lib/ground/random.js";

/** A house to invent: how its inside answers the air outside. */
export interface RoomPlan {
  readonly title: string;
  /** One time constant, or a light air node (τ₁ to the outside) tied to a heavy one (τ₁₂ from the air, τ₂ of the mass) · h. */
  readonly nodes: { readonly tau: number } | { readonly outer: number; readonly tie: number; readonly mass: number };
  /** Inside above outside · K. */
  readonly offset: number;
  /** What people do to the room: AR(1), sd in K, memory in h. */
  readonly habits: { readonly sd: number; readonly memory: number };
  /** Sun through windows every day, as outdoor warmth that only the room feels · K, default 0. */
  readonly sun?: number;
}

const habits = { sd: 0.5, memory: 30 };

export const roomPlans: Readonly<Record<"quick" | "middle" | "slow" | "twoNodes", RoomPlan>> = {
  quick: { title: "one constant, 3 h", nodes: { tau: 3 }, offset: 2, habits: { sd: 0, memory: 30 } },
  middle: { title: "one constant, 12 h, habits", nodes: { tau: 12 }, offset: 2, habits },
  slow: { title: "one constant, 30 h, habits", nodes: { tau: 30 }, offset: 2, habits },
  twoNodes: { title: "two nodes, habits", nodes: { outer: 10, tie: 4, mass: 40 }, offset: 2, habits },
};

const stepsAnHour = 6;

/** AR(1) of n steps with a stationary start. */
export function ar1(chance: Random, n: number, sd: number, memorySteps: number): Float64Array {
  const phi = Math.exp(-1 / memorySteps);
  const out = new Float64Array(n);
  let v = sd * chance.normal();
  for (let i = 0; i < n; i++) {
    out[i] = v;
    v = phi * v + sd * Math.sqrt(1 - phi * phi) * chance.normal();
  }
  return out;
}

/** Air outside at 10-minute steps: slow and fast weather and a daily cycle whose size follows the clouds from day to day. */
function outdoorAir(chance: Random, hours: number): Float64Array {
  const n = hours * stepsAnHour;
  const slow = ar1(chance, n, 2.5, 60 * stepsAnHour);
  const fast = ar1(chance, n, 0.4, 1.5 * stepsAnHour);
  const clouds = ar1(chance, Math.ceil(hours / 24) + 2, 0.35, 2);
  return slow.map((v, i) => {
    const hour = i / stepsAnHour;
    const day = Math.floor(hour / 24);
    const cloud = 1 + clouds[day] + (clouds[day + 1] - clouds[day]) * (hour / 24 - day);
    const angle = (2 * Math.PI * (hour - 14.5)) / 24;
    return 10 + v + fast[i] + Math.max(0.1, cloud) * (4 * Math.cos(angle) + 0.8 * Math.cos(2 * angle));
  });
}

/** One step of the exact filter of a room of one constant, for straight runs. */
function oneNode(tau: number): (t: number, before: number, now: number) => number {
  const h = 1 / stepsAnHour;
  const a = Math.exp(-h / tau);
  const last = 1 - ((1 - a) * tau) / h;
  return (t, before, now) => a * t + (1 - a - last) * before + last * now;
}

/** Inside from outside; `later` (a constant) holds from step `cut` on. */
function roomOf(nodes: RoomPlan["nodes"], outside: Float64Array, later?: { tau: number; cut: number }): Float64Array {
  const out = new Float64Array(outside.length);
  out[0] = outside[0];
  if ("tau" in nodes) {
    const [early, late] = [oneNode(nodes.tau), oneNode(later?.tau ?? nodes.tau)];
    for (let i = 1; i < out.length; i++) out[i] = (i >= (later?.cut ?? out.length) ? late : early)(out[i - 1], outside[i - 1], outside[i]);
    return out;
  }
  let [air, mass] = [outside[0], outside[0]];
  const pieces = 4;
  const d = 1 / stepsAnHour / pieces;
  for (let i = 1; i < out.length; i++) {
    for (let k = 0; k < pieces; k++) {
      const x = outside[i - 1] + ((outside[i] - outside[i - 1]) * (k + 0.5)) / pieces;
      const midAir = air + (d / 2) * ((x - air) / nodes.outer + (mass - air) / nodes.tie);
      const midMass = mass + (d / 2) * ((air - mass) / nodes.mass);
      air += d * ((x - midAir) / nodes.outer + (midMass - midAir) / nodes.tie);
      mass += d * ((midAir - midMass) / nodes.mass);
    }
    out[i] = air;
  }
  return out;
}

/** True gain and lag of a plan at a frequency. */
export function truthAt(nodes: RoomPlan["nodes"], cyclesPerDay: number): { gain: number; lagHours: number } {
  const w = (2 * Math.PI * cyclesPerDay) / 24;
  // 1/H as re + i im.
  let [re, im] = [1, 0];
  if ("tau" in nodes) im = w * nodes.tau;
  else {
    const m = 1 / nodes.mass;
    const size = m * m + w * w;
    re = nodes.outer * (1 / nodes.outer + 1 / nodes.tie - (m * m) / nodes.tie / size);
    im = nodes.outer * (w + (m * w) / nodes.tie / size);
  }
  return { gain: 1 / Math.hypot(re, im), lagHours: Math.atan2(im, re) / w };
}

function hourMeans(values: Float64Array): Float64Array {
  return Float64Array.from({ length: values.length / stepsAnHour }, (_, h) => {
    let sum = 0;
    for (let i = 0; i < stepsAnHour; i++) sum += values[h * stepsAnHour + i];
    return sum / stepsAnHour;
  });
}

/** Hours on which both places are there: one gap of 3 to 24 h in ten days and one of 6 % of the record are not. */
function presentHours(chance: Random, hours: number): Uint8Array {
  const present = new Uint8Array(hours).fill(1);
  for (let k = 0; k < Math.floor(hours / 240); k++) {
    const from = k * 240 + chance.integer(210);
    present.fill(0, from, from + 3 + chance.integer(22));
  }
  const long = Math.round(0.06 * hours);
  const from = Math.floor(0.1 * hours) + chance.integer(Math.floor(0.7 * hours));
  present.fill(0, from, from + long);
  return present;
}

export interface InventedRoom {
  readonly inside: Float64Array;
  readonly outside: Float64Array;
}

/** The two hourly records of one seed: air, room, habits, sensors, gaps; `change` gives a later constant and the hour it begins. */
export function inventedRoom(
  plan: RoomPlan,
  days: number,
  seed: number,
  { isGappy = true, change, drift = 0 }: { isGappy?: boolean; change?: { tau: number; hour: number }; drift?: number } = {},
): InventedRoom {
  const chance = random(seed);
  const warmUp = 240;
  const air = outdoorAir(chance, days * 24 + warmUp);
  // A season: so many K of fall from the first to the last day.
  const seasonal = air.map((v, i) => v - (drift * i) / air.length);
  const felt = plan.sun === undefined ? seasonal : seasonal.map((v, i) => v + (plan.sun ?? 0) * Math.max(0, Math.sin((2 * Math.PI * (i / stepsAnHour - 6)) / 24)));
  const room = roomOf(plan.nodes, felt, change === undefined ? undefined : { tau: change.tau, cut: (change.hour + warmUp) * stepsAnHour });
  const n = days * 24;
  const people = ar1(chance, n, plan.habits.sd, plan.habits.memory);
  const [sensorIn, sensorOut] = [ar1(chance, n, 0.07, 6), ar1(chance, n, 0.07, 6)];
  const present = isGappy ? presentHours(chance, n) : new Uint8Array(n).fill(1);
  const [roomHours, airHours] = [hourMeans(room).subarray(warmUp), hourMeans(seasonal).subarray(warmUp)];
  const inside = roomHours.map((v, h) => (present[h] === 1 ? v + plan.offset + people[h] + sensorIn[h] + 0.04 * chance.normal() : Number.NaN));
  const outside = airHours.map((v, h) => (present[h] === 1 ? v + sensorOut[h] + 0.04 * chance.normal() : Number.NaN));
  return { inside, outside };
}
