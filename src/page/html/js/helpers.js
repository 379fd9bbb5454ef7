// Small things everything uses: the engine on this page, its workers, elements, numbers in words.

const data = JSON.parse(document.getElementById("data").textContent);
const page = { us: false, ask: null, bytes: null };

/** An engine in a worker, that answers one question after the other. */
class Helper {
  constructor() {
    this.waiting = new Map();
    this.number = 0;
    this.start();
  }

  start() {
    const source = ["engine-source", "worker-source"].map((id) => document.getElementById(id).textContent);
    const address = URL.createObjectURL(new Blob(source, { type: "text/javascript" }));
    this.worker = new Worker(address);
    URL.revokeObjectURL(address);
    this.worker.onmessage = ({ data: { number, answer, broken } }) => {
      const done = this.waiting.get(number);
      this.waiting.delete(number);
      if (broken) this.restart();
      if (done) done(answer);
    };
    this.worker.postMessage({ bytes: page.bytes });
  }

  /** A worker whose engine trapped is of no use any more. */
  restart() {
    this.worker.terminate();
    for (const done of this.waiting.values()) done({ error: "the engine was started again; ask once more" });
    this.waiting.clear();
    this.start();
  }

  ask(question) {
    this.number += 1;
    const number = this.number;
    return new Promise((done) => {
      this.waiting.set(number, done);
      this.worker.postMessage({ number, question });
    });
  }

  /** Only the newest question of a kind is worth an answer: others give null. */
  latest(kind, question) {
    this.newest ??= {};
    const mine = (this.newest[kind] = (this.newest[kind] ?? 0) + 1);
    this.ready ??= {};
    const before = this.ready[kind] ?? Promise.resolve();
    const turn = before.then(() => (this.newest[kind] === mine ? this.ask(question) : null));
    this.ready[kind] = turn;
    return turn.then((answer) => (this.newest[kind] === mine ? answer : null));
  }
}

/** An element of the page with attributes and children; text goes in as text. */
function make(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  dress(element, attributes);
  element.append(...children.filter((child) => child !== null && child !== undefined));
  return element;
}

/** The same for a drawing. */
function draw(name, attributes = {}, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  dress(element, attributes);
  element.append(...children);
  return element;
}

function dress(element, attributes) {
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? "" : value);
  }
}

/** A line through points, as the text of a path. */
function path(points, close = false) {
  const text = points.map(([x, y], at) => `${at ? "L" : "M"}${x.toFixed(1)} ${y.toFixed(1)}`).join("");
  return close ? `${text}Z` : text;
}

/** Points on a smooth curve through stations [x, y] (cubic through each with the slope of its neighbours). */
function smooth(stations, parts = 6) {
  const points = [];
  const last = stations.length - 1;
  const slope = (k) => {
    const [a, b] = [stations[Math.max(k - 1, 0)], stations[Math.min(k + 1, last)]];
    return (b[1] - a[1]) / (b[0] - a[0] || 1);
  };
  for (let k = 0; k < last; k += 1) {
    const [[x0, y0], [x1, y1]] = [stations[k], stations[k + 1]];
    const width = x1 - x0;
    const [m0, m1] = [slope(k) * width, slope(k + 1) * width];
    for (let part = 0; part < parts; part += 1) {
      const t = part / parts;
      const [t2, t3] = [t * t, t * t * t];
      points.push([x0 + t * width,
        (2 * t3 - 3 * t2 + 1) * y0 + (t3 - 2 * t2 + t) * m0 + (3 * t2 - 2 * t3) * y1 + (t3 - t2) * m1]);
    }
  }
  points.push(stations[last]);
  return points;
}

/** Straight between stations [x, y]. */
function between(stations, x) {
  let above = stations.findIndex((station) => station[0] >= x);
  if (above < 0) above = stations.length - 1;
  if (above === 0) return stations[0][1];
  const [[x0, y0], [x1, y1]] = [stations[above - 1], stations[above]];
  return x1 === x0 ? y1 : y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
}

/** 1, 2 or 5 times a power of ten, not above a value. */
function nice(value) {
  if (!(value > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = value / power;
  return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

/** Round numbers between two values. */
function ticks(low, high, most = 5) {
  let step = nice((high - low) / most);
  while ((high - low) / step > most) step *= step.toPrecision(1)[0] === "2" ? 2.5 : 2;
  const found = [];
  for (let k = Math.ceil(low / step - 1e-9); k * step <= high + step * 1e-9; k += 1) found.push(k * step);
  return found;
}

/** A number with so many places, a real minus sign, and no minus before zero. */
function fixed(value, places = 1) {
  const text = value.toFixed(places);
  return (Number(text) === 0 ? text.replace("-", "") : text).replace("-", "−");
}

/** Waits until nothing has happened for a while. */
function settled(wait, then) {
  let timer = 0;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(() => then(...given), wait);
  };
}

const still = matchMedia("(prefers-reduced-motion: reduce)");
