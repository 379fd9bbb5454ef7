// The two small charts at the foot of the bench: a result against one slider, and drawn pieces.

/** Drawn at the width it is seen at, so that letters keep their size. */
const CHART = { width: 300, height: 172, left: 44, right: 56, top: 28, foot: 36 };

/** Results that can be drawn against a slider. */
const RESULTS = [
  { name: "sweep.max_mm", words: "Sweep", kind: "bow", quantity: "sweep", spread: "sweep.max_2s_mm" },
  { name: "camber.max_mm", words: "Camber", kind: "bow", quantity: "camber", spread: "camber.max_2s_mm" },
  { name: "shortening_mm", words: "Shortening", kind: "bow", quantity: "length", spread: "shortening.centroid_2s_mm" },
  { name: "flanges.outer.near_toe_mm", words: "Outer near toe", kind: "bow", quantity: "flange_toe", spread: "flanges.outer.toe_2s_mm" },
  { name: "flanges.inner.near_toe_mm", words: "Inner near toe", kind: "bow", quantity: "flange_toe", spread: "flanges.inner.toe_2s_mm" },
  { name: "ripple.over_critical", words: "Web compression over critical", kind: "ratio", quantity: null, spread: null },
];
KINDS.ratio = { unit: "", si: [1, 2, ""], us: [1, 2, ""] };

function frame(svg, title, says) {
  svg.replaceChildren(draw("title", {}, says), draw("text", { class: "chart-title", x: 4, y: 14 }, title));
}

/** A scale from values to pixels. */
const scaleOf = (low, high, from, to) => (value) => from + ((value - low) / (high - low || 1)) * (to - from);

function axes(svg, x, y, [low, high], [bottom, top], [kindX, kindY], names) {
  const { width, height, left, right, top: above, foot } = CHART;
  const steps = (kind, a, b) => {
    const [factor, , , offset = 0] = KINDS[kind][page.us ? "us" : "si"];
    return ticks(a * factor + offset, b * factor + offset, 4).map((t) => [(t - offset) / factor, t]);
  };
  const places = (list) => Math.max(0, -Math.floor(Math.log10(list.length > 1 ? Math.abs(list[1][1] - list[0][1]) : 1)));
  const [across, upward] = [kindX ? steps(kindX, low, high) : [], kindY ? steps(kindY, bottom, top) : []];
  for (const [value, text] of across) {
    svg.append(draw("line", { class: "grid", x1: x(value), x2: x(value), y1: above, y2: height - foot }),
      draw("text", { class: "tick", x: x(value), y: height - foot + 14, "text-anchor": "middle" }, fixed(text, places(across))));
  }
  for (const [value, text] of upward) {
    svg.append(draw("line", { class: value === 0 ? "zero" : "grid", x1: left, x2: width - right, y1: y(value), y2: y(value) }),
      draw("text", { class: "tick", x: left - 6, y: y(value) + 4, "text-anchor": "end" }, fixed(text, places(upward))));
  }
  svg.append(draw("text", { class: "tick", x: (left + width - right) / 2, y: height - 6, "text-anchor": "middle" }, names[0]));
}

const unitOf = (kind) => KINDS[kind][page.us ? "us" : "si"][2];

/** A result against a slider: band, limits, where the bench stands, where it came from. */
function curve(svg, { xs, values, spreads, knob, result, now, limit, guess = null, bare = false }) {
  const { width, height, left, right, top, foot } = CHART;
  const good = xs.map((x, k) => [x, values[k], spreads?.[k] ?? 0]).filter(([, v]) => v !== null && v !== undefined);
  const title = `${result.words}${unitOf(result.kind) ? `, ${unitOf(result.kind)}` : ""}`;
  if (good.length < 2) {
    frame(svg, title, "No curve: too few of these cases make a job.");
    return;
  }
  const reach = good.flatMap(([, v, s]) => [v - s, v + s]);
  const [low, high] = [xs[0], xs.at(-1)];
  const edge = limit ? limit.filter((v) => Math.abs(v) < 1.6 * Math.max(...reach.map(Math.abs))) : [];
  let [bottom, above] = [Math.min(0, ...reach, ...edge), Math.max(0, ...reach, ...edge)];
  if (bottom === above) above = bottom + 1;
  const pad = (above - bottom) * 0.06;
  [bottom, above] = [bottom < 0 ? bottom - pad : 0, above > 0 ? above + pad : 0];
  const x = scaleOf(low, high, left, width - right);
  const y = scaleOf(bottom, above, height - foot, top);
  const ends = [good[0], good.at(-1)].map(([, v]) => shown(result.kind, v));
  frame(svg, title, `${result.words} goes from ${ends[0]} to ${ends[1]} while ${knob.words} goes from ${shown(knob.kind, good[0][0])} to ${shown(knob.kind, good.at(-1)[0])}.`);
  axes(svg, x, y, [low, high], [bottom, above], [knob.kind, result.kind], [`${knob.words}, ${unitOf(knob.kind)}`]);
  if (spreads) {
    const band = [...good.map(([a, v, s]) => [x(a), y(v + s)]), ...[...good].reverse().map(([a, v, s]) => [x(a), y(v - s)])];
    svg.append(draw("path", { class: "band", d: path(band, true) }));
  }
  for (const value of edge) svg.append(draw("line", { class: "limit", x1: left, x2: width - right, y1: y(value), y2: y(value) }));
  if (edge.length) svg.append(draw("text", { class: "limit-text", x: (left + width - right) / 2, y: y(edge.at(-1)) - 4 }, "limit"));
  svg.append(draw("path", { class: "line", d: path(good.map(([a, v]) => [x(a), y(v)])) }));
  const put = ([a, v], anchor, shift) => svg.append(draw("text", { class: "value", x: x(a) + shift, y: y(v) - 5, "text-anchor": anchor }, figure(result.kind, v)));
  put(good[0], "start", 2);
  put(good.at(-1), "start", 4);
  const ratio = Math.abs(good[0][1]) > 1e-9 ? good.at(-1)[1] / good[0][1] : NaN;
  if (Number.isFinite(ratio) && ratio > 0 && !bare) {
    svg.append(draw("text", { class: "ratio", x: x(good.at(-1)[0]) + 4, y: y(good.at(-1)[1]) + 12 }, ratio >= 1 ? `× ${fixed(ratio, ratio < 10 ? 1 : 0)}` : `÷ ${fixed(1 / ratio, ratio > 0.1 ? 1 : 0)}`));
  }
  if (now !== null && now !== undefined) {
    const value = between(good, now);
    svg.append(draw("line", { class: "now-line", x1: x(now), x2: x(now), y1: top, y2: height - foot }),
      draw("circle", { class: "now", cx: x(now), cy: y(value), r: 4.5 }));
  }
  if (guess !== null) svg.append(draw("circle", { class: "guess", cx: x(guess[0]), cy: y(guess[1]), r: 5 }));
}

/** Drawn pieces as a thin histogram, those beyond the limit marked. */
function histogram(svg, { values, result, band, share }) {
  const { width, height, left, top, foot } = CHART;
  const right = 14;
  const good = values.filter((v) => v !== null).sort((a, b) => a - b);
  if (good.length < 2) return frame(svg, "Drawn pieces", "No pieces could be drawn.");
  const at = (part) => good[Math.min(good.length - 1, Math.floor(part * good.length))];
  let [low, high] = [at(0.002), at(0.998)];
  if (band) [low, high] = [Math.min(low, Math.max(band[0], low - (high - low))), Math.max(high, Math.min(band[1], high + (high - low)))];
  if (low === high) [low, high] = [low - 1, high + 1];
  const count = 36;
  const bins = new Array(count).fill(0);
  for (const value of good) {
    const k = Math.floor(((value - low) / (high - low)) * count);
    if (k >= 0 && k < count) bins[k] += 1;
  }
  const most = Math.max(...bins);
  const x = scaleOf(low, high, left, width - right);
  const y = scaleOf(0, most, height - foot, top + 12);
  const out = share === null || share === undefined ? "" : `: ${chance(share)} out`;
  // those outside the model have no number
  const drawn = good.length < values.length ? `${good.length} of ${values.length}` : String(good.length);
  frame(svg, `${drawn} drawn pieces${out}`, `Nine pieces in ten lie between ${shown(result.kind, at(0.05))} and ${shown(result.kind, at(0.95))}.`);
  axes(svg, x, y, [low, high], [0, most], [result.kind, null], [`${result.words}, ${unitOf(result.kind)}`]);
  bins.forEach((n, k) => {
    const middle = low + ((k + 0.5) / count) * (high - low);
    const beyond = band && (middle < band[0] || middle > band[1]);
    const wide = (width - right - left) / count;
    svg.append(draw("rect", { class: beyond ? "bar out" : "bar", x: left + k * wide, y: y(n), width: wide - 1, height: Math.max(height - foot - y(n), 0) }));
  });
  for (const value of band ?? []) {
    if (value >= low && value <= high) svg.append(draw("line", { class: "limit", x1: x(value), x2: x(value), y1: top, y2: height - foot }));
  }
  for (const [part, name] of [[0.05, "5 %"], [0.95, "95 %"]]) {
    svg.append(draw("line", { class: "quantile", x1: x(at(part)), x2: x(at(part)), y1: height - foot, y2: height - foot - 12 }),
      draw("text", { class: "tick", x: x(at(part)), y: top + 8, "text-anchor": "middle" }, name));
  }
}
