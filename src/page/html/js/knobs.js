// What can be turned and switched on the bench: each knob reads a value out of a job's shape and puts another in.

const plates = (job, part) => job.member[part];
const passesOf = (job, seam) => (job.pass ?? []).filter((pass) => pass.seam === seam);

/** The piece that covers the middle of the member: what a knob shows of several. */
function middlePiece(job, part) {
  const half = amount(job.member.length) / 2;
  return plates(job, part).find((piece) => !piece.to || amount(piece.to) >= half) ?? plates(job, part)[0];
}

/** Pieces of a part move in proportion, so that thick and thin ends stay what they are to each other. */
function scaled(job, part, key, value) {
  const factor = value / amount(middlePiece(job, part)[key]);
  for (const piece of plates(job, part)) piece[key] = written("plate", amount(piece[key]) * factor);
}

function stretched(job, value) {
  const factor = value / amount(job.member.length);
  const move = (holder, key) => {
    if (holder[key]) holder[key] = written("plate", amount(holder[key]) * factor);
  };
  job.member.depth = job.member.depth.map(([x, depth]) => [written("plate", amount(x) * factor), depth]);
  for (const part of ["web", "outer_flange", "inner_flange"]) {
    for (const piece of plates(job, part)) ["from", "to"].forEach((key) => move(piece, key));
  }
  for (const pass of job.pass ?? []) ["from", "to"].forEach((key) => move(pass, key));
  job.member.length = written("plate", value);
  const last = job.member.depth.at(-1);
  last[0] = job.member.length;
}

const used = (job) => [...new Set((job.pass ?? []).map((pass) => pass.procedure).filter(Boolean))]
  .map((name) => job.procedure?.[name]).filter(Boolean);
const arcOf = (procedure) => procedure?.arcs?.[0] ?? procedure;

function currentOf(job) {
  const procedure = used(job)[0];
  const arc = arcOf(procedure);
  if (!arc) return null;
  return arc.current ? amount(arc.current) : amount(arc.current_per_wire) * (arc.wires ?? 1);
}

function setCurrent(job, value) {
  const factor = value / currentOf(job);
  for (const procedure of used(job)) {
    for (const arc of procedure.arcs ?? [procedure]) {
      for (const key of ["current", "current_per_wire"]) {
        if (arc[key]) arc[key] = written("current", amount(arc[key]) * factor);
      }
    }
  }
}

const depthAt = (job, end) => amount(job.member.depth.at(end)[1]);
/** Points with the depth of that end move with it: a level stretch stays level. */
function setDepth(job, end, value) {
  const old = job.member.depth.at(end)[1];
  const other = job.member.depth.at(end === 0 ? -1 : 0)[1];
  const level = old === other;
  const list = end === 0 ? job.member.depth : [...job.member.depth].reverse();
  for (const point of list) {
    if (point[1] !== old || (level && point !== list[0])) break;
    point[1] = written("plate", value);
  }
}

const thick = (part) => ({
  get: (job) => amount(middlePiece(job, part).thickness),
  set: (job, value) => scaled(job, part, "thickness", value),
});

const legOf = (seam) => ({
  get: (job, found) => {
    const pass = passesOf(job, seam)[0];
    if (!pass) return null;
    if (pass.leg) return amount(pass.leg);
    return found?.passes.find((p) => p.seam === seam)?.leg_mm ?? null;
  },
  set: (job, value) => {
    for (const pass of passesOf(job, seam)) {
      pass.leg = written("plate", value);
      // a leg that is turned takes its heat along: a procedure of its own would go on giving the old one
      delete pass.procedure;
      delete pass.heat_input;
    }
  },
});

/** Every slider: words, kind of quantity, range over the job's own value, step, and how it reads and sets. */
const KNOBS = [
  { key: "outer-leg", words: "Leg, outer seam", kind: "plate", low: 3, high: 10, step: 0.25, usStep: IN / 32, ...legOf("outer") },
  { key: "inner-leg", words: "Leg, inner seam", kind: "plate", low: 3, high: 10, step: 0.25, usStep: IN / 32, ...legOf("inner") },
  { key: "web", words: "Web", kind: "plate", low: 3, high: 12, step: 0.25, usStep: IN / 32, ...thick("web") },
  { key: "outer-flange", words: "Outer flange", kind: "plate", low: 5, high: 30, step: 0.5, usStep: IN / 32, ...thick("outer_flange") },
  { key: "inner-flange", words: "Inner flange", kind: "plate", low: 5, high: 30, step: 0.5, usStep: IN / 32, ...thick("inner_flange") },
  {
    key: "width", words: "Flange width", kind: "width", low: 100, high: 400, step: 5, usStep: IN / 4,
    get: (job) => amount(middlePiece(job, "outer_flange").width),
    set: (job, value) => {
      const factor = value / amount(middlePiece(job, "outer_flange").width);
      for (const part of ["outer_flange", "inner_flange"]) {
        scaled(job, part, "width", amount(middlePiece(job, part).width) * factor);
      }
    },
  },
  { key: "depth-start", words: "Depth at the start", kind: "width", low: 150, high: 2000, step: 10, usStep: IN / 2,
    get: (job) => depthAt(job, 0), set: (job, value) => setDepth(job, 0, value) },
  { key: "depth-end", words: "Depth at the finish", kind: "width", low: 150, high: 2000, step: 10, usStep: IN / 2,
    get: (job) => depthAt(job, -1), set: (job, value) => setDepth(job, -1, value) },
  { key: "length", words: "Length", kind: "length", low: 2000, high: 18000, step: 250, usStep: 6 * IN,
    get: (job) => amount(job.member.length), set: stretched },
  { key: "current", words: "Current, all wires", kind: "current", low: 250, high: 1000, step: 10,
    get: currentOf, set: setCurrent },
  { key: "speed", words: "Travel speed", kind: "speed", low: 4, high: 40, step: 0.25,
    get: (job) => (used(job)[0] ? amount(used(job)[0].travel_speed) : null),
    set: (job, value) => used(job).forEach((procedure) => { procedure.travel_speed = written("speed", value); }) },
  { key: "preheat", words: "Preheat", kind: "warm", low: 20, high: 120, step: 5,
    get: (job) => (used(job)[0] ? amount(used(job)[0].preheat ?? "20 °C") : null),
    set: (job, value) => used(job).forEach((procedure) => { procedure.preheat = written("warm", value); }) },
];

/** The job with one knob turned. */
function turned(job, knob, value) {
  const other = structuredClone(job);
  knob.set(other, value);
  return other;
}

/** Switches act on the passes and steps as the job has them. */
const SWITCHES = {
  sides: { words: "Sides", choices: { job: "as in the job", near: "near only", far: "far only", both: "both at once", after: "one, then the other" } },
  sequence: { words: "Sequence", choices: { job: "as in the job", whole: "tacked, at once", turn: "tacked, in turn", tee: "outer tee first", "tee-inner": "inner tee first" } },
  share: { words: "Welded share", choices: { 100: "continuous", 67: "two thirds", 50: "half", 33: "a third" } },
  heat: { words: "Heat comes from", choices: { job: "as in the job", leg: "the leg", procedure: "the procedure" } },
  steel: { words: "Steel", choices: { job: "as in the job", S235: "S235", S275: "S275", S355: "S355", A36: "A36", "A572-50": "A572-50" } },
  wait: { words: "Wait between", choices: { job: "as in the job", cold: "until cold", 5: "5 s", 30: "30 s", 120: "2 min", 600: "10 min" } },
  hold: { words: "Joint held by", choices: { job: "as in the job", line: "rolls of the line", along: "rolls and tacks", square: "clamps until cold", none: "nothing" } },
};

/** Holds as a job writes them. */
const HOLDS = {
  line: { tacks: "leading-end", rolls: true, square_until_cold: false },
  along: { tacks: "along", rolls: true, square_until_cold: false },
  square: { tacks: "leading-end", rolls: true, square_until_cold: true },
  none: { tacks: "none", rolls: false, square_until_cold: false },
};

/** All switches where the job has them. */
const AS_IN_JOB = { sides: "job", sequence: "job", share: "100", heat: "job", steel: "job", wait: "job", hold: "job" };

/** Passes and steps for chosen sides and sequence, from the first pass of each seam. */
function laid(job, sides, sequence, wait) {
  if (sides === "job" && sequence === "job") return waited(job, wait);
  const bead = (seam, side, step) => {
    const model = passesOf(job, seam).find((pass) => pass.side === side) ?? passesOf(job, seam)[0];
    return model ? { ...structuredClone(model), side, step } : null;
  };
  const chosen = sides === "job"
    ? ["near", "far"].filter((side) => (job.pass ?? []).some((pass) => pass.side === side))
    : { near: ["near"], far: ["far"], both: ["near", "far"], after: ["near", "far"] }[sides];
  const after = sides === "after" || (sides === "job" && new Set(job.pass.map((pass) => pass.step ?? 1)).size > 1);
  const turns = after ? chosen.map((side) => [side]) : [chosen];
  const tee = sequence.startsWith("tee");
  const first = sequence === "tee-inner" ? "inner" : "outer";
  const groups = tee || sequence === "turn" ? [[first], [first === "outer" ? "inner" : "outer"]] : [["outer", "inner"]];
  const [passes, steps] = [[], []];
  let number = 0;
  groups.forEach((seams, group) => turns.forEach((here, turn) => {
    number += 1;
    const step = { number };
    if (tee && group === 0) step.joined = ["web", `${first}_flange`];
    // a flange that joins a tee meets it cold
    if (number > 1) step.wait = Number(wait) && !(tee && turn === 0) ? `${wait} s` : "cold";
    if (step.joined || (step.wait && step.wait !== "cold")) steps.push(step);
    for (const seam of seams) for (const side of here) passes.push(bead(seam, side, number));
  }));
  job.pass = passes.filter(Boolean);
  if (steps.length) job.step = steps;
  else delete job.step;
}

/** Another wait before every later step of the job as it is. */
function waited(job, wait) {
  if (wait === "job") return;
  const numbers = [...new Set((job.pass ?? []).map((pass) => pass.step ?? 1))].sort((a, b) => a - b).slice(1);
  for (const number of numbers) {
    job.step ??= [];
    let step = job.step.find((one) => one.number === number);
    if (!step) job.step.push(step = { number });
    step.wait = wait === "cold" ? "cold" : `${wait} s`;
  }
}

/** The job with the switches as they stand. */
function switched(base, switches) {
  const job = structuredClone(base);
  laid(job, switches.sides, switches.sequence, switches.wait);
  const share = Number(switches.share);
  for (const pass of job.pass ?? []) {
    if (share < 100) pass.intermittent = `150 mm weld, ${Math.round(150 * (100 / share - 1))} mm gap`;
    if (switches.heat === "leg" && pass.leg) delete pass.procedure;
    if (switches.heat === "procedure" && pass.procedure && job.procedure?.[pass.procedure]) {
      const arc = arcOf(job.procedure[pass.procedure]);
      if (arc.wire_diameter) delete pass.leg;
      delete pass.heat_input;
    }
  }
  if (switches.steel !== "job") job.member.steel = switches.steel;
  if (HOLDS[switches.hold]) job.hold = { ...HOLDS[switches.hold] };
  return job;
}
