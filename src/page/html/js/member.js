// The member as it bows: side view, plan and cross-section, drawn once and moved.

/** Where things are in the two long views; lengths in the drawing's own pixels. */
const LONG = { width: 760, left: 46, right: 14, side: 128, plan: 262, height: 330, flange: 5 };

class MemberView {
  /** `chosen(x_mm)` is called when a place along the member is clicked or reached by keys. */
  constructor(chosen) {
    this.chosen = chosen;
    this.exaggeration = 50;
    this.at = 0.5;
    const layer = (name) => draw("g", { class: name });
    this.parts = {};
    const part = (name, cls, tag = "path") => (this.parts[name] = draw(tag, { class: cls }));
    const side = layer("side-view");
    side.append(part("sideCorridor", "corridor"), part("sideWeb", "web"),
      part("sideOuter", "flange"), part("sideInner", "flange"), part("sideWelds", "weld"),
      part("sideSpread", "spread"), part("sideBow", "bow"), part("sideGhost", "ghost"), part("sideMark", "mark", "text"));
    const plan = layer("plan-view");
    plan.append(part("planCorridor", "corridor"), part("planFlange", "flange wide"),
      part("planSpread", "spread"), part("planBow", "bow"), part("planGhost", "ghost"), part("planMark", "mark", "text"));
    this.place = part("place", "place", "line");
    const text = (name, y, words) => draw("text", { class: "caption", x: 6, y, id: name }, words);
    this.svg = draw("svg", { viewBox: `0 0 ${LONG.width} ${LONG.height}`, role: "img", class: "member", "aria-labelledby": "member-says" },
      text("side-caption", 16, ""), text("plan-caption", 214, ""), side, plan, this.place);
    this.says = make("p", { id: "member-says", class: "says" });
    this.element = make("figure", { class: "member-figure" }, this.svg, this.says);
    this.svg.addEventListener("click", (event) => {
      const box = this.svg.getBoundingClientRect();
      const x = ((event.clientX - box.left) / box.width) * LONG.width;
      this.pick((x - LONG.left) / (LONG.width - LONG.left - LONG.right));
    });
  }

  pick(share) {
    this.at = Math.min(1, Math.max(0, share));
    if (this.length) this.chosen(this.at * this.length);
  }

  /** A fixed magnification from the job as it came: the limit takes about 40 pixels. It stays while sliders move. */
  fit(job, found) {
    const scale = (LONG.width - LONG.left - LONG.right) / amount(job.member.length);
    const limits = found.verdicts.filter((v) => ["camber", "sweep"].includes(v.quantity)).map((v) => v.limit).filter((l) => l > 0);
    const size = limits.length ? Math.min(...limits) : 10;
    this.exaggeration = Math.min(nice(42 / (size * scale)), 1000);
  }

  /** Draws a job's prediction; `step` shows the state after a pass, `ghost` a kept case. */
  show(job, found, { step = null, ghost = null } = {}) {
    const length = amount(job.member.length);
    this.length = length;
    const scale = (LONG.width - LONG.left - LONG.right) / Math.max(length, ghost ? amount(ghost.job.member.length) : 0);
    this.scale = scale;
    const x = (mm) => LONG.left + mm * scale;
    const bows = stateOf(found, step);
    // the largest of the whole lies between stations
    const whole = (bow) => [bow.at_mm, bow.max_mm, bow.max_2s_mm];
    const most = step === null ? { camber: whole(found.camber), sweep: whole(found.sweep) }
      : { camber: farthest(bows.camber), sweep: farthest(bows.sweep) };
    this.sideView(job, found, [bows.camber, most.camber], x, scale, ghost);
    this.planView(job, found, [bows.sweep, most.sweep], x, scale, ghost);
    const mark = x(this.at * length);
    dress(this.place, { x1: mark, x2: mark, y1: 24, y2: LONG.height - 8 });
    const times = `drawn ${this.exaggeration} ×`;
    document.getElementById("side-caption")?.replaceChildren(`Side view, camber ${times}; up is toward the inner flange`);
    document.getElementById("plan-caption")?.replaceChildren(`Seen from the outer flange, sweep ${times}; up is toward the near side`);
    this.says.textContent = `Drawn ${this.exaggeration} ×: camber ${shown("bow", most.camber[1])}, sweep ${shown("bow", most.sweep[1])}`
      + `${step === null ? "" : ` after pass ${step + 1}`}. A bow out of its corridor is out of tolerance.`;
  }

  bowed(name, [profile, [at, value, twoS]], spread, limit, middle, x, label) {
    const up = this.exaggeration * this.scale;
    const line = smooth(profile).map(([at, value]) => [x(at), middle - value * up]);
    this.parts[`${name}Bow`].setAttribute("d", path(line));
    const wide = profile.map(([at], k) => [at, spread[k] ?? 0]);
    const above = smooth(profile.map(([at, v], k) => [at, v + wide[k][1]])).map(([at, v]) => [x(at), middle - v * up]);
    const below = smooth(profile.map(([at, v], k) => [at, v - wide[k][1]])).map(([at, v]) => [x(at), middle - v * up]);
    this.parts[`${name}Spread`].setAttribute("d", path([...above, ...below.reverse()], true));
    const corridor = this.parts[`${name}Corridor`];
    if (limit) {
      const [low, high] = limit.band;
      // a wide one ends with its view
      const [top, foot] = name === "side" ? [20, 204] : [218, LONG.height - 2];
      const place = (v) => Math.min(Math.max(middle - v * up, top), foot);
      const edge = (v) => [[x(0), place(v)], [x(this.length), place(v)]];
      corridor.setAttribute("d", path([...edge(high), ...edge(low).reverse()], true));
      corridor.setAttribute("class", `corridor ${limit.verdict}`);
    } else corridor.setAttribute("d", "");
    const mark = this.parts[`${name}Mark`];
    dress(mark, { x: LONG.width - LONG.right, y: name === "side" ? 16 : 214 });
    mark.textContent = `${label} ${figure("bow", value)} ± ${shown("bow", twoS ?? between(wide, at))}`;
  }

  sideView(job, found, [camber, most], x, scale, ghost) {
    const depth = job.member.depth.map(([at, deep]) => [amount(at), amount(deep)]);
    const deepest = Math.max(...depth.map((point) => point[1]));
    const tall = Math.min(scale, 96 / deepest);
    const up = this.exaggeration * scale;
    const foot = LONG.side + (deepest * tall) / 2;
    const line = smooth(camber);
    const outer = line.map(([at, v]) => [x(at), foot - v * up]);
    const inner = line.map(([at, v]) => [x(at), foot - v * up - between(depth, at) * tall]);
    this.parts.sideWeb.setAttribute("d", path([...outer, ...[...inner].reverse()], true));
    this.parts.sideOuter.setAttribute("d", path(outer));
    this.parts.sideInner.setAttribute("d", path(inner));
    this.parts.sideWelds.setAttribute("d", found.passes.map((pass) => {
      const edge = pass.seam === "outer" ? outer : inner;
      const lift = pass.seam === "outer" ? -4 : 4;
      const own = edge.filter(([at]) => at >= x(pass.from_mm) - 1 && at <= x(pass.to_mm) + 1);
      return own.length > 1 ? path(own.map(([a, b]) => [a, b + lift])) : "";
    }).join(""));
    const limit = limitOf(found, "camber", job);
    this.bowed("side", [camber, most], found.camber.profile_2s_mm, limit, LONG.side, x, "camber");
    this.ghost("side", ghost?.found.camber.profile, LONG.side, x);
  }

  planView(job, found, [sweep, most], x, scale, ghost) {
    const half = Math.max(6, Math.min(14, (amount(middlePiece(job, "outer_flange").width) * scale) / 2));
    const up = this.exaggeration * scale;
    const line = smooth(sweep).map(([at, v]) => [x(at), LONG.plan - v * up]);
    const edge = (sign) => line.map(([a, b]) => [a, b + sign * half]);
    this.parts.planFlange.setAttribute("d", path([...edge(1), ...edge(-1).reverse()], true));
    this.bowed("plan", [sweep, most], found.sweep.profile_2s_mm, limitOf(found, "sweep", job), LONG.plan, x, "sweep");
    this.ghost("plan", ghost?.found.sweep.profile, LONG.plan, x);
  }

  ghost(name, profile, middle, x) {
    const up = this.exaggeration * this.scale;
    const line = profile ? smooth(profile).map(([at, v]) => [x(at), middle - v * up]) : [];
    this.parts[`${name}Ghost`].setAttribute("d", line.length ? path(line) : "");
  }
}

/** Largest offset of a profile, with its place. */
function farthest(profile) {
  return profile.reduce((best, point) => (Math.abs(point[1]) > Math.abs(best[1]) ? point : best), [0, 0]);
}

/** Bows at the end, or after a pass (a fraction goes on toward the next). */
function stateOf(found, step) {
  const end = { camber: found.camber.profile, sweep: found.sweep.profile };
  if (step === null) return end;
  const after = (k, name) => (k < 0 ? end[name].map(() => 0) : found.build_up[k][`${name}_profile_mm`] ?? end[name].map((p) => p[1]));
  const whole = Math.min(Math.floor(step), found.build_up.length - 1);
  const part = step - whole;
  const mixed = (name) => {
    const [now, next] = [after(whole, name), after(Math.min(whole + 1, found.build_up.length - 1), name)];
    return end[name].map(([x], k) => [x, now[k] + part * (next[k] - now[k])]);
  };
  return { camber: mixed("camber"), sweep: mixed("sweep") };
}

/** The tightest limit of a quantity, and the band it leaves to an absolute bow, mm. */
function limitOf(found, quantity, job) {
  const verdict = worst(found, quantity);
  if (!verdict) return null;
  const [less, more] = found.bands?.[found.verdicts.indexOf(verdict)] ?? [verdict.limit, verdict.limit];
  // a camber is judged by how far it is off the wanted one, + where there is more of it
  const wanted = quantity === "camber" && job.camber ? amount(job.camber.rise) : 0;
  const turn = wanted && job.camber.toward !== "inner" ? -1 : 1;
  const band = [turn * (wanted - less), turn * (wanted + more)].sort((a, b) => a - b);
  return { verdict: verdict.verdict, band, said: verdict };
}

/** The verdict of a quantity with the least margin. */
function worst(found, quantity) {
  return found.verdicts.filter((v) => v.quantity === quantity).reduce((a, b) => (a && a.margin <= b.margin ? a : b), null);
}

/** The same of several quantities: a flange has three. */
function worstOf(found, quantities, place = null) {
  return found.verdicts.filter((v) => quantities.includes(v.quantity) && (place === null || v.place === place))
    .reduce((a, b) => (a && a.margin / a.limit <= b.margin / b.limit ? a : b), null);
}

/** Width of the widest flange and the tallest web in the cross-section, px. */
const SECTION = { wide: 200, tall: 92 };

/** The cross-section at a place: flanges with their cup and tilt, toes in words. */
class SectionView {
  constructor() {
    this.svg = draw("svg", { viewBox: "0 0 260 250", role: "img", class: "cross", "aria-labelledby": "section-says" });
    this.says = make("p", { id: "section-says", class: "says" });
    this.element = make("figure", { class: "section-figure" }, this.svg, this.says);
    this.times = 5;
  }

  /** A fixed magnification from the job as it came: its largest toe takes about a tenth of the drawing. */
  fit(found) {
    const widest = Math.max(...found.flanges.map((f) => f.width_mm));
    const toe = Math.max(0.5, ...found.flanges.flatMap((f) => [Math.abs(f.near_toe_mm), Math.abs(f.far_toe_mm)]));
    this.times = Math.max(1, Math.min(nice(26 / ((toe * SECTION.wide) / widest)), 20));
  }

  show(job, found, x_mm) {
    const depth = between(job.member.depth.map(([at, deep]) => [amount(at), amount(deep)]), x_mm);
    const at = (seam) => found.flanges.find((f) => f.flange === seam && x_mm >= f.from_mm && x_mm <= f.to_mm)
      ?? found.flanges.find((f) => f.flange === seam);
    const [outer, inner] = [at("outer"), at("inner")];
    const wide = Math.max(outer.width_mm, inner.width_mm);
    const scale = SECTION.wide / wide;
    // flanges are what is looked at: a deep web is broken off in the middle
    const tall = Math.min(depth * scale, SECTION.tall);
    const [middle, top, foot] = [130, 125 - tall / 2, 125 + tall / 2];
    const web = amount(middlePiece(job, "web").thickness) * scale;
    const children = [draw("rect", { class: "web", x: middle - web / 2, y: top, width: Math.max(web, 1.5), height: foot - top })];
    if (tall < depth * scale) {
      const [left, right] = [middle - web / 2 - 5, middle + web / 2 + 5];
      children.push(draw("path", { class: "break", d: path([[left, 128], [right, 120], [right, 124], [left, 132]], true) }));
    }
    const words = [];
    for (const [flange, y, sign] of [[inner, top, 1], [outer, foot, -1]]) {
      const half = (flange.width_mm / 2) * scale;
      const thick = Math.max(flange.thickness_mm * scale, 2.5);
      const near = flange.near_toe_mm * this.times * scale * sign;
      const far = flange.far_toe_mm * this.times * scale * sign;
      const out = -sign * thick;
      children.push(draw("path", { class: "square", d: path([[middle - half, y], [middle + half, y]]) }));
      children.push(draw("path", { class: "flange solid", d: path([[middle - half, y + far], [middle, y], [middle + half, y + near],
        [middle + half, y + near + out], [middle, y + out], [middle - half, y + far + out]], true) }));
      const lay = sign > 0 ? 34 : 222;
      const put = (x, anchor, value) => children.push(draw("text", { class: "toe", x, y: lay, "text-anchor": anchor }, fixedToe(value)));
      put(middle - half, "start", flange.far_toe_mm);
      put(middle + half, "end", flange.near_toe_mm);
      words.push(`${flange.flange} flange: near toe ${shown("bow", flange.near_toe_mm)}, far toe ${shown("bow", flange.far_toe_mm)}, ± ${figure("bow", flange.toe_2s_mm)}`);
    }
    for (const pass of found.passes.filter((p) => p.from_mm <= x_mm && p.to_mm >= x_mm)) {
      const [y, sign] = pass.seam === "outer" ? [foot, -1] : [top, 1];
      const side = pass.side === "near" ? 1 : -1;
      const leg = Math.max(pass.leg_mm * scale, 4);
      const from = middle + side * (web / 2);
      children.push(draw("path", { class: "weld solid", d: path([[from, y], [from + side * leg, y], [from, y + sign * leg]], true) }));
    }
    children.push(draw("text", { class: "caption", x: 8, y: 16 }, `Section at ${shown("length", x_mm)}, toes ${this.times} ×`),
      draw("text", { class: "caption", x: 8, y: 244 }, "far"), draw("text", { class: "caption", x: 252, y: 244, "text-anchor": "end" }, "near"));
    this.svg.replaceChildren(...children);
    this.says.textContent = `${words.join("; ")}. + is toward the web.`;
  }
}

const fixedToe = (value) => `${value > 0 ? "+" : ""}${figure("bow", value)}`;
