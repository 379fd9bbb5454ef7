// Pictures of the lessons. Those with numbers ask the engine; the others are sketches of a law and say so.

/** Rows of one picture: each a variant of a lesson's job. */
const CASES = {
  overweld: [["leg 5 mm", { knobs: { "both-legs": 5 } }], ["leg 6 mm", { knobs: { "both-legs": 6 } }], ["leg 7 mm", { knobs: { "both-legs": 7 } }]],
  steel: [["S235", { switches: { steel: "S235" } }], ["S275", { switches: { steel: "S275" } }], ["S355", { switches: { steel: "S355" } }]],
  sides: [["near side only", { switches: { sides: "near" } }], ["near, then far", { switches: { sides: "after" } }], ["both at once", { switches: { sides: "both" } }]],
  sequence: [["tee first: after the tee", { switches: { sequence: "tee" }, step: 0 }], ["tee first: at the end", { switches: { sequence: "tee" } }], ["tacked whole", { switches: { sequence: "whole" } }]],
  stitches: [["continuous", {}], ["two thirds", { switches: { share: "67" } }], ["half", { switches: { share: "50" } }], ["a third", { switches: { share: "33" } }]],
};

/** A job with some knobs and switches set; "both-legs" stands for both. */
function variant(base, { knobs = {}, switches = {} }) {
  const job = switched(base, { ...AS_IN_JOB, ...switches });
  for (const [key, value] of Object.entries(knobs)) {
    for (const own of key === "both-legs" ? ["outer-leg", "inner-leg"] : [key]) KNOBS.find((k) => k.key === own).set(job, value);
  }
  return job;
}

const sheetOf = (height, says) => draw("svg", { viewBox: `0 0 560 ${height}`, role: "img", class: "lesson-picture wide" }, draw("title", {}, says));
const words = (x, y, text, name = "tick", anchor = "start") => draw("text", { x, y, class: name, "text-anchor": anchor }, text);

/** Variants of a member as bows under each other, at one magnification, with their values. */
function casesPicture(lesson, base) {
  const cases = CASES[lesson.picture.split(":")[1]];
  const name = lesson.result.startsWith("camber") ? "camber" : "sweep";
  const svg = sheetOf(cases.length * 62 + 50, `${lesson.title}: ${name} of each case`);
  const found = cases.map(([label, settings]) => {
    const p = page.ask({ ask: "bench", job: variant(base, settings) });
    const profile = stateOf(p, settings.step ?? null)[name];
    return { label, profile, value: farthest(profile)[1], spread: settings.step === undefined ? p[name].max_2s_mm : null };
  });
  const length = found[0].profile.at(-1)[0];
  const most = Math.max(...found.map((f) => Math.abs(f.value)), 0.1);
  const up = 34 / most;
  const x = scaleOf(0, length, 196, 390);
  found.forEach(({ label, profile, value, spread }, k) => {
    const middle = 62 + k * 62;
    svg.append(words(6, middle + 4, label, "case-name"), draw("path", { class: "chord", d: path([[196, middle], [390, middle]]) }),
      draw("path", { class: "bow", d: path(smooth(profile).map(([at, v]) => [x(at), middle - v * up])) }),
      words(400, middle + 4, spread === null ? shown("bow", value) : `${figure("bow", value)} ± ${shown("bow", spread)}`, "value"));
  });
  svg.append(words(196, 14, `${name}, drawn ${Math.round((up * length) / 194)} ×`));
  return svg;
}

/** The lesson's slider against its result, with the step of the question. */
function curvePicture(lesson, base) {
  const svg = draw("svg", { viewBox: `0 0 ${CHART.width} ${CHART.height}`, role: "img", class: "lesson-picture" });
  const knob = KNOBS.find((k) => k.key === lesson.touch);
  const result = RESULTS.find((r) => r.name === lesson.result);
  const own = knob.get(base, page.ask({ ask: "bench", job: base }));
  const [low, high] = [Math.max(knob.low, own * 0.45), Math.min(knob.high, own * 2.2)];
  const xs = Array.from({ length: 33 }, (_, k) => low + ((high - low) * k) / 32);
  const collect = [result.name, ...(result.spread ? [result.spread] : [])];
  const values = page.ask({ ask: "curve", jobs: xs.map((x) => turned(base, knob, x)), collect });
  const now = page.ask({ ask: "bench", job: base });
  const limit = result.quantity ? limitOf(now, result.quantity, base)?.band : [1];
  curve(svg, { xs, values: values[0], spreads: values[1], knob, result, now: own, limit });
  return svg;
}

/** Drawn pieces, and what they share and differ by in words. */
function histogramPicture(lesson, base, toml) {
  const svg = draw("svg", { viewBox: `0 0 ${CHART.width} ${CHART.height}`, role: "img", class: "lesson-picture" });
  const result = RESULTS.find((r) => r.name === lesson.result);
  const found = page.ask({ ask: "bench", job: base });
  const pieces = page.ask({ ask: "draw", job: base, count: 1000, seed: 1, collect: [result.name] });
  const share = shareOf(found, pieces, result.quantity);
  histogram(svg, { values: pieces.values[0], result, band: limitOf(found, result.quantity, base)?.band, share });
  const { bias_sd_mm: bias, scatter_sd_mm: scatter } = worst(page.ask({ ask: "predict", toml }), result.quantity).drawn;
  const lots = Math.round(100 * lotsWithNone(bias, scatter, LOT));
  return make("div", { class: "sweeps" }, svg, make("p", { class: "says" }, `All share ± ${shown("bow", 2 * bias)} (bias), pieces differ by ± ${shown("bow", 2 * scatter)} (scatter). `
    + `With these, and ${LOT.chance * 100} % out, ${lots} lots of ${LOT.pieces} in 100 have none out; ${Math.round(100 * (1 - LOT.chance) ** LOT.pieces)} if they shared nothing.`));
}

/** The lot of the lesson's question; `z` is how many standard deviations away its limit stands (normal law, table). */
const LOT = { pieces: 20, chance: 0.08, z: 1.405 };

/** The part of lots that have no piece out: pieces of a lot share a normal bias and differ by a normal scatter (law of total probability). */
function lotsWithNone(bias, scatter, { pieces, z }) {
  const step = 0.02;
  const density = (t) => (Math.exp(-t * t / 2) * step) / Math.sqrt(2 * Math.PI);
  const over = (from, weight) => Array.from({ length: Math.ceil((9 - from) / step) }, (_, k) => from + (k + 0.5) * step).reduce((sum, t) => sum + density(t) * weight(t), 0);
  const out = (b) => over(Math.max((z * Math.hypot(bias, scatter) - b * bias) / scatter, -9), () => 1);
  return over(-9, (b) => Math.max(1 - out(b), 0) ** pieces);
}

/** Three bars: the middle one heated and cooled again. Stress of it against its temperature, by hand. */
function threeBars() {
  const svg = sheetOf(250, "Stress of a heated bar between cold ones: squeezed, squeezed for good, and pulled when cold");
  const [e, growth, limit] = [206000, 12e-6, 355];
  const hot = (t) => limit * Math.max(0, 1 - Math.max(0, t - 200) / 700);
  const points = [];
  let plastic = 0;
  const trip = [...Array.from({ length: 91 }, (_, k) => 20 + k * 10), ...Array.from({ length: 91 }, (_, k) => 920 - k * 10)];
  for (const t of trip) {
    const stress = e * (-growth * (t - 20) - plastic);
    const held = Math.max(-hot(t), Math.min(hot(t), stress));
    plastic += (stress - held) / e;
    points.push([t, held]);
  }
  const x = scaleOf(0, 1000, 70, 520);
  const y = scaleOf(-400, 400, 215, 35);
  for (const s of [-355, 0, 355]) svg.append(draw("line", { class: s ? "limit" : "zero", x1: 70, x2: 520, y1: y(s), y2: y(s) }), words(64, y(s) + 4, fixed(s, 0), "tick", "end"));
  for (const t of [20, 200, 400, 600, 800]) svg.append(words(x(t), 232, `${t} °C`, "tick", "middle"));
  svg.append(draw("path", { class: "line dashed", d: path(points.slice(0, 92).map(([t, s]) => [x(t), y(s)])) }),
    draw("path", { class: "line", d: path(points.slice(91).map(([t, s]) => [x(t), y(s)])) }),
    words(x(230), y(-95), "heating: squeezed", "value"), words(x(230), y(70), "cooling: pulled", "value"),
    words(70, 18, "Stress of a bar that may not grow, MPa, + pulled", "chart-title"));
  return svg;
}

function threeWays() {
  const svg = sheetOf(200, "Lengthwise, crosswise and angular shrinkage");
  const panel = (x, title, ...marks) => svg.append(draw("g", { transform: `translate(${x} 0)` }, words(75, 190, title, "value", "middle"), ...marks));
  const arrow = (d) => draw("path", { class: "arrow", d });
  panel(10, "lengthwise", draw("path", { class: "flange solid", d: "M20 95 H130 V115 H20 Z" }), draw("path", { class: "weld solid", d: "M20 90 H130 V95 H20 Z" }), arrow("M8 105 H18 m-4 -4 l4 4 l-4 4 M142 105 H132 m4 -4 l-4 4 l4 4"));
  panel(200, "crosswise", draw("path", { class: "flange solid", d: "M20 100 H130 V116 H20 Z" }), draw("path", { class: "web", d: "M71 30 H79 V100 H71 Z" }), draw("path", { class: "weld solid", d: "M79 100 V86 L93 100 Z" }), arrow("M6 108 H18 m-4 -4 l4 4 l-4 4 M144 108 H132 m4 -4 l-4 4 l4 4"));
  panel(390, "angular", draw("path", { class: "flange solid", d: "M20 88 L75 104 L130 88 V102 L75 118 L20 102 Z" }), draw("path", { class: "web", d: "M71 30 H79 V104 H71 Z" }), draw("path", { class: "weld solid", d: "M79 103 V88 L94 99 Z" }), arrow("M20 80 V66 m-4 4 l4 -4 l4 4 M130 80 V66 m-4 4 l4 -4 l4 4"));
  return svg;
}

function armPicture(base) {
  const p = page.ask({ ask: "bench", job: base });
  const svg = sheetOf(220, "The lever of one fillet");
  const pass = p.passes[0];
  svg.append(draw("path", { class: "web", d: "M262 20 H298 V150 H262 Z" }), draw("path", { class: "flange solid", d: "M120 150 H440 V182 H120 Z" }),
    draw("path", { class: "weld solid", d: "M298 150 V106 L342 150 Z" }), draw("line", { class: "now-line", x1: 280, x2: 280, y1: 10, y2: 205 }),
    draw("line", { class: "arrow", x1: 280, x2: 311, y1: 96, y2: 96 }), draw("circle", { class: "now", cx: 311, cy: 136, r: 5 }),
    words(318, 92, shown("bow", Math.abs(pass.arm_z_mm)), "value"), words(306, 40, `web ${shown("plate", amount(middlePiece(base, "web").thickness))}`, "tick"),
    words(120, 202, `each seam pulls ${shown("force", pass.force_n)} there: sweep ${shown("bow", p.sweep.max_mm)}`, "value"), words(120, 60, "far", "tick"), words(430, 60, "near", "tick"));
  return svg;
}

function presetPicture(base) {
  const p = page.ask({ ask: "bench", job: base });
  const edges = p.allowance.web_edges;
  const svg = sheetOf(190, "Cut of the web edges that the welds pull straight");
  const length = edges.at(-1).x_mm;
  const x = scaleOf(0, length, 60, 500);
  const most = Math.max(...edges.map((edge) => Math.abs(edge.outer_mm)), 0.1);
  const line = smooth(edges.map((edge) => [edge.x_mm, edge.outer_mm]));
  svg.append(draw("path", { class: "chord", d: path([[60, 90], [500, 90]]) }), draw("path", { class: "bow", d: path(line.map(([at, v]) => [x(at), 90 - (v / most) * 50])) }),
    words(60, 18, "Outer web edge to cut, off the line through its ends", "chart-title"));
  edges.filter((_, k) => k % 2 === 0).forEach((edge) => svg.append(draw("line", { class: "grid", x1: x(edge.x_mm), x2: x(edge.x_mm), y1: 40, y2: 140 }),
    words(x(edge.x_mm), 158, figure("bow", edge.outer_mm), "value", "middle"), words(x(edge.x_mm), 176, shown("length", edge.x_mm), "tick", "middle")));
  return svg;
}

function restraintPicture() {
  const rows = data.restraint ?? [];
  const svg = sheetOf(rows.length * 44 + 40, "Cup of the flange against how long the joint is held");
  const most = Math.max(...rows.map((row) => Math.abs(row.cup_deg)), 0.01);
  svg.append(words(6, 18, "Cup of the outer flange of C1 by the section solver, degrees", "chart-title"));
  rows.forEach((row, k) => {
    const y = 40 + k * 44;
    svg.append(words(150, y + 17, row.hold_c === null ? "never held" : row.hold_c > 1000 ? "until solid" : row.hold_c < 50 ? "until cold" : `until ${shown("warm", row.hold_c)}`, "tick", "end"),
      draw("rect", { class: "bar", x: 160, y, width: Math.max((330 * Math.abs(row.cup_deg)) / most, 1), height: 24 }),
      words(168 + (330 * Math.abs(row.cup_deg)) / most, y + 17, fixed(row.cup_deg, 2), "value"));
  });
  return svg;
}

/** Own calculations with a travelling arc, as lessons tell them: rise of the edge of a 180 mm flange by tilt, mm (90 mm times the angle). */
const BARS = {
  ahead: { words: "Edge of the flange by tilt", rows: [["tacks at leading end", 3.9], ["one piece", 3.6], ["every 100 mm, both sides", 3.5], ["far side only", 3.6], ["weld's side only", 2.9]] },
  gap: { words: "Edge of the flange by tilt", rows: [["600 J/mm, untacked, a gap", 6.4], ["touching, untacked", 3.9], ["one piece", 3.6], ["pressed by rolls", 2.4], ["1000 J/mm, a gap", 3.7], ["one piece", 2.9], ["pressed by rolls", 2.1]] },
  square: { words: "Edge of the flange by tilt", rows: [["600 J/mm, free", 3.6], ["square until cold", 2.3], ["1000 J/mm, free", 2.9], ["square until cold", 1.4]] },
};

function barsPicture(name) {
  const { words: title, rows } = BARS[name];
  const svg = sheetOf(rows.length * 44 + 44, `${title}: ${rows.map(([label, mm]) => `${label} ${shown("bow", mm)}`).join(", ")}`);
  const most = Math.max(...rows.map(([, mm]) => mm));
  svg.append(words(6, 18, `${title}, ${unitOf("bow")}`, "chart-title"));
  rows.forEach(([label, mm], k) => {
    const y = 40 + k * 44;
    svg.append(words(238, y + 17, label, "tick", "end"), draw("rect", { class: "bar", x: 246, y, width: (240 * mm) / most, height: 24 }),
      words(254 + (240 * mm) / most, y + 17, figure("bow", mm), "value"));
  });
  return svg;
}

function springback() {
  const svg = sheetOf(230, "Load against stroke of a push: most of it springs back");
  svg.append(draw("path", { class: "axis", d: "M60 20 V195 H530" }), draw("path", { class: "line", d: "M60 195 L300 62 C360 38 420 32 470 30" }),
    draw("path", { class: "line dashed", d: "M470 30 L172 195" }), draw("path", { class: "arrow", d: "M60 206 H172 m-6 -4 l6 4 l-6 4" }),
    words(116, 222, "stays", "value", "middle"), words(330, 222, "springs back", "value", "middle"), words(66, 32, "load", "tick"), words(524, 188, "stroke", "tick", "end"),
    words(190, 82, "elastic", "tick"), words(350, 28, "yields", "tick"));
  return svg;
}

function vee() {
  const svg = sheetOf(190, "A heated wedge: its wide end shrinks most");
  svg.append(draw("path", { class: "flange solid", d: "M40 120 C180 80 380 80 520 120 L520 150 C380 110 180 110 40 150 Z" }),
    draw("path", { class: "weld solid", d: "M258 92 L302 92 L281 119 Z" }), words(280, 80, "wide end on the bulging side", "value", "middle"), words(280, 146, "point toward the hollow side", "tick", "middle"),
    draw("path", { class: "chord", d: path([[40, 150], [520, 150]]) }));
  return svg;
}

function measuringPicture() {
  const svg = sheetOf(210, "Measure, turn over, measure again");
  const row = (y, label, d) => svg.append(draw("path", { class: "chord", d: path([[120, y], [470, y]]) }), draw("path", { class: "bow", d }), words(6, y + 4, label, "case-name"));
  row(60, "one side up", "M120 60 Q295 20 470 60");
  row(140, "turned over", "M120 140 Q295 210 470 140");
  svg.append(words(484, 52, "+9 mm", "value"), words(484, 160, "−21 mm", "value"), words(120, 198, "mean: the weld. Half the difference: weight.", "value"));
  return svg;
}

/** The picture of a lesson. */
function lessonPicture(lesson, base) {
  const [kind, name] = lesson.picture.split(":");
  const toml = () => data.members.find((m) => m.name === lesson.job).toml;
  const own = {
    cases: () => casesPicture(lesson, base), curve: () => curvePicture(lesson, base), histogram: () => histogramPicture(lesson, base, toml()),
    "three-bars": threeBars, "three-ways": threeWays, arm: () => armPicture(base), preset: () => presetPicture(base), restraint: restraintPicture,
    springback, vee, bars: () => barsPicture(name), measuring: measuringPicture, "ten-sweeps": () => tenSweeps(toml()),
  }[kind];
  if (own) return own();
  const drawn = data.pictures?.[kind === "native" ? name : kind];
  if (!drawn) return make("div");
  const holder = make("div", { class: "native" });
  holder.append(new DOMParser().parseFromString(drawn, "image/svg+xml").documentElement);
  return holder;
}
