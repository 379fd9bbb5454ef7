// An arc that travels along a joint: the flange from the web's side, hot where the arc is, and how both halves turn along it.

/** Least rise that fills the drawing, mm: what is nothing must not look like much. */
const LEAST_RISE = 0.5;

class Travelled {
  constructor(answer) {
    this.answer = answer;
    const { moved } = answer;
    this.length = moved.travel.length_mm;
    this.half = moved.joint.flange_width_mm / 2;
    this.across = moved.outcome.across_mm;
    this.frames = moved.outcome.passes.flatMap((pass, k) => pass.frames.map((frame) => ({ ...frame, pass: k + 1 })));
    const rises = this.frames.flatMap((frame) => frame.slices.flatMap((s) => [s.near_rad, s.far_rad])).map((rad) => rad * this.half);
    this.most = Math.max(LEAST_RISE, ...rises);
    this.least = Math.min(-0.2 * this.most, ...rises);
  }

  place(k) {
    return ((k + 0.5) * this.length) / this.frames[0].slices.length;
  }

  /** What of the joint is seen: from, to along it, and half of it across. Near the arc where a part of it is. */
  window(frame, zoom) {
    const seen = this.length / zoom;
    const from = Math.min(Math.max(frame.arc_mm - 0.6 * seen, 0), this.length - seen);
    return [from, from + seen, this.half / zoom];
  }

  /** Both edges amid the length, near then far, mm. */
  edges(frame) {
    const amid = frame.slices[Math.floor(frame.slices.length / 2)];
    return [amid.near_rad * this.half, amid.far_rad * this.half];
  }

  /** `letters` px on the canvas, so that they are read at the size it is seen at; `zoom` times nearer to the arc. */
  paint(pen, width, height, at, zoom = 1, letters = 24) {
    const frame = this.frames[at];
    const line = 1.4 * letters;
    pen.fillStyle = "#fdfbf6";
    pen.fillRect(0, 0, width, height);
    const side = 4 * letters;
    const [from, to, half] = this.window(frame, zoom);
    const x = scaleOf(from, to, side, width - side);
    const [top, foot] = [line + 34, 0.46 * height];
    const y = scaleOf(-half, half, foot, top);
    const clipped = (above, tall, then) => {
      pen.save();
      pen.beginPath();
      pen.rect(side, above, width - 2 * side, tall);
      pen.clip();
      then();
      pen.restore();
    };
    clipped(top - 2, foot - top + 4, () => this.face(pen, frame, x, y));
    const rise = scaleOf(this.least, this.most, height - 20, foot + 2 * line + 6);
    this.rises(pen, frame, x, rise, { width, from, to, letters, clipped: (then) => clipped(foot, height - foot, then) });
    pen.font = `${letters}px system-ui, sans-serif`;
    pen.fillStyle = "#1c2430";
    pen.fillText(zoom > 1 ? `The flange near the arc, from the web: ${shown("width", from)} to ${shown("width", to)}` : "The flange from the web: near edge above, far edge below", 16, line);
    pen.fillText(`Rise of both edges toward the web, ${unitOf("bow")}`, 16, foot + line + 4);
    if (frame.arc_mm <= this.length) {
      pen.fillStyle = "#2a0d05";
      pen.beginPath();
      const tip = x(Math.max(frame.arc_mm, 0));
      pen.moveTo(tip, top - 4);
      pen.lineTo(tip - 10, top - 22);
      pen.lineTo(tip + 10, top - 22);
      pen.fill();
    }
  }

  /** Temperatures of the face, a field a slice and place across. */
  face(pen, frame, x, y) {
    const wide = this.length / frame.slices.length;
    const borders = this.across.map((place, c) => (c ? (place + this.across[c - 1]) / 2 : -this.half)).concat([this.half]);
    frame.slices.forEach((slice, s) => slice.face_c.forEach((t, c) => {
      pen.fillStyle = heatColour(t);
      const [left, top] = [x(s * wide), y(borders[c + 1])];
      // half a pixel over the neighbour, so that no seam of paper shows
      pen.fillRect(left, top, x((s + 1) * wide) - left + 0.6, y(borders[c]) - top + 0.6);
    }));
    pen.strokeStyle = "#3a3f45";
    pen.lineWidth = 1.6;
    pen.strokeRect(x(0), y(this.half), x(this.length) - x(0), y(-this.half) - y(this.half));
    pen.setLineDash([8, 5]);
    pen.beginPath();
    pen.moveTo(x(0), y(0));
    pen.lineTo(x(this.length), y(0));
    pen.stroke();
    pen.setLineDash([]);
  }

  rises(pen, frame, x, y, { width, from, to, letters, clipped }) {
    pen.font = `${letters - 2}px system-ui, sans-serif`;
    pen.strokeStyle = "#b9b1a0";
    pen.fillStyle = "#5b6470";
    pen.lineWidth = 1;
    const [factor] = KINDS.bow[page.us ? "us" : "si"];
    const round = ticks(this.least * factor, this.most * factor, 4);
    const places = Math.max(0, -Math.floor(Math.log10(round[1] - round[0]) + 1e-9));
    for (const value of round) {
      pen.beginPath();
      pen.moveTo(x(from), y(value / factor));
      pen.lineTo(x(to), y(value / factor));
      pen.stroke();
      pen.textAlign = "right";
      pen.fillText(fixed(value, places), x(from) - 8, y(value / factor) + 7);
    }
    pen.textAlign = "left";
    const line = (key, colour, dash, words, shift) => {
      pen.strokeStyle = colour;
      pen.lineWidth = 3.4;
      pen.setLineDash(dash);
      clipped(() => {
        pen.beginPath();
        frame.slices.forEach((slice, s) => pen[s ? "lineTo" : "moveTo"](x(this.place(s)), y(slice[key] * this.half)));
        pen.stroke();
      });
      pen.setLineDash([]);
      pen.fillStyle = "#1c2430";
      pen.fillText(words, x(to) + 8, y(ends[key] * this.half) + shift);
    };
    // where the lines leave what is seen
    const ends = frame.slices.findLast((_, s) => this.place(s) <= to) ?? frame.slices[0];
    const [near, far] = [ends.near_rad, ends.far_rad].map((rad) => y(rad * this.half));
    const apart = Math.abs(near - far) < letters ? 0.5 * letters * Math.sign(near - far || -1) : 0;
    line("near_rad", "#b8430f", [], "near", 7 + apart);
    line("far_rad", "#1f5c8a", [12, 7], "far", 7 - apart);
  }

  /** What is seen, in words. */
  says(at) {
    const frame = this.frames[at];
    const last = at === this.frames.length - 1;
    const hottest = Math.max(...frame.slices.map((slice) => slice.hottest_c));
    const [near, far] = this.edges(frame);
    return `${last ? "When all is cold" : `${clockSaid(frame.time_s)} after the start, arc at ${frame.arc_mm > this.length ? "its end" : shown("width", frame.arc_mm)}`}: amid the length the near edge has risen ${shown("bow", near)}, `
      + `the far one ${shown("bow", far)}. Hottest point ${shown("warm", hottest)}.`;
  }
}

const clockSaid = (s) => (s < 10 ? `${fixed(s, 1)} s` : `${fixed(s, 0)} s`);
