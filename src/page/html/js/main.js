// Rooms, units, paper, keys; and what other scripts may use: window.weldbow.

const rooms = [...document.querySelectorAll("main > section")].map((section) => section.id);
let bench = null;
let joint = null;
let course = null;

/** Shows a room; the bench draws when it is seen. */
function showRoom(name, focus = true) {
  for (const id of rooms) {
    const here = id === name;
    document.getElementById(id).hidden = !here;
    const tab = document.getElementById(`tab-${id}`);
    if (!tab) continue;
    tab.setAttribute("aria-selected", String(here));
    tab.tabIndex = here ? 0 : -1;
    if (here && focus) tab.focus({ preventScroll: true });
  }
  document.body.dataset.room = name;
  // the report keeps the units that it was written in
  document.getElementById("units").hidden = name === "report";
  if (name === "joint" && joint) joint.entered();
  scrollTo(0, 0);
}

function tabs() {
  const list = document.querySelector("[role=tablist]");
  list.addEventListener("click", (event) => {
    const tab = event.target.closest("[role=tab]");
    if (tab) showRoom(tab.getAttribute("aria-controls"));
  });
  list.addEventListener("keydown", (event) => {
    const by = { ArrowRight: 1, ArrowLeft: -1, Home: -rooms.length, End: rooms.length }[event.key];
    if (!by) return;
    event.preventDefault();
    const at = rooms.indexOf(document.body.dataset.room);
    const to = Math.abs(by) > 1 ? (by > 0 ? rooms.length - 1 : 0) : (at + by + rooms.length) % rooms.length;
    showRoom(rooms[to]);
  });
}

function buttons() {
  const units = document.getElementById("units");
  units.addEventListener("click", () => {
    page.us = !page.us;
    units.textContent = page.us ? "Show in mm" : "Show in inches";
    bench?.again();
    joint?.again();
    course?.again();
  });
  const paper = document.getElementById("paper");
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const put = (on) => {
    document.documentElement.dataset.paper = on ? "dark" : "light";
    paper.textContent = on ? "Light paper" : "Dark paper";
  };
  put(dark.matches);
  paper.addEventListener("click", () => put(document.documentElement.dataset.paper !== "dark"));
  document.querySelectorAll("button.print").forEach((button) => button.addEventListener("click", () => print()));
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || document.querySelector("dialog[open]")) return;
    if (/^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName) && event.target.type !== "range") return;
    if (document.body.dataset.room !== "bench" || !bench?.found) return;
    const action = { r: () => bench.reset(), k: () => bench.keep(), p: () => bench.toggle(), w: () => bench.write() }[event.key];
    if (action) {
      event.preventDefault();
      action();
    }
    const by = { ",": -0.05, ".": 0.05 }[event.key];
    if (by) bench.view.pick(bench.view.at + by);
  });
}

async function start() {
  tabs();
  buttons();
  showRoom(rooms[0], false);
  try {
    page.bytes = await unpacked(document.getElementById("engine").textContent);
    page.ask = await started(page.bytes);
  } catch (error) {
    document.body.dataset.engine = "none";
    document.getElementById("no-engine").hidden = false;
    throw error;
  }
  page.us = data.units === "us";
  document.getElementById("units").textContent = page.us ? "Show in mm" : "Show in inches";
  bench = new Bench(new Helper());
  joint = new JointView(bench);
  bench.open(0);
  if (data.course.length) course = new Course(bench);
  document.body.dataset.engine = "ready";
}

window.weldbow = {
  ready: start(),
  /** The object of `weldbow predict --json` for a job's text, or what is wrong with it. */
  predict: (toml) => page.ask({ ask: "predict", toml }),
  /** Any question to the engine. */
  ask: (question) => page.ask(question),
  /** What the answer of a lesson rests on. */
  ratio: (id) => course.ratio(id),
};
