// One joint from arc to cold, solved in a worker and played on a canvas.

/** Fields: how an element is coloured, and the words of the legend. */
const FIELDS = {
  heat: { words: "Temperature", legend: "Pale is cold, dark is hot; heavy line: molten; thin line: {soft}, where the steel has lost most of its strength" },
  plastic: { words: "Plastic zone", legend: "Squeezed or stretched for good: light from 0.2 %, dark from 2 %" },
  stress: { words: "Lengthwise stress", legend: "Dark orange: tension up to yield; dotted blue: compression; white: none" },
};
const MELTS = 1500;
const SOFT = 727;

/** From paper to dark red: lighter is colder, so that it survives a grey print. */
function heatColour(t) {
  const s = Math.min(Math.max((t - 20) / (MELTS - 20), 0), 1);
  return `rgb(${Math.round(252 - 150 * s ** 1.6)},${Math.round(246 - 226 * s ** 0.8)},${Math.round(225 - 200 * s ** 0.6)})`;
}

function plasticColour(strain) {
  if (strain < 0.002) return "#f7f3ea";
  const s = Math.min(Math.log10(strain / 0.002), 1);
  return `rgb(${Math.round(214 - 130 * s)},${Math.round(200 - 150 * s)},${Math.round(226 - 90 * s)})`;
}

function stressColour(mpa, limit) {
  // small compression must still be seen
  const s = Math.min(Math.abs(mpa) / limit, 1) ** 0.7;
  return mpa >= 0 ? `rgb(${Math.round(255 - 85 * s)},${Math.round(252 - 190 * s)},${Math.round(244 - 225 * s)})`
    : `rgb(${Math.round(250 - 90 * s)},${Math.round(251 - 60 * s)},${Math.round(253 - 13 * s)})`;
}

class JointView {
  constructor(bench) {
    this.bench = bench;
    this.helper = null;
    this.field = "heat";
    this.zoom = 1;
    this.times = 5;
    this.at = 0;
    this.build();
  }

  build() {
    const choice = (id, words, choices, change) => make("label", { class: "switch" }, make("span", {}, words),
      make("select", { id, onchange: change }, ...choices.map(([value, said]) => make("option", { value }, said))));
    this.canvas = make("canvas", { width: 1240, height: 760, class: "joint-canvas", role: "img", "aria-labelledby": "joint-says" });
    this.says = make("p", { id: "joint-says", class: "says", "aria-live": "polite" });
    this.legend = make("p", { class: "says legend" });
    this.time = make("input", { type: "range", id: "joint-time", min: 0, max: 0, step: 1, value: 0, "aria-label": "Time since the arc",
      oninput: () => { this.at = Number(this.time.value); this.paint(); } });
    this.clock = make("output", { for: "joint-time", class: "passes" });
    this.play = make("button", { type: "button", id: "joint-play", onclick: () => this.toggle() }, "Play");
    this.facts = make("dl", { class: "numbers" });
    this.toes = draw("svg", { viewBox: `0 0 ${CHART.width} ${CHART.height}`, role: "img", class: "chart" }, draw("title", {}, "No joint solved yet"));
    this.solve = make("button", { type: "button", id: "solve", class: "main", onclick: () => this.ask() }, "Solve this joint");
    const left = make("div", { class: "controls" },
      choice("joint-seam", "Seam", [["outer", "outer"], ["inner", "inner"]], () => {}),
      make("label", { class: "knob", for: "joint-place" }, make("span", {}, "Place along the member"), make("output", { id: "joint-place-out" }),
        make("input", { type: "range", id: "joint-place", min: 0, max: 1, step: 0.01, value: 0.5, oninput: () => this.where() })),
      choice("joint-arc", "Arc", [["slice", "one slice, at once"], ["travel", "travels 300 mm"]], (e) => this.room.classList.toggle("travelling", e.target.value === "travel")),
      choice("joint-grip", "Held while it travels", [["free", "by nothing"], ["rolls", "by rolls about the arc"], ["square", "square, until cold"]], () => {}),
      choice("joint-hold", "Held in plane", [["1400", "until solid (usual)"], ["500", "until 500 °C"], ["30", "until cold, clamped"], ["", "never"]], () => {}),
      choice("joint-mesh", "Mesh", [["coarse", "coarse, quick"], ["standard", "standard, slow"]], () => {}), this.solve,
      choice("joint-field", "Show", Object.entries(FIELDS).map(([key, { words }]) => [key, words]), (e) => { this.field = e.target.value; this.paint(); }),
      choice("joint-zoom", "Window", [["1", "whole joint"], ["3", "near the weld"], ["7", "the weld alone"]], (e) => { this.zoom = Number(e.target.value); this.paint(); }),
      choice("joint-times", "Bending drawn", [["5", "5 ×"], ["1", "true"], ["20", "20 ×"]], (e) => { this.times = Number(e.target.value); this.paint(); }),
      make("p", { class: "says" }, "The job of the bench, as its sliders stand. Heat and plasticity from first principles; nothing is fitted, and nothing was compared with a measured joint."));
    const right = make("div", { class: "shape" }, this.canvas, this.says, make("div", { class: "row bar" }, this.play, this.time, this.clock), this.legend);
    const side = make("div", { class: "side" }, this.facts, this.toes);
    this.room = document.getElementById("joint-room");
    this.room.append(left, right, side);
  }

  /** The room is seen: the joint at hand is solved at once, the first time. */
  entered() {
    const has = this.travelled ?? this.found;
    if (!has && !this.solve.disabled) this.ask();
    else if (has && this.job !== this.bench.now) this.says.textContent = "The bench has changed since this joint was solved: solve it again.";
    this.where();
  }

  where() {
    const job = this.bench.now;
    if (!job) return;
    document.getElementById("joint-place-out").textContent = shownTwice("length", Number(document.getElementById("joint-place").value) * amount(job.member.length));
  }

  async ask() {
    const job = this.bench.now;
    if (!job) return;
    this.helper ??= new Helper();
    const value = (id) => document.getElementById(id).value;
    const x_mm = Number(value("joint-place")) * amount(job.member.length);
    this.solve.disabled = true;
    if (value("joint-arc") === "travel") return this.travel({ ask: "travel", job, x_mm, seam: value("joint-seam"), grip: value("joint-grip") });
    this.says.textContent = "Solving: heat, then equilibrium, step by step …";
    const start = performance.now();
    const found = await this.helper.ask({ ask: "joint", job, x_mm, seam: value("joint-seam"), mesh: value("joint-mesh"),
      hold_c: value("joint-hold") ? Number(value("joint-hold")) : null, frames: 60 });
    this.solve.disabled = false;
    if (fault(found)) return this.refused(found);
    this.took = performance.now() - start;
    [this.found, this.job, this.travelled] = [found, job, null];
    const half = found.result.joint.flange_width_mm / 2;
    this.edges = [-1, 1].map((side) => found.nodes.reduce((best, [a, u], k) => {
      const far = Math.abs(a - side * half) + Math.abs(u) * 0.01;
      return far < best[0] ? [far, k] : best;
    }, [Infinity, 0])[1]);
    this.tell();
    this.begin();
  }

  refused(found) {
    this.says.textContent = `No answer: ${fault(found)}`;
  }

  /** From the arc on; where less motion is wanted, cold at once. */
  begin() {
    dress(this.time, { max: this.count() - 1 });
    this.at = 0;
    if (still.matches) {
      this.at = this.count() - 1;
      this.paint();
    } else this.toggle(true);
  }

  count() {
    return (this.travelled ?? this.found).frames.length;
  }

  /** The arc travels along the joint: slices joined by their plates, some tens of seconds. */
  async travel(question) {
    const start = performance.now();
    const clock = setInterval(() => {
      this.says.textContent = `The arc travels: slices joined by their plates, step by step. This takes half a minute or so; ${fixed((performance.now() - start) / 1000, 0)} s so far. The rest of the page goes on.`;
    }, 500);
    const found = await this.helper.ask(question);
    clearInterval(clock);
    this.solve.disabled = false;
    if (fault(found)) return this.refused(found);
    this.took = performance.now() - start;
    [this.found, this.job, this.travelled] = [null, question.job, new Travelled(found)];
    this.tellTravel();
    this.begin();
  }

  tellTravel() {
    const found = this.travelled.answer;
    const [amid, formula] = [found.amid.at(-1), found.formula.at(-1)];
    this.numbers(amid, "free, by formula", formula, `${found.moved.travel.slices} slices`);
    const wide = (text) => this.facts.append(make("div", { class: "number wide" }, make("dd", {}, text)));
    wide("Amid the length. What turns ahead of the arc and behind it is in this one; a joint in a line is taken to tilt 0.6 of a free one, a judgement.");
    found.moved.cautions.forEach(wide);
    this.rises(this.travelled.frames.map((frame) => this.travelled.edges(frame).reverse()), this.travelled.frames);
  }

  tell() {
    const last = this.found.result.passes.at(-1);
    this.numbers(last.section, "formula", last.formula, `${this.found.elements.length} elements`);
    const wide = (text) => this.facts.append(make("div", { class: "number wide" }, make("dd", {}, text)));
    wide("A slice does not know what turns ahead of the arc and behind it: the tilt of one fillet is a lower estimate here, the arc that travels tells more. The formula's tilt goes by what holds the joint, as the bench has it.");
    this.found.result.cautions.forEach(wide);
    this.rises(this.found.frames.map((f) => this.edges.map((node) => f.d[2 * node + 1] / 1e4)), this.found.frames);
  }

  /** Force, cup and tilt beside what the formulas say. */
  numbers(here, name, formula, size) {
    const degrees = (rad) => (rad === null ? "none" : `${fixed((rad * 180) / Math.PI, 2)}°`);
    const entry = (words, value, small) => make("div", { class: "number" }, make("dt", {}, words), make("dd", { class: "figure" }, value), make("dd", { class: "limit-said" }, small));
    this.facts.replaceChildren(
      entry("Shrinkage force", shown("force", here.force_n), `${name} ${shown("force", formula.force_n)}`),
      entry("Cup", degrees(here.cup_rad), `${name} ${degrees(formula.cup_rad)}`),
      entry("Tilt", degrees(here.tilt_rad), `${name} ${degrees(formula.tilt_rad)}`),
      entry("Solved in", `${fixed(this.took / 1000, 1)} s`, size));
  }

  /** Both toes against time: the joint bending, as a curve. */
  rises(edges, frames) {
    const places = edges.map((both, k) => [k, ...both]);
    const all = places.flatMap((p) => p.slice(1));
    const [low, high] = [Math.min(0, ...all), Math.max(0.01, ...all)];
    const x = scaleOf(0, frames.length - 1, CHART.left, CHART.width - CHART.right);
    const y = scaleOf(low, high, CHART.height - CHART.foot, CHART.top);
    frame(this.toes, `Rise of the toes, ${unitOf("bow")}`, "How far each flange edge has moved toward the web, from arc to cold.");
    axes(this.toes, x, y, [0, 0], [low, high], [null, "bow"], [this.travelled ? "since the start" : "since the arc"]);
    let taken = -Infinity;
    [[1, "1 s"], [10, "10 s"], [100, "100 s"], [1000, "1000 s"]].forEach(([time, words]) => {
      const at = frames.findLastIndex((f) => f.pass === frames.at(-1).pass && f.time_s !== null && f.time_s <= time);
      // frames stand closer when little happens: a label that would touch the last one is left out
      const free = at > 0 && x(at) - taken > 42 && x(at) < CHART.width - CHART.right - 12;
      if (!free) return;
      taken = x(at);
      this.toes.append(draw("text", { class: "tick", x: x(at), y: CHART.height - CHART.foot + 14, "text-anchor": "middle" }, words));
    });
    [["far", 1, "line dashed"], ["near", 2, "line"]].forEach(([words, column, name]) => {
      const line = places.map((p) => [x(p[0]), y(p[column])]);
      this.toes.append(draw("path", { class: name, d: path(line) }), draw("text", { class: "value", x: line.at(-1)[0] + 4, y: line.at(-1)[1] + (column === 1 ? 12 : -2) }, words));
    });
    this.stamp = draw("line", { class: "now-line", y1: CHART.top, y2: CHART.height - CHART.foot });
    this.toes.append(this.stamp);
    this.stampAt = x;
  }

  /** Units have changed. */
  again() {
    this.where();
    if (this.travelled) this.tellTravel();
    else if (this.found) this.tell();
    if (this.travelled ?? this.found) this.paint();
  }

  toggle(start = false) {
    if (this.playing && !start) {
      this.playing = false;
      this.play.textContent = "Play";
      return;
    }
    if (!(this.travelled ?? this.found) || this.playing) return;
    this.playing = true;
    this.play.textContent = "Stop";
    if (this.at >= this.count() - 1) this.at = 0;
    const go = () => {
      if (!this.playing) return;
      this.paint();
      if (this.at >= this.count() - 1) return this.toggle();
      this.at += 1;
      setTimeout(() => requestAnimationFrame(go), 80);
    };
    go();
  }

  paint() {
    this.time.value = this.at;
    if (this.stamp) dress(this.stamp, { x1: this.stampAt(this.at), x2: this.stampAt(this.at) });
    if (this.travelled) return this.paintTravel();
    if (!this.found) return;
    const { found } = this;
    const now = found.frames[this.at];
    const pen = this.canvas.getContext("2d");
    const { width, height } = this.canvas;
    pen.fillStyle = "#fdfbf6";
    pen.fillRect(0, 0, width, height);
    const [left, low, right, high] = this.reach();
    const scale = Math.min(width / (right - left), height / (high - low)) * 0.94 * this.zoom;
    // the whole fills the paper; near the weld the root stays in the middle
    const middle = this.zoom > 1 ? [width / 2, height * 0.62] : [width / 2 - ((left + right) / 2) * scale, height / 2 + ((low + high) / 2) * scale];
    const place = (node) => {
      const [a, u] = found.nodes[node];
      const [da, du] = [now.d[2 * node] / 1e4, now.d[2 * node + 1] / 1e4];
      return [middle[0] + (a + da * this.times) * scale, middle[1] - (u + du * this.times) * scale];
    };
    const laid = new Set(found.result.passes.slice(0, now.pass).flatMap((pass) => pass.beads.map((bead) => bead.side)));
    const there = found.elements.map((_, e) => !["near", "far"].includes(found.parts[e]) || laid.has(found.parts[e]));
    found.elements.forEach((corners, e) => {
      if (!there[e]) return;
      const points = corners.map(place);
      const hot = corners.map((n) => now.t[n]);
      if (this.field === "heat") return this.shaded(pen, points, hot);
      const molten = hot.reduce((sum, t) => sum + t, 0) / 4 > MELTS;
      this.filled(pen, points, molten ? "#5a1a10" : this.field === "plastic" ? plasticColour(now.p[e] / 1e5) : stressColour(now.s[e], found.result.yield_mpa));
      if (this.field === "stress" && now.s[e] < -15) this.dots(pen, points);
    });
    this.outline(pen, found, there, place);
    if (this.field !== "stress") {
      this.isotherm(pen, found, now, there, place, SOFT, 1.4, "#7a3b12");
      this.isotherm(pen, found, now, there, place, MELTS, 4, "#2a0d05");
    }
    this.words(pen, now, width);
  }

  /** Everything the joint reaches in all frames, bent as it is drawn: left, low, right, high, mm. */
  reach() {
    const key = `${this.times}`;
    if (this.reached?.found === this.found && this.reached.key === key) return this.reached.box;
    const box = [Infinity, Infinity, -Infinity, -Infinity];
    for (const frame of [this.found.frames[0], this.found.frames.at(-1), ...this.found.frames.filter((_, k) => k % 6 === 0)]) {
      this.found.nodes.forEach(([a, u], node) => {
        const [x, y] = [a + (frame.d[2 * node] / 1e4) * this.times, u + (frame.d[2 * node + 1] / 1e4) * this.times];
        box[0] = Math.min(box[0], x);
        box[1] = Math.min(box[1], y);
        box[2] = Math.max(box[2], x);
        box[3] = Math.max(box[3], y);
      });
    }
    this.reached = { found: this.found, key, box };
    return box;
  }

  filled(pen, points, colour) {
    pen.fillStyle = colour;
    pen.strokeStyle = colour;
    pen.lineWidth = 1;
    pen.beginPath();
    points.forEach(([x, y], k) => (k ? pen.lineTo(x, y) : pen.moveTo(x, y)));
    pen.closePath();
    pen.fill();
    // over the hairline between neighbours
    pen.stroke();
  }

  /** An element in shades: cut into small pieces, temperature and place linear both ways between its corners. */
  shaded(pen, points, hot) {
    const parts = Math.max(...hot) - Math.min(...hot) > 60 ? 5 : 1;
    const mixed = (four, s, t) => (1 - s) * (1 - t) * four[0] + s * (1 - t) * four[1] + s * t * four[2] + (1 - s) * t * four[3];
    const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
    for (let a = 0; a < parts; a += 1) {
      for (let b = 0; b < parts; b += 1) {
        const corners = [[a, b], [a + 1, b], [a + 1, b + 1], [a, b + 1]].map(([s, t]) => [mixed(xs, s / parts, t / parts), mixed(ys, s / parts, t / parts)]);
        this.filled(pen, corners, heatColour(mixed(hot, (a + 0.5) / parts, (b + 0.5) / parts)));
      }
    }
  }

  /** Compression must not look like tension in grey. */
  dots(pen, points) {
    const [x, y] = points.reduce(([a, b], [c, d]) => [a + c / 4, b + d / 4], [0, 0]);
    pen.fillStyle = "#1d4e75";
    pen.fillRect(x - 1.2, y - 1.2, 2.4, 2.4);
  }

  /** Edges that belong to one element alone, or lie between parts. */
  outline(pen, found, there, place) {
    if (!this.borders || this.bordersOf !== found) {
      const seen = new Map();
      found.elements.forEach((corners, e) => corners.forEach((a, k) => {
        const b = corners[(k + 1) % 4];
        const key = a < b ? `${a} ${b}` : `${b} ${a}`;
        seen.set(key, [...(seen.get(key) ?? []), e]);
      }));
      this.borders = [...seen].filter(([, own]) => own.length === 1 || found.parts[own[0]] !== found.parts[own[1]])
        .map(([key, own]) => [...key.split(" ").map(Number), own]);
      this.bordersOf = found;
    }
    pen.strokeStyle = "#3a3f45";
    pen.lineWidth = 1.2;
    pen.beginPath();
    for (const [a, b, own] of this.borders) {
      if (!own.some((e) => there[e])) continue;
      pen.moveTo(...place(a));
      pen.lineTo(...place(b));
    }
    pen.stroke();
  }

  /** A line of one temperature, straight across each element. */
  isotherm(pen, found, now, there, place, level, width, colour) {
    pen.strokeStyle = colour;
    pen.lineWidth = width;
    pen.beginPath();
    found.elements.forEach((corners, e) => {
      if (!there[e]) return;
      const cuts = [];
      corners.forEach((a, k) => {
        const b = corners[(k + 1) % 4];
        const [ta, tb] = [now.t[a] - level, now.t[b] - level];
        if (ta < 0 === tb < 0) return;
        const part = ta / (ta - tb);
        const [[xa, ya], [xb, yb]] = [place(a), place(b)];
        cuts.push([xa + part * (xb - xa), ya + part * (yb - ya)]);
      });
      for (let k = 0; k + 1 < cuts.length; k += 2) {
        pen.moveTo(...cuts[k]);
        pen.lineTo(...cuts[k + 1]);
      }
    });
    pen.stroke();
  }

  words(pen, now, width) {
    const hottest = Math.max(...now.t);
    const time = now.time_s === null ? "cold" : clockSaid(now.time_s);
    this.clock.textContent = `${this.found.result.passes.length > 1 ? `pass ${now.pass}, ` : ""}${time}`;
    this.time.setAttribute("aria-valuetext", this.clock.textContent);
    const yielded = now.p.filter((p, e) => p > 200 && this.found.parts[e] === "flange").length;
    this.says.textContent = `${FIELDS[this.field].words} ${now.time_s === null ? "when all is cold" : `${time} after the arc`}. Hottest point ${shown("warm", hottest)}${hottest > MELTS ? ": molten" : ""}.`
      + `${yielded ? ` ${yielded} elements of the flange have yielded.` : ""}`;
    this.legend.textContent = `${FIELDS[this.field].legend.replace("{soft}", shown("warm", SOFT))}. Near side right, far side left. A jump of the toes is where the joint is let go.`;
    pen.fillStyle = "#1c2430";
    pen.font = `${this.letters()}px system-ui, sans-serif`;
    pen.fillText("far", 16, 8 + this.letters());
    pen.textAlign = "right";
    pen.fillText("near", width - 16, 8 + this.letters());
    pen.textAlign = "left";
  }

  /** Height of letters on the canvas that are read as 12 px, and no smaller than it was made for. */
  letters() {
    const seen = this.canvas.clientWidth || this.canvas.width;
    return Math.min(Math.max(24, (12 * this.canvas.width) / seen), 44);
  }

  paintTravel() {
    const { width, height } = this.canvas;
    this.travelled.paint(this.canvas.getContext("2d"), width, height, this.at, this.zoom, this.letters());
    const frame = this.travelled.frames[this.at];
    this.clock.textContent = this.at === this.count() - 1 ? "cold" : clockSaid(frame.time_s);
    this.time.setAttribute("aria-valuetext", this.clock.textContent);
    this.says.textContent = this.travelled.says(this.at);
    this.legend.textContent = "Pale is cold, dark is hot. The plates ahead of the arc are still free, those behind it are joined: so the halves turn before and after.";
  }
}
