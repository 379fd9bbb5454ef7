// The lesson of the ten sweeps: readings are entered one after the other, what all pieces share becomes known, what they differ by stays.

/** How far a string may be off, two standard deviations, mm (common practice, no source). */
const STRING_MM = 1;
/** An invented shop: how far it is off what was predicted, over the doubt, and ten of its pieces, over what pieces differ by. */
const SHOP = { off: 1.1, pieces: [0.4, -1.1, 0.9, -0.3, 1.6, -0.8, 0.1, -1.4, 0.7, 0.2] };
/** Readings to half a millimetre. */
const GRADUATION_MM = 0.5;

/** What is known after each of these readings: a normal prior and readings of known spread (textbook). */
function learnt({ mean, bias, scatter }, readings) {
  const reading = scatter ** 2 + (STRING_MM / 2) ** 2;
  return Array.from({ length: readings.length + 1 }, (_, n) => {
    const weight = 1 / bias ** 2 + n / reading;
    const sum = readings.slice(0, n).reduce((a, b) => a + b, 0);
    const left = 1 / Math.sqrt(weight);
    return { mean: (mean / bias ** 2 + sum / reading) / weight, left, next: Math.hypot(left, scatter) };
  });
}

/** Sweeps to enter, the picture of what they teach, and the same in words. */
function tenSweeps(toml) {
  const p = page.ask({ ask: "predict", toml });
  const { bias_sd_mm: bias, scatter_sd_mm: scatter } = worst(p, "sweep").drawn;
  const before = { mean: p.sweep.max_mm, bias, scatter };
  const invented = SHOP.pieces.map((z) => Math.round((before.mean + SHOP.off * bias + z * scatter) / GRADUATION_MM) * GRADUATION_MM);
  const typed = make("input", { type: "text", value: invented.map((mm) => figure("bow", mm)).join("; "), "aria-label": `Sweeps that were read, ${unitOf("bow")}` });
  const how = make("input", { type: "range", min: 0, max: invented.length, value: invented.length, "aria-label": "Pieces entered" });
  const drawn = make("div");
  const said = make("p", { class: "says", role: "status" });
  const [factor] = KINDS.bow[page.us ? "us" : "si"];
  const again = () => {
    const numbers = typed.value.replaceAll("−", "-").split(/[;\s]+/).filter(Boolean).map((word) => Number(word.replace(",", ".")) / factor);
    const wrong = numbers.some((mm) => !Number.isFinite(mm) || Math.abs(mm) > 1000);
    typed.setAttribute("aria-invalid", String(wrong));
    if (wrong) return void (said.textContent = `Sweeps as numbers in ${unitOf("bow")}, with a semicolon between: −6.5; −4`);
    how.max = numbers.length;
    const readings = numbers.slice(0, Number(how.value));
    const all = learnt(before, numbers);
    const known = all.slice(0, readings.length + 1);
    const now = known.at(-1);
    // one scale for every step
    const ends = [...numbers, ...all.flatMap(({ mean, next }) => [mean - 2 * next, mean + 2 * next])];
    drawn.replaceChildren(sweepsPicture(known, readings, ends, Math.max(10, numbers.length)));
    said.textContent = `After ${readings.length} ${readings.length === 1 ? "piece" : "pieces"}: what all share is ${figure("bow", now.mean)} ± ${shown("bow", 2 * now.left)} (as predicted ${figure("bow", before.mean)} ± ${shown("bow", 2 * bias)}); `
      + `pieces differ by ± ${shown("bow", 2 * scatter)}, as before; the next one reads ${figure("bow", now.mean - 2 * now.next)} to ${shown("bow", now.mean + 2 * now.next)}.`;
  };
  typed.addEventListener("change", () => {
    how.max = typed.value.split(/[;\s]+/).filter(Boolean).length;
    how.value = how.max;
    again();
  });
  how.addEventListener("input", again);
  again();
  return make("div", { class: "sweeps" }, drawn, said,
    make("label", {}, "Pieces entered", how), make("label", {}, `Their sweeps, ${unitOf("bow")} (invented; put in your own)`, typed));
}

/** Mean, doubt and band of the next piece after each reading, with the readings. */
function sweepsPicture(known, readings, ends, most) {
  const last = known.at(-1);
  const svg = sheetOf(300, `After ${readings.length} pieces what all share is known to ± ${shown("bow", 2 * last.left)}; the band of the next piece is ± ${shown("bow", 2 * last.next)} wide`);
  const x = scaleOf(0, most, 60, 400);
  const y = scaleOf(Math.min(...ends), Math.max(...ends), 250, 40);
  const band = (half) => path([...known.map((k, n) => [x(n), y(k.mean + 2 * half(k))]), ...known.map((k, n) => [x(n), y(k.mean - 2 * half(k))]).reverse()]);
  svg.append(words(6, 18, `Sweep of C1, ± two standard deviations, ${unitOf("bow")}`, "chart-title"));
  if (known.length > 1) svg.append(draw("path", { class: "band", d: `${band((k) => k.next)} Z` }));
  else svg.append(draw("rect", { class: "band", x: x(0) - 4, width: 8, y: y(last.mean + 2 * last.next), height: y(last.mean - 2 * last.next) - y(last.mean + 2 * last.next) }));
  known.forEach((k, n) => svg.append(draw("rect", { class: "bar", x: x(n) - 3, width: 6, y: y(k.mean + 2 * k.left), height: y(k.mean - 2 * k.left) - y(k.mean + 2 * k.left) })));
  svg.append(draw("path", { class: "line", d: path(known.map((k, n) => [x(n), y(k.mean)])) }), draw("path", { class: "axis", d: "M52 40 V250 H400" }));
  readings.forEach((mm, n) => svg.append(draw("circle", { class: "now", cx: x(n + 1), cy: y(mm), r: 4 })));
  for (let n = 0; n <= most; n += most > 12 ? 5 : 2) svg.append(words(x(n), 270, String(n), "tick", "middle"));
  const ticked = [known[0].mean, last.mean].filter((mm, k, all) => k === 0 || Math.abs(y(mm) - y(all[0])) > 16);
  ticked.forEach((mm) => svg.append(words(48, y(mm) + 4, figure("bow", mm), "tick", "end")));
  const right = x(known.length - 1) + 12;
  svg.append(words(230, 292, "pieces entered", "tick", "middle"), words(right, y(last.mean) + 5, "what all share", "value"),
    words(right, y(last.mean + 2 * last.next) + 5, "the next piece", "value"));
  return svg;
}
