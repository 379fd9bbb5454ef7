// Random jobs around the demo jobs, the same each time, that the command line accepts for the most part.

import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

/** A small generator of numbers in [0, 1) (mulberry32). */
export function generator(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** So many texts: thicknesses, widths, legs, currents, speeds and yields of the demo jobs, each off by up to a quarter. */
export function randomJobs(folder, count, seed = 7) {
  const random = generator(seed);
  const demos = readdirSync(folder).filter((name) => name.endsWith(".toml")).sort().map((name) => readFileSync(join(folder, name), "utf8"));
  const keys = /\b(thickness|width|leg|current|current_per_wire|voltage|travel_speed|yield)(\s*=\s*")([0-9.]+)( (?:mm|A|V|m\/min|in\/min|MPa|ksi))"/g;
  return Array.from({ length: count }, (_, k) => demos[k % demos.length].replace(keys, (_, key, equals, value, unit) => {
    const other = Number(value) * (0.8 + 0.45 * random());
    return `${key}${equals}${Number(other.toPrecision(5))}${unit}"`;
  }));
}

/** The same job judged by nothing: no pieces are drawn for it, which takes a hundred times as long as all the rest. */
export function unjudged(text) {
  const plain = text.replace(/^tolerances\s*=.*$/m, "").replace(/^\[limits\][^[]*/m, "");
  return `tolerances = []\n${plain}`;
}

/** Below this a number counts as nothing beside the others of a result (mm, rad, MPa): rounding leaves 1e-15 of either sign. */
const NOTHING = 1e-3;

/** Places where two results differ by more than `allowed`, relative. */
export function differences(a, b, allowed, path = "") {
  if (typeof a === "number" && typeof b === "number") {
    const size = Math.max(Math.abs(a), Math.abs(b), NOTHING);
    return Math.abs(a - b) / size > allowed ? [`${path}: ${a} against ${b}`] : [];
  }
  if (a === null || b === null || typeof a !== "object" || typeof b !== "object") return a === b ? [] : [`${path}: ${a} against ${b}`];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].flatMap((key) => differences(a[key] ?? null, b[key] ?? null, allowed, `${path}.${key}`));
}
