// Quantities of a job, in the engine's units inside, and in SI or US on screen.

const IN = 25.4;

/** Kinds of quantity: how a job writes it, its unit in the engine, and how each system shows it. */
const KINDS = {
  plate: { unit: "mm", si: [1, 1, "mm"], us: [1 / IN, 3, "in"] },
  length: { unit: "mm", si: [1 / 1000, 2, "m"], us: [1 / (12 * IN), 2, "ft"] },
  bow: { unit: "mm", si: [1, 1, "mm"], us: [1 / IN, 2, "in"] },
  width: { unit: "mm", si: [1, 0, "mm"], us: [1 / IN, 2, "in"] },
  current: { unit: "A", si: [1, 0, "A"], us: [1, 0, "A"] },
  voltage: { unit: "V", si: [1, 1, "V"], us: [1, 1, "V"] },
  speed: { unit: "mm/s", si: [0.06, 2, "m/min"], us: [60 / IN, 1, "in/min"] },
  heat: { unit: "J/mm", si: [1 / 1000, 2, "kJ/mm"], us: [IN / 1000, 1, "kJ/in"] },
  time: { unit: "s", si: [1, 0, "s"], us: [1, 0, "s"] },
  warm: { unit: "°C", si: [1, 0, "°C"], us: [1.8, 0, "°F", 32] },
  force: { unit: "N", si: [1 / 1000, 0, "kN"], us: [1 / 4448.22, 1, "kip"] },
  stress: { unit: "MPa", si: [1, 0, "MPa"], us: [1 / 6.89476, 1, "ksi"] },
  angle: { unit: "rad", si: [180 / Math.PI, 2, "°"], us: [180 / Math.PI, 2, "°"] },
  share: { unit: "%", si: [1, 0, "%"], us: [1, 0, "%"] },
};

/** Factors from units a shape may hold to the engine's: its own, in which the engine answers, and inches, which sliders write. */
const UNITS = { in: IN, "mm/s": 1, "J/mm": 1, mm: 1, A: 1, V: 1, s: 1, "°C": 1, MPa: 1, N: 1 };

/** The number in a quantity that the engine wrote ("16.7 mm/s"). */
function amount(text) {
  const found = /^\s*([-+0-9.eE]+)\s*(\S+)?/.exec(String(text));
  return found ? Number(found[1]) * (UNITS[found[2]] ?? 1) : NaN;
}

/** A quantity as a job writes it; sizes in inches where results are read in inches. */
function written(kind, value) {
  if (page.us && KINDS[kind].unit === "mm") return `${Number((value / IN).toPrecision(7))} in`;
  return `${Number(value.toPrecision(7))} ${KINDS[kind].unit}`;
}

/** A value without its unit. */
function figure(kind, value) {
  const [factor, places, , offset = 0] = KINDS[kind][page.us ? "us" : "si"];
  return fixed(value * factor + offset, places);
}

/** A value with its unit. */
function shown(kind, value) {
  const unit = KINDS[kind][page.us ? "us" : "si"][2];
  return `${figure(kind, value)}${unit === "°" ? "" : " "}${unit}`;
}

/** In the other system too, for a slider that both sides of a table read. */
function shownTwice(kind, value) {
  const own = shown(kind, value);
  const there = page.us ? "si" : "us";
  const [factor, places, unit, offset = 0] = KINDS[kind][there];
  const other = `${fixed(value * factor + offset, places)} ${unit}`;
  return other === own ? own : `${own} · ${other}`;
}

/** A chance as people say it: one figure. */
function chance(share) {
  if (share < 0.005) return "under\u00a01\u00a0%";
  if (share > 0.995) return "over\u00a099\u00a0%";
  const percent = share * 100;
  return `${percent < 10 || percent > 90 ? Math.round(percent) : Math.round(percent / 5) * 5}\u00a0%`;
}
