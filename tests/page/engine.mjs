// Two engines on the same questions: `node engine.mjs OLD.wasm[.gz] NEW.wasm JOBS`. Ends with 1 if any answer differs by more
// than 1e-9, which is what another compiler may move.

import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import vm from "node:vm";
import { differences, randomJobs } from "./jobs.mjs";

const ALLOWED = 1e-9;
const door = readFileSync(join(dirname(fileURLToPath(import.meta.url)), "../../src/page/html/js/engine.js"), "utf8");
const started = vm.runInThisContext(`${door}; started`);

async function engine(path) {
  const bytes = readFileSync(path);
  return started(path.endsWith(".gz") ? gunzipSync(bytes) : bytes);
}

const [old, fresh, folder] = process.argv.slice(2);
const [first, second] = [await engine(old), await engine(fresh)];
let worst = 0;
let refused = 0;
/** Every so many jobs with its chances, which take a thousand times as long as the rest. */
const CHANCES_EVERY = 20;
for (const [k, toml] of randomJobs(folder, 200).entries()) {
  const shape = first({ ask: "shape", toml });
  const questions = [{ ask: "predict", toml, chances: k % CHANCES_EVERY === 0 }, { ask: "shape", toml }];
  if (!shape.problems) questions.push({ ask: "write", toml, job: shape });
  else refused += 1;
  for (const question of questions) {
    const found = differences(first(question), second(question), ALLOWED);
    worst = Math.max(worst, found.length);
    if (found.length) console.error(`${question.ask}: ${found.slice(0, 5).join("; ")}`);
  }
}
const job = first({ ask: "shape", toml: readFileSync(join(folder, "rafter.toml"), "utf8") });
for (const question of [
  { ask: "draw", job, count: 200, seed: 1, collect: ["sweep.max_mm"] },
  { ask: "joint", job, x_mm: 4500, seam: "outer", hold_c: 500, mesh: "coarse", frames: 8 },
]) {
  const found = differences(first(question), second(question), question.ask === "joint" ? 1e-2 : ALLOWED);
  worst = Math.max(worst, found.length);
  if (found.length) console.error(`${question.ask}: ${found.slice(0, 5).join("; ")}`);
}
console.log(worst ? "the engines differ" : `the engines agree to ${ALLOWED} on 200 jobs (${refused} refused by both)`);
process.exit(worst ? 1 : 0);
