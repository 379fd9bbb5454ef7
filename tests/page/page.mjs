// The page in headless Chromium, as a person has it: from a file, without a network.
// `node page.mjs PROGRAM JOBS FOLDER`: the program, the demo jobs, a folder for what is written (pictures and prints too).
// CHROMIUM names the browser, COUNT how many random jobs are compared.

import { chromium } from "playwright-core";
import { execFile, execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { differences, randomJobs, unjudged } from "./jobs.mjs";

const [program, jobs, folder] = process.argv.slice(2);
const COUNT = Number(process.env.COUNT ?? 1000);
/** So many of them judged, with their chances; the others by nothing, which saves the drawn pieces. */
const JUDGED = 100;
/** A slider must be answered within one frame of a screen with 60 of them a second. */
const FRAME_MS = 16;
/** Two builds of one engine differ in the last bits only. */
const SAME = 1e-9;
/** A page must go on a stick or into a mail. */
const MOST_BYTES = 3_000_000;

/** Words that belong together and must not be parted by the end of a sheet. */
const TOGETHER = { report: [["What it will do", "shortening"], ["Measuring plan", "shortening"]] };

mkdirSync(folder, { recursive: true });
let failed = 0;
function check(name, good, detail = "") {
  console.log(`${good ? "ok  " : "FAIL"} ${name}${detail === "" ? "" : `: ${detail}`}`);
  if (!good) failed += 1;
}

const run = (...words) => execFileSync(program, words, { encoding: "utf8", maxBuffer: 1 << 28 });
const rafter = join(jobs, "rafter.toml");
const paths = { rafter: join(folder, "rafter.html"), us: join(folder, "us.html"), course: join(folder, "course.html"), hostile: join(folder, "hostile.html") };
run("page", rafter, join(jobs, "column.toml"), "--wps", "W-12", "--out", paths.rafter);
run("page", join(jobs, "us_frame.toml"), "--choose", "--wps", "W-7", "--record", join(jobs, "../shop/record.csv"), "--out", paths.us);
run("page", "--course", "--out", paths.course);
const nasty = `</script><img src=x onerror="window.hacked=1"><script>window.hacked=1</script>`;
const hostile = readFileSync(rafter, "utf8").replace(/^title = .*$/m, `title = '${nasty}'`);
writeFileSync(join(folder, "hostile.toml"), hostile);
run("page", join(folder, "hostile.toml"), "--course", "--wps", nasty, "--out", paths.hostile);
for (const [name, path] of Object.entries(paths)) {
  const { length } = readFileSync(path);
  check(`${name}.html is small`, length <= MOST_BYTES, `${(length / 1e6).toFixed(2)} MB`);
}

const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const noise = [];
async function open(path, options = {}) {
  const tab = await browser.newPage({ viewport: { width: 1280, height: 720 }, ...options });
  tab.on("console", (message) => noise.push(`console: ${message.text()}`));
  tab.on("pageerror", (error) => noise.push(`error: ${error.message}`));
  tab.on("request", (request) => {
    if (!/^(file|blob|data):/.test(request.url())) noise.push(`request: ${request.url()}`);
  });
  const start = Date.now();
  await tab.goto(pathToFileURL(path).href);
  await tab.waitForSelector("body[data-engine=ready]", { timeout: 60_000 });
  tab.took = Date.now() - start;
  return tab;
}
const quiet = (name) => {
  check(`${name}: nothing on the console, no request`, noise.length === 0, noise.splice(0).slice(0, 5).join("; "));
};

// the same numbers as the command line
{
  const tab = await open(paths.rafter);
  check("opens from a file", true, `${tab.took} ms`);
  const texts = randomJobs(jobs, COUNT).map((text, k) => (k < JUDGED ? text : unjudged(text)));
  let [compared, different, refused] = [0, [], 0];
  const part = (from) => {
    const files = texts.slice(from, from + 100).map((text, k) => {
      const file = join(folder, `job-${from + k}.toml`);
      writeFileSync(file, text);
      return file;
    });
    // some jobs are refused, the others are there
    const native = new Promise((done) => execFile(program, ["predict", "--json", ...files], { encoding: "utf8", maxBuffer: 1 << 28 }, (_, printed) => done(printed)));
    return { files, native };
  };
  // the program predicts the next hundred while the page predicts these
  let next = part(0);
  for (let from = 0; from < texts.length; from += 100) {
    const { files, native } = next;
    if (from + 100 < texts.length) next = part(from + 100);
    const here = await tab.evaluate((all) => all.map((toml) => window.weldbow.predict(toml)), texts.slice(from, from + 100));
    const found = new Map(JSON.parse((await native) || "[]").map(({ file, ...prediction }) => [file, prediction]));
    files.forEach((file, k) => {
      const there = found.get(file);
      if (!there) {
        refused += 1;
        if (!here[k].problems) different.push(`${file}: refused by the program alone`);
        return;
      }
      compared += 1;
      different.push(...differences(there, here[k], SAME));
    });
  }
  check(`predict gives the command line's numbers to ${SAME}`, different.length === 0 && compared > COUNT / 2, `${compared} jobs, ${Math.min(JUDGED, compared)} judged with chances, ${refused} refused by both; ${different.slice(0, 3).join("; ")}`);
  quiet("numbers");

  // a heat that goes right through the plates: nulls and reasons, as the command line has them
  const hot = readFileSync(rafter, "utf8").replace(/^procedure = .*$/gm, 'heat_input = "6 kJ/mm"');
  const hotFile = join(folder, "hot.toml");
  writeFileSync(hotFile, hot);
  const there = JSON.parse(run("predict", "--json", hotFile));
  const hotHere = await tab.evaluate((toml) => window.weldbow.predict(toml), hot);
  check("a job outside the model gives nulls and reasons, as on the command line", hotHere.sweep === null && hotHere.outside?.length > 0 && differences(there, hotHere, SAME).length === 0, hotHere.outside?.[0]?.reason);

  // a slider
  await tab.click("#tab-bench");
  const times = await tab.evaluate(() => {
    const input = document.getElementById("knob-outer-leg");
    const spent = [];
    for (let k = 0; k < 120; k += 1) {
      input.value = String(4 + (k % 20) / 4);
      const start = performance.now();
      input.dispatchEvent(new Event("input"));
      document.querySelector(".member").getBoundingClientRect();
      spent.push(performance.now() - start);
    }
    return spent.sort((a, b) => a - b);
  });
  check(`slider to redraw within ${FRAME_MS} ms in the median`, times[60] <= FRAME_MS, `median ${times[60].toFixed(1)}, worst ${times.at(-1).toFixed(1)} ms`);
  const bow = () => tab.textContent(".sideMark, .mark");
  const set = (id, value) => tab.evaluate(([i, v]) => {
    const input = document.getElementById(i);
    input.value = v;
    input.dispatchEvent(new Event(input.tagName === "SELECT" ? "change" : "input"));
  }, [id, value]);
  const says = () => tab.textContent("#member-says");
  await tab.click("#reset");
  const before = await says();
  await set("knob-web", "8");
  check("a slider moves the member", (await says()) !== before, await bow());
  await tab.click("#keep");
  await set("switch-sides", "both");
  check("a kept case stays as a ghost with its numbers beside", (await tab.locator(".compare td").count()) === 9 && (await tab.getAttribute(".side-view .ghost", "d")).length > 20);
  await tab.waitForSelector("#curve .line", { timeout: 30_000 });
  await tab.waitForSelector("#histogram rect.bar", { state: "attached", timeout: 30_000 });
  await tab.click("#write");
  const written = await tab.inputValue("#job-text");
  check("the job is written with its remarks", written.includes("# Two 1.6 mm wires") && written.includes('side = "far"'), `${written.length} letters`);
  const agrees = await tab.evaluate((toml) => window.weldbow.predict(toml), written);
  check("the written job gives what the bench shows", !agrees.problems && (await says()).includes(agrees.sweep.max_mm.toFixed(1).replace("-", "−").replace("−0.0", "0.0")), agrees.problems ? JSON.stringify(agrees.problems) : agrees.sweep.max_mm);
  await tab.click("#close-sheet");
  await tab.waitForFunction(() => / out$/.test(document.querySelector(".number .limit-said").textContent));
  const said = await tab.textContent(".numbers");
  check("chances, twist and waves are told", ["out", "Twist", "flanges sweep apart", "Pieces beyond any limit", "by scatter alone"].every((words) => said.includes(words)), said.slice(0, 90));
  const row = (words) => tab.textContent(`.number:has(dt:text-is("${words}"))`);
  const judged = agrees.verdicts.find((v) => v.quantity === "twist");
  check("a twist that is judged says so", /within|may be out|out/.test(await tab.textContent('.number:has(dt:text-is("Twist")) .verdict')) && (await row("Twist")).includes(`limit ${judged.limit.toFixed(1)} mm`), await row("Twist"));
  const toes = () => tab.textContent("#section-says");
  const before_hold = await toes();
  await set("switch-hold", "square");
  check("what holds the joint moves the toes", (await toes()) !== before_hold);
  await set("switch-hold", "job");
  await set("switch-sides", "job");
  await set("switch-sequence", "tee");
  await set("passes", "0");
  const [tee, end] = [await says(), (await set("passes", "9"), await says())];
  check("a tee bows after its pass and less at the end", /after pass 1/.test(tee) && !/after pass/.test(end) && tee !== end, `${tee.slice(12, 40)} then ${end.slice(12, 40)}`);
  await tab.click("#units");
  check("inches everywhere", /\bin\b/.test(await says()), await says());
  await tab.click("#units");
  await tab.click("#reset");
  await tab.waitForTimeout(1500);
  await tab.screenshot({ path: join(folder, "bench-1280.png") });
  await tab.click("#paper");
  await tab.screenshot({ path: join(folder, "bench-dark.png") });
  await tab.click("#paper");

  // a value that makes no job is said, and the page goes on
  await set("knob-outer-flange", "30");
  await set("knob-web", "12");
  check("still there after extremes", (await says()).length > 20);
  quiet("bench");

  // the joint
  await tab.click("#tab-joint");
  await tab.waitForFunction(() => /after the arc|when all is cold/.test(document.getElementById("joint-says").textContent), null, { timeout: 120_000 });
  const frames = Number(await tab.getAttribute("#joint-time", "max")) + 1;
  check("a joint is solved in the worker", frames > 30, `${frames} frames; ${await tab.textContent("#joint-room .numbers")}`);
  await tab.waitForTimeout(1200);
  await tab.screenshot({ path: join(folder, "joint-heat.png") });
  await tab.waitForFunction(() => document.getElementById("joint-play").textContent === "Play", null, { timeout: 60_000 });
  for (const field of ["plastic", "stress"]) {
    await set("joint-field", field);
    await tab.screenshot({ path: join(folder, `joint-${field}.png`) });
  }
  await set("joint-field", "heat");
  await set("joint-zoom", "3");
  await set("joint-time", "22");
  await tab.screenshot({ path: join(folder, "joint-near.png") });
  quiet("joint");

  // an arc that travels: play, scrub, near the arc, inches
  await set("joint-zoom", "1");
  await set("joint-arc", "travel");
  const said_of_joint = () => tab.textContent("#joint-says");
  await tab.click("#solve");
  await tab.waitForFunction(() => /after the start|No answer/.test(document.getElementById("joint-says").textContent), null, { timeout: 900_000 });
  const last_frame = Number(await tab.getAttribute("#joint-time", "max"));
  check("an arc travels along the joint", last_frame > 20 && !/No answer/.test(await said_of_joint()), `${last_frame + 1} frames; ${await tab.textContent("#joint-room .numbers")}`);
  await tab.waitForFunction(() => Number(document.getElementById("joint-time").value) > 3, null, { timeout: 30_000 });
  await tab.click("#joint-play");
  const stopped = await tab.inputValue("#joint-time");
  await tab.waitForTimeout(400);
  check("it plays by itself and stops", (await tab.inputValue("#joint-time")) === stopped, `at frame ${stopped}`);
  const drawn = () => tab.evaluate(() => document.querySelector(".joint-canvas").toDataURL());
  await set("joint-time", "10");
  const [whole, words_whole] = [await drawn(), await said_of_joint()];
  check("a frame is told in words", /after the start, arc at \d+ mm: amid the length the near edge has risen/.test(words_whole), words_whole);
  await tab.screenshot({ path: join(folder, "joint-travel.png") });
  await set("joint-zoom", "3");
  check("the window goes near the arc", (await drawn()) !== whole);
  await set("joint-zoom", "1");
  check("and back", (await drawn()) === whole);
  await tab.click("#joint-play");
  await tab.waitForFunction(() => Number(document.getElementById("joint-time").value) > 11, null, { timeout: 30_000 });
  await tab.click("#joint-play");
  check("it plays on from where it stands", Number(await tab.inputValue("#joint-time")) > 11, `frame ${await tab.inputValue("#joint-time")}`);
  await tab.click("#units");
  const inches = `${await said_of_joint()} ${await tab.textContent("#joint-room .side")}`;
  check("inches at once in the joint too", /\d in\b/.test(inches) && / kip/.test(inches) && !/ mm\b/.test(inches), inches.slice(0, 120));
  await tab.click("#units");
  quiet("travelling arc");
  await tab.close();
}

// the picture of the bench that `plots/` keeps: both legs at 7 mm beside the kept case of 6 mm
{
  const tab = await open(paths.rafter, { deviceScaleFactor: 0.8 });
  await tab.click("#tab-bench");
  await tab.click("#keep");
  for (const id of ["knob-outer-leg", "knob-inner-leg"]) {
    await tab.evaluate((knob) => {
      const input = document.getElementById(knob);
      input.value = "7";
      input.dispatchEvent(new Event("input"));
    }, id);
  }
  await tab.waitForFunction(() => / out$/.test(document.querySelector(".number .limit-said").textContent));
  await tab.waitForTimeout(800);
  await tab.screenshot({ path: join(folder, "page-bench.png") });
  check("a kept case lies beside the one at hand", /7\.0 mm/.test(await tab.textContent("#out-outer-leg")) && (await tab.textContent(".trouble")) === "" && (await tab.locator(".compare td").count()) === 9, await tab.textContent(".compare tbody"));
  quiet("kept picture");
  await tab.close();
}

// keys alone
{
  const tab = await open(paths.rafter);
  await tab.keyboard.press("Tab");
  check("the first stop is the way to the content", (await tab.evaluate(() => document.activeElement.className)) === "skip");
  await tab.keyboard.press("Tab");
  await tab.keyboard.press("ArrowRight");
  check("arrows change the room", (await tab.evaluate(() => document.body.dataset.room)) === "bench");
  for (let k = 0; k < 30; k += 1) {
    await tab.keyboard.press("Tab");
    if (await tab.evaluate(() => document.activeElement.id === "knob-outer-leg")) break;
  }
  const before = await tab.textContent("#out-outer-leg");
  await tab.keyboard.press("ArrowRight");
  const after = await tab.textContent("#out-outer-leg");
  check("an arrow turns a slider by its step", before !== after, `${before} to ${after}`);
  await tab.keyboard.press("k");
  check("k keeps a case", (await tab.locator(".compare table").count()) === 1);
  await tab.keyboard.press("r");
  check("r sets it back", (await tab.textContent("#out-outer-leg")) === before);
  await tab.keyboard.press("w");
  check("w writes the job", await tab.evaluate(() => document.getElementById("job-sheet").open));
  await tab.keyboard.press("Escape");
  const nameless = await tab.evaluate(() => {
    const named = (e) => e.getAttribute("aria-label") || e.getAttribute("aria-labelledby") || e.labels?.length || e.textContent.trim() || e.querySelector?.("title");
    return [...document.querySelectorAll("button, input, select, textarea, [role=img], canvas")].filter((e) => !named(e)).map((e) => e.id || e.className || e.outerHTML.slice(0, 60));
  });
  check("everything has a name for those who listen", nameless.length === 0, nameless.slice(0, 5).join(", "));
  quiet("keys");
  await tab.close();
}

// less motion, small screen
{
  const tab = await open(paths.rafter, { reducedMotion: "reduce", viewport: { width: 390, height: 844 } });
  await tab.click("#tab-bench");
  await tab.waitForTimeout(1200);
  const wide = await tab.evaluate(() => document.documentElement.scrollWidth);
  check("nothing hangs over the edge of a phone", wide <= 390, `${wide} px`);
  await tab.screenshot({ path: join(folder, "bench-390.png") });
  await tab.click("#tab-report");
  const report = await tab.evaluate(() => document.documentElement.scrollWidth);
  check("nor in the report", report <= 390, `${report} px`);
  await tab.screenshot({ path: join(folder, "report-390.png") });
  const verdicts = await tab.evaluate(() => Math.max(...[...document.querySelectorAll(".report table:first-of-type td.judged")].map((cell) => cell.getBoundingClientRect().right)));
  check("a verdict is seen without pushing its table aside", verdicts > 0 && verdicts <= 390, `${verdicts.toFixed(0)} px`);
  await tab.click("#tab-joint");
  await tab.waitForFunction(() => /when all is cold|No answer/.test(document.getElementById("joint-says").textContent), null, { timeout: 120_000 });
  check("where less motion is wanted, a joint stands cold at once", (await tab.textContent("#joint-play")) === "Play");
  const joint = await tab.evaluate(() => document.documentElement.scrollWidth);
  check("nor in the joint", joint <= 390, `${joint} px`);
  await tab.screenshot({ path: join(folder, "joint-390.png") });
  quiet("phone");
  await tab.close();
}

// titles that would be markup
{
  const tab = await open(paths.hostile);
  await tab.click("#tab-bench");
  await tab.waitForTimeout(800);
  check("a hostile title does nothing", !(await tab.evaluate(() => window.hacked)) && (await tab.locator("img").count()) === 0);
  quiet("hostile title");
  await tab.close();
}

// the course
{
  const tab = await open(paths.course);
  const lessons = await tab.evaluate(() => JSON.parse(document.getElementById("data").textContent).course);
  await tab.waitForSelector("#course-room[data-drawn=all]", { timeout: 120_000 });
  const missing = await tab.evaluate(() => [...document.querySelectorAll(".lesson .picture")].filter((p) => !p.querySelector("svg")).map((p) => p.closest(".lesson").id));
  check("every lesson but the last has a picture", missing.join() === "lesson-limits", missing.join(", "));
  const outside = await tab.evaluate(() => [...document.querySelectorAll("svg.lesson-picture text")].filter((text) => {
    const [box, paper] = [text.getBBox(), text.ownerSVGElement.viewBox.baseVal];
    return box.x < 0 || box.x + box.width > paper.width || box.y < 0 || box.y + box.height > paper.height;
  }).map((text) => `${text.closest(".lesson").id}: ${text.textContent}`));
  check("no word leaves its picture", outside.length === 0, outside.slice(0, 6).join("; "));
  for (const lesson of lessons.filter((one) => one.check)) {
    const ratio = await tab.evaluate((id) => window.weldbow.ratio(id), lesson.id);
    check(`the answer of "${lesson.id}" is what the engine says`, ratio >= lesson.check.low && ratio <= lesson.check.high, `${ratio.toFixed(3)} in ${lesson.check.low} to ${lesson.check.high}`);
  }
  const held = await tab.evaluate(() => JSON.parse(document.getElementById("data").textContent).restraint);
  const cup = (hold) => held.find((one) => one.hold_c === hold).cup_deg / held.find((one) => one.hold_c === 1400).cup_deg;
  const cups = [cup(null), cup(300), cup(30)];
  check("the lesson on restraint says what its joints do", cups[0] < 0.2 && cups[1] > 0.65 && cups[1] < 0.85 && cups[2] > 0.4 && cups[2] < 0.6, cups.map((c) => c.toFixed(2)).join(", "));
  // ten sweeps are entered: the doubt that all pieces share falls by the normal law (textbook), what they differ by stays
  const entered = (count) => tab.evaluate((n) => {
    const how = document.querySelector("#lesson-ten-sweeps input[type=range]");
    how.value = n;
    how.dispatchEvent(new Event("input"));
    return [...document.querySelector("#lesson-ten-sweeps .sweeps .says").textContent.matchAll(/± ([\d.]+)/g)].map((found) => Number(found[1]));
  }, count);
  const [none, ten] = [await entered(0), await entered(10)];
  const law = 1 / Math.sqrt(1 / none[0] ** 2 + 10 / (none[2] ** 2 + 1));
  check("ten sweeps shrink the bias and leave the scatter", none[0] === none[1] && Math.abs(ten[0] - law) < 0.1 && ten[0] < 0.8 * none[0] && ten[2] === none[2], `± ${none[0]} to ± ${ten[0]} mm, ± ${law.toFixed(2)} by the law; pieces ± ${ten[2]} mm`);
  // by hand, 400 000 draws of a normal bias of 4.5 mm under a scatter of 5.8 mm: 47 lots in 100, 19 = 0.92^20 if nothing is shared
  const lots = await tab.textContent("#lesson-sure .says");
  const [shared, differ, none_out, alone] = [/All share ± ([\d.]+) mm/, /differ by ± ([\d.]+) mm/, /, (\d+) lots of 20 in 100 have none/, /; (\d+) if they shared nothing/].map((words) => Number(words.exec(lots)?.[1]));
  check("lots of pieces that share a bias have none out more often", shared === none[0] && differ === none[2] && none_out >= 40 && none_out <= 55 && alone === 19, lots);
  await tab.fill("#lesson-ten-sweeps input[type=text]", "-6,5; −4; many");
  await tab.dispatchEvent("#lesson-ten-sweeps input[type=text]", "change");
  check("a sweep that is no number is asked for again", (await tab.textContent("#lesson-ten-sweeps .sweeps .says")).includes("as numbers in mm"));
  await tab.fill("#lesson-ten-sweeps input[type=text]", "-6,5; −4; -5");
  await tab.dispatchEvent("#lesson-ten-sweeps input[type=text]", "change");
  check("own sweeps are entered", (await tab.textContent("#lesson-ten-sweeps .sweeps .says")).startsWith("After 3 pieces"));
  await tab.locator("#lesson-ten-sweeps").screenshot({ path: join(folder, "ten-sweeps.png") });
  await tab.screenshot({ path: join(folder, "course-1280.png") });
  await tab.click("#quiz");
  check("the quiz hides what teaches", !(await tab.isVisible(".teaching")));
  await tab.screenshot({ path: join(folder, "quiz-1280.png") });
  for (const [k, lesson] of lessons.entries()) {
    const choice = k === 0 ? (lesson.right + 1) % lesson.choices.length : lesson.right;
    await tab.check(`#lesson-${lesson.id} input[value="${choice}"]`);
  }
  const score = await tab.textContent(".score");
  check("the quiz counts first tries", score.startsWith(`${lessons.length - 1} of ${lessons.length}`), score);
  await tab.click("#quiz");
  await tab.click("#lesson-sequence button");
  check("a lesson sets the bench", (await tab.inputValue("#switch-sequence")) === "tee", await tab.textContent("#member-says"));
  await tab.click("#tab-course");
  quiet("course");
  await print(tab, "course", [8, 22], ["Why a weld shrinks", "Answer:"]);
  await tab.close();
}

// a window that is wider on one side, in inches
{
  const tab = await open(paths.us);
  await tab.click("#tab-bench");
  await tab.waitForSelector("#histogram rect.bar", { state: "attached", timeout: 30_000 });
  const camber = await tab.textContent(".number .limit-said");
  check("a window is told by both its edges", /window −?0\.\d+ to \+0\.\d+ in/.test(camber) && !/−0\.00/.test(camber), camber);
  check("what is judged of a wanted camber is what is off it", /^−?0\.\d+ in off the wanted camber, /.test(camber), camber);
  const odd = await tab.textContent(".warnings");
  check("warnings are read in inches", !/ mm\b/.test(odd) && !/ mm\b/.test(await tab.textContent(".report")), odd.slice(0, 60));
  await tab.click("#tab-record");
  await print(tab, "record", [2, 7], ["What your welds do", "Before and after", "In the order of welding", "with your pieces"]);
  await tab.click("#tab-report");
  await print(tab, "us", [3, 9], ["What weld holds every limit", "What each seam needs", "W-7", "twist"]);
  quiet("inches");
  await tab.close();
}

// the report on paper
{
  const tab = await open(paths.rafter);
  await tab.screenshot({ path: join(folder, "report-1280.png") });
  await print(tab, "report", [6, 14], ["Measuring plan", "Cut list", "W-12", "EN 1090-2", "rolls around the arc", "by scatter alone"]);
  quiet("report");
  await tab.close();
}

async function print(tab, name, [least, most], words) {
  for (const format of ["A4", "Letter"]) {
    const path = join(folder, `${name}-${format}.pdf`);
    await tab.pdf({ path, format });
    const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [path], { encoding: "utf8" }))[1]);
    // heads of narrow columns take two lines
    const sheets = execFileSync("pdftotext", [path, "-"], { encoding: "utf8" }).split("\f").map((sheet) => sheet.replace(/\s+/g, " "));
    const parted = (TOGETHER[name] ?? []).filter(([head, row]) => sheets.some((sheet) => sheet.includes(head) && !sheet.includes(row)));
    check(`${name} keeps heads and rows together on ${format}`, parted.length === 0, parted.map((pair) => pair.join(" | ")).join("; "));
    const text = sheets.join(" ");
    const absent = words.filter((word) => !text.includes(word));
    check(`${name} prints on ${format}`, pages >= least && pages <= most && absent.length === 0, `${pages} pages${absent.length ? `, without ${absent.join(", ")}` : ""}`);
    execFileSync("pdftoppm", ["-r", "60", "-png", path, join(folder, `${name}-${format}`)]);
  }
}

await browser.close();
console.log(failed ? `${failed} checks failed` : "all checks passed");
process.exit(failed ? 1 : 0);
