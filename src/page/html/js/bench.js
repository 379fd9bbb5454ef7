// The bench: a job under sliders and switches, the member at once, what follows from it a moment later.

const PIECES = 2000;
/** Where the engine judges a camber by how far it is off a wanted one. */
const CUT_STRAIGHT = "if the web is cut straight";

/** "limit 9.0 mm"; a window that is wider on one side by both its edges. */
function limitSaid(found, verdict) {
  const [less, more] = found.bands[found.verdicts.indexOf(verdict)];
  if (Math.abs(less - more) < 1e-9) return `limit ${shown("bow", verdict.limit)}`;
  return `window ${figure("bow", -less)} to +${shown("bow", more)}`;
}

/** What a limit judges, where that is not the number beside it. */
function judgedSaid(verdict) {
  if (verdict.place === CUT_STRAIGHT) return `${shown("bow", verdict.value)} off the wanted camber, `;
  const part = { flange_tilt: "tilt", flange_cup: "cup", twist: "offset" }[verdict.quantity];
  return part ? `${part} ${shown("bow", Math.abs(verdict.value))}, ` : "";
}

/** The largest chance that a limit on a quantity is passed. */
function shareOf(found, pieces, quantity) {
  const of = found.verdicts.map((v, k) => (v.quantity === quantity ? pieces.likely[k].chance : null)).filter((c) => c !== null);
  return of.length ? Math.max(...of) : null;
}

class Bench {
  constructor(helper) {
    this.helper = helper;
    this.kept = null;
    this.likely = null;
    this.member = 0;
    this.touched = "outer-leg";
    this.result = RESULTS[0];
    this.step = null;
    this.view = new MemberView((x) => this.cut(x));
    this.section = new SectionView();
    this.curve = draw("svg", { viewBox: `0 0 ${CHART.width} ${CHART.height}`, role: "img", class: "chart", id: "curve" }, draw("title", {}, "No curve yet"));
    this.pieces = draw("svg", { viewBox: `0 0 ${CHART.width} ${CHART.height}`, role: "img", class: "chart", id: "histogram" }, draw("title", {}, "No pieces drawn yet"));
    this.later = settled(60, () => this.slow());
    this.soon = settled(400, () => this.speak());
    this.build();
  }

  build() {
    this.picker = make("select", { id: "member-picker", onchange: (e) => this.open(Number(e.target.value)) },
      ...data.members.map((member, k) => make("option", { value: k }, member.title)));
    this.knobs = make("div", { class: "knobs" });
    this.switches = make("div", { class: "switches" });
    this.numbers = make("dl", { class: "numbers" });
    this.warnings = make("ul", { class: "warnings" });
    this.trouble = make("p", { class: "trouble", role: "alert" });
    this.live = make("p", { class: "hidden", "aria-live": "polite" });
    this.compare = make("div", { class: "compare" });
    this.play = make("button", { type: "button", id: "play", onclick: () => this.toggle() }, "Play the passes");
    this.bar = make("input", { type: "range", id: "passes", min: -1, max: 0, step: 0.01, value: 0, "aria-label": "Passes laid", oninput: () => this.scrub() });
    this.passes = make("output", { for: "passes", class: "passes" });
    const button = (id, words, action) => make("button", { type: "button", id, onclick: action }, words);
    this.picked = make("select", { id: "result", "aria-label": "Result to draw", onchange: (e) => { this.result = RESULTS[e.target.value]; this.slow(); } },
      ...RESULTS.map((result, k) => make("option", { value: k }, result.words)));
    this.text = make("textarea", { id: "job-text", rows: 14, readonly: true, spellcheck: "false", "aria-label": "The job as text" });
    this.sheet = make("dialog", { id: "job-sheet" }, make("h3", {}, "This job"), this.text, make("div", { class: "row" },
      button("copy", "Copy", () => { this.text.select(); document.execCommand("copy"); }),
      button("download", "Save as file", () => this.save()), button("close-sheet", "Close", () => this.sheet.close())));
    const left = make("div", { class: "controls" }, make("label", { for: "member-picker" }, "Member"), this.picker, this.switches, this.knobs,
      make("div", { class: "row" }, button("reset", "Reset", () => this.reset()), button("keep", "Keep this case", () => this.keep()),
        button("drop", "Forget kept", () => { this.kept = null; this.show(); }), button("write", "Write this job", () => this.write())));
    const middle = make("div", { class: "shape" }, this.trouble, this.view.element,
      make("div", { class: "row bar" }, this.play, this.bar, this.passes), this.numbers, this.compare, this.warnings);
    const right = make("div", { class: "side" }, this.section.element, make("div", { class: "row" }, this.picked), this.curve, this.pieces);
    this.room = document.getElementById("bench-room");
    this.room.append(left, middle, right, this.live, this.sheet);
  }

  /** Takes a member of the page. */
  open(at, settings = {}) {
    const member = data.members[at] ?? data.members[0];
    this.member = at;
    this.picker.value = String(at);
    this.take(member.toml, settings);
  }

  /** Takes a job's text, with some knobs and switches set. */
  take(toml, { knobs = {}, switches = {}, touch = null, result = null } = {}) {
    const base = page.ask({ ask: "shape", toml });
    if (fault(base)) return this.complain(fault(base));
    this.toml = toml;
    this.base = base;
    this.own = switches;
    this.values = { ...knobs };
    this.chosen = { ...AS_IN_JOB, ...switches };
    this.kept = null;
    if (touch) this.touched = touch;
    if (result) this.result = RESULTS.find((r) => r.name === result) ?? this.result;
    this.picked.value = String(RESULTS.indexOf(this.result));
    this.step = null;
    const first = page.ask({ ask: "bench", job: this.base });
    if (fault(first)) return this.complain(fault(first));
    // sliders of a job outside the model are there all the same: they may bring it back inside
    this.view.fit(this.base, first);
    this.section.fit(first);
    this.furnish(first);
    this.show();
  }

  /** Sliders and switches for the job as it came. */
  furnish(first) {
    const knobs = KNOBS.filter((knob) => Number.isFinite(knob.get(this.base, first) ?? NaN));
    this.knobs.replaceChildren(...knobs.map((knob) => this.slider(knob, knob.get(this.base, first))));
    if (!knobs.some((knob) => knob.key === this.touched)) this.touched = knobs[0].key;
    this.switches.replaceChildren(...Object.entries(SWITCHES).map(([key, { words, choices }]) => {
      const select = make("select", { id: `switch-${key}`, onchange: (e) => { this.chosen[key] = e.target.value; this.show(); } },
        ...Object.entries(choices).map(([value, said]) => make("option", { value, selected: String(this.chosen[key]) === value }, said)));
      select.value = String(this.chosen[key]);
      return make("label", { class: "switch" }, make("span", {}, words), select);
    }));
  }

  slider(knob, own) {
    const step = page.us && knob.usStep ? knob.usStep : knob.step;
    const low = Math.min(knob.low, own);
    const high = Math.max(knob.high, own);
    const output = make("output", { for: `knob-${knob.key}`, id: `out-${knob.key}` });
    const value = this.values[knob.key] ?? own;
    const marks = make("datalist", { id: `own-${knob.key}` }, make("option", { value: own }));
    const input = make("input", { type: "range", id: `knob-${knob.key}`, min: low, max: high, step: "any", list: `own-${knob.key}`, value,
      oninput: () => {
        const on = Math.round(Number(input.value) / step) * step;
        this.values[knob.key] = Math.abs(on - own) < step / 2 ? own : Math.min(Math.max(on, low), high);
        this.touched = knob.key;
        this.show();
      },
      // a slider without steps would move by a hundredth of its range: keys go by the knob's own step
      onkeydown: (event) => {
        const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -5, PageUp: 5 }[event.key];
        if (!by) return;
        event.preventDefault();
        input.value = Math.round(Number(input.value) / step) * step + by * step;
        input.dispatchEvent(new Event("input"));
      } });
    input.addEventListener("focus", () => { if (this.touched !== knob.key) { this.touched = knob.key; this.later(); } });
    knob.own = own;
    return make("label", { class: "knob", for: `knob-${knob.key}`, "data-key": knob.key }, make("span", {}, knob.words), output, input, marks);
  }

  /** The job as sliders and switches have it, with one knob at another value if wanted. */
  job(key = null, value = null) {
    const job = switched(this.base, this.chosen);
    for (const knob of KNOBS) {
      const set = knob.key === key ? value : this.values[knob.key];
      if (set !== undefined && set !== null && (knob.key === key || set !== knob.own)) knob.set(job, set);
    }
    return job;
  }

  /** Asks and draws: the quick part, within a frame. */
  show() {
    const job = this.job();
    const found = page.ask({ ask: "bench", job });
    for (const knob of KNOBS) {
      const output = document.getElementById(`out-${knob.key}`);
      if (!output) continue;
      const value = this.values[knob.key] ?? knob.get(job, found.passes ? found : null) ?? knob.own;
      output.textContent = shownTwice(knob.kind, value);
      document.getElementById(`knob-${knob.key}`).setAttribute("aria-valuetext", shown(knob.kind, value));
    }
    if (this.refused(found)) return;
    this.trouble.textContent = "";
    this.room.classList.remove("stale");
    [this.now, this.found] = [job, found];
    // chances of another job would be wrong beside these numbers: they come back with the pieces
    this.likely = null;
    const last = found.build_up.length - 1;
    dress(this.bar, { max: last });
    if (this.step === null) this.bar.value = last;
    this.paint();
    this.later();
    this.soon();
  }

  paint() {
    this.view.show(this.now, this.found, { step: this.step, ghost: this.kept });
    this.section.show(this.now, this.found, this.view.at * this.view.length);
    this.tell();
    const steps = this.found.build_up;
    const step = steps[Math.max(0, Math.min(Math.ceil(this.step ?? steps.length - 1), steps.length - 1))];
    this.passes.textContent = this.step !== null && this.step < 0 ? "before the first pass"
      : step.seam ? `pass ${step.pass} of ${steps.length}: ${step.seam} seam, ${step.side} side` : "welds across: attachments, splices";
  }

  complain(text) {
    this.trouble.textContent = `This cannot be built: ${text}. What is drawn is the last job that could.`;
    this.room.classList.add("stale");
  }

  /** Says why there are no numbers of a job, if there are none. */
  refused(found) {
    const [wrong, outside] = [fault(found), outsideOf(found, page.us)];
    if (wrong) this.complain(wrong.replace(/\.$/, ""));
    else if (outside) {
      this.trouble.textContent = `Outside what this model covers, so there are no numbers: ${outside.replace(/\.$/, "")}. What is drawn is the last job inside it.`;
      this.room.classList.add("stale");
    }
    return Boolean(wrong || outside);
  }

  /** Eight numbers with ± and verdict, and what is odd. */
  tell() {
    const p = this.found;
    const toe = (seam) => p.flanges.filter((f) => f.flange === seam)
      .flatMap((f) => [[f.near_toe_mm, f.toe_2s_mm], [f.far_toe_mm, f.toe_2s_mm]]).reduce((a, b) => (Math.abs(b[0]) > Math.abs(a[0]) ? b : a));
    const ripple = p.ripple.reduce((a, b) => (b.compression_mpa / b.critical_low_mpa > a.compression_mpa / a.critical_low_mpa ? b : a));
    const flange = ["flange_toe", "flange_tilt", "flange_cup"];
    const rows = [
      ["Camber", p.camber.max_mm, p.camber.max_2s_mm, worst(p, "camber")], ["Sweep", p.sweep.max_mm, p.sweep.max_2s_mm, worst(p, "sweep")],
      ["Shortening", p.shortening_mm, p.shortening.centroid_2s_mm, worst(p, "length")],
      ["Outer toe", ...toe("outer"), worstOf(p, flange, "outer flange")], ["Inner toe", ...toe("inner"), worstOf(p, flange, "inner flange")],
    ];
    const limits = (verdict) => (verdict ? `${judgedSaid(verdict)}${limitSaid(p, verdict)}${this.chanceOf(verdict)}` : "");
    const entries = rows.map(([words, value, spread, verdict]) => this.entry(words, `${figure("bow", value)} ± ${shown("bow", spread)}`,
      verdict?.verdict, limits(verdict), verdict || !words.endsWith("toe") || !worstOf(p, flange) ? null : "the other is judged"));
    const degrees = (rad) => shown("angle", rad);
    const turn = worst(p, "twist");
    entries.push(this.entry("Twist", `${figure("angle", p.twist.max_rad)} ± ${degrees(p.twist.max_2s_rad)}`, turn?.verdict,
      [limits(turn), `flanges sweep apart ${shown("bow", Math.abs(p.twist.apart_mm))}`].filter(Boolean).join("; ")));
    const [verdict, said] = { flat: ["within", "does not buckle"], possible: ["near", "may ripple"], likely: ["out", "likely ripples"] }[ripple.verdict];
    const waves = ripple.verdict === "flat" ? `${shown("stress", ripple.compression_mpa)} of ${shown("stress", ripple.critical_low_mpa)}`
      : `${figure("bow", ripple.wave_mm)} ± ${shown("bow", ripple.wave_2s_mm)}`;
    entries.push(this.entry("Web", waves, verdict, ripple.verdict === "flat" ? `compression, and where it ripples; waves ${figure("bow", ripple.wave_mm)} ± ${shown("bow", ripple.wave_2s_mm)}`
      : `${shown("stress", ripple.compression_mpa)}, ripples from ${shown("stress", ripple.critical_low_mpa)}`, said));
    const any = this.likely && p.verdicts.length ? chance(this.likely.any.chance) : "–";
    entries.push(this.entry("Pieces beyond any limit", any, null, this.likely?.any.if_model_right !== undefined && p.verdicts.length
      ? `${chance(this.likely.any.if_model_right)} by scatter alone` : "", p.verdicts.length ? "drawn, not measured" : "nothing is judged"));
    this.numbers.replaceChildren(...entries);
    const warnings = page.us ? p.warnings_us : p.warnings.map((warning) => warning.text);
    this.warnings.replaceChildren(...warnings.map((text) => make("li", {}, text)));
    this.compareWith();
  }

  /** The chance that belongs to a verdict, once pieces are drawn. */
  chanceOf(verdict) {
    const likely = this.likely?.likely[this.found.verdicts.indexOf(verdict)];
    return likely ? `, ${chance(likely.chance)} out` : "";
  }

  entry(words, value, verdict, limit, own = null) {
    const said = own ?? { within: "within", near: "may be out", out: "out" }[verdict] ?? "not judged";
    return make("div", { class: `number ${verdict ?? "none"}` }, make("dt", {}, words), make("dd", { class: "figure" }, value),
      make("dd", { class: "verdict" }, make("span", { class: "sign", "aria-hidden": "true" }), said), make("dd", { class: "limit-said" }, limit));
  }

  compareWith() {
    if (!this.kept) return this.compare.replaceChildren();
    const k = this.kept.found;
    const row = (words, old, now) => make("tr", {}, make("th", { scope: "row" }, words), make("td", {}, shown("bow", old)), make("td", {}, shown("bow", now)), make("td", {}, shown("bow", now - old)));
    this.compare.replaceChildren(make("table", {}, make("caption", {}, "Kept case (dashed) and now"),
      make("thead", {}, make("tr", {}, ...["", "kept", "now", "change"].map((t) => make("th", { scope: "col" }, t)))),
      make("tbody", {}, row("Camber", k.camber.max_mm, this.found.camber.max_mm), row("Sweep", k.sweep.max_mm, this.found.sweep.max_mm),
        row("Shortening", k.shortening_mm, this.found.shortening_mm))));
  }

  /** Says for those who listen what has changed, once it has. */
  speak() {
    const out = this.found.verdicts.filter((v) => v.verdict === "out").length;
    this.live.textContent = `${this.view.says.textContent} ${out === 1 ? "1 limit is" : `${out} limits are`} passed on the mean.`;
  }

  /** The slow part, in the worker: the curve against the slider last touched, and drawn pieces. */
  async slow() {
    for (const label of this.knobs.children) label.classList.toggle("touched", label.dataset.key === this.touched);
    const knob = KNOBS.find((k) => k.key === this.touched);
    const input = document.getElementById(`knob-${knob.key}`);
    const result = this.result;
    const [low, high] = [Number(input.min), Number(input.max)];
    const xs = Array.from({ length: 33 }, (_, k) => low + ((high - low) * k) / 32);
    const collect = [result.name, ...(result.spread ? [result.spread] : [])];
    const jobs = xs.map((x) => this.job(knob.key, x));
    const now = this.values[knob.key] ?? knob.own;
    const limit = result.quantity ? limitOf(this.found, result.quantity, this.now)?.band : [1];
    const asked = this.helper.latest("curve", { ask: "curve", jobs, collect });
    const drawn = this.helper.latest("draw", { ask: "draw", job: this.now, count: PIECES, seed: 1, collect: [result.name] });
    const values = await asked;
    if (values && !fault(values)) {
      curve(this.curve, { xs, values: values[0], spreads: values[1], knob, result, now, limit });
    }
    const pieces = await drawn;
    if (!pieces || fault(pieces)) return;
    const share = shareOf(this.found, pieces, result.quantity);
    histogram(this.pieces, { values: pieces.values[0], result, band: result.quantity === "flange_toe" ? null : limit, share });
    this.likely = pieces;
    this.tell();
  }

  cut(x_mm) {
    if (!this.found) return;
    this.view.show(this.now, this.found, { step: this.step, ghost: this.kept });
    this.section.show(this.now, this.found, x_mm);
  }

  scrub() {
    const last = this.found.build_up.length - 1;
    const value = Number(this.bar.value);
    this.step = value >= last ? null : value;
    this.paint();
  }

  toggle() {
    if (this.playing) {
      this.playing = false;
      this.play.textContent = "Play the passes";
      return;
    }
    const last = this.found.build_up.length - 1;
    this.playing = true;
    this.play.textContent = "Stop";
    let at = -1;
    let before = null;
    const go = (time) => {
      if (!this.playing) return;
      const passed = before === null ? 0 : (time - before) / 1400;
      before = time;
      at = still.matches ? Math.floor(at) + 1 : at + passed;
      this.bar.value = Math.min(at, last);
      this.scrub();
      if (at >= last) return this.toggle();
      if (still.matches) setTimeout(() => go(performance.now()), 1400);
      else requestAnimationFrame(go);
    };
    requestAnimationFrame(go);
  }

  reset() {
    this.take(this.toml, { switches: {} });
  }

  keep() {
    this.kept = { job: this.now, found: this.found };
    this.show();
  }

  write() {
    const text = page.ask({ ask: "write", toml: this.toml, job: this.now });
    if (fault(text)) return this.complain(fault(text));
    this.text.value = text;
    this.sheet.showModal();
  }

  save() {
    const address = URL.createObjectURL(new Blob([this.text.value], { type: "text/plain" }));
    const link = make("a", { href: address, download: "job.toml" });
    link.click();
    URL.revokeObjectURL(address);
  }

  /** Units or theme have changed. */
  again() {
    if (!this.base) return;
    this.furnish(page.ask({ ask: "bench", job: this.base }));
    this.show();
  }
}
