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

  /** Both edges amid the length, near then far, mm. */
  edges(frame) {
    const amid = frame.slices[Math.floor(frame.slices.length / 2)];
    return [amid.near_rad * this.half, amid.far_rad * this.half];
  }

  paint(pen, width, height, at) {
    const frame = this.frames[at];
    pen.fillStyle = "#fdfbf6";
    pen.fillRect(0, 0, width, height);
    const x = scaleOf(0, this.length, 96, width - 96);
    const y = scaleOf(-this.half, this.half, 330, 70);
    this.face(pen, frame, x, y);
    const rise = scaleOf(this.least, this.most, height - 40, 420);
    this.rises(pen, frame, x, rise, width);
    pen.font = "24px system-ui, sans-serif";
    pen.fillStyle = "#1c2430";
    pen.fillText("The flange, seen from the web: near edge above, far edge below", 16, 34);
    pen.fillText(`Rise of both edges toward the web, ${unitOf("bow")}`, 16, 396);
    if (frame.arc_mm <= this.length) {
      pen.fillStyle = "#2a0d05";
      pen.beginPath();
      const tip = x(Math.max(frame.arc_mm, 0));
      pen.moveTo(tip, 58);
      pen.lineTo(tip - 9, 40);
      pen.lineTo(tip + 9, 40);
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

  rises(pen, frame, x, y, width) {
    pen.font = "22px system-ui, sans-serif";
    pen.strokeStyle = "#b9b1a0";
    pen.fillStyle = "#5b6470";
    pen.lineWidth = 1;
    for (const mm of ticks(this.least, this.most, 4)) {
      pen.beginPath();
      pen.moveTo(x(0), y(mm));
      pen.lineTo(x(this.length), y(mm));
      pen.stroke();
      pen.textAlign = "right";
      pen.fillText(figure("bow", mm), x(0) - 8, y(mm) + 7);
    }
    pen.textAlign = "left";
    const line = (key, colour, dash, words, shift) => {
      pen.strokeStyle = colour;
      pen.lineWidth = 3.4;
      pen.setLineDash(dash);
      pen.beginPath();
      frame.slices.forEach((slice, s) => pen[s ? "lineTo" : "moveTo"](x(this.place(s)), y(slice[key] * this.half)));
      pen.stroke();
      pen.setLineDash([]);
      pen.fillStyle = "#1c2430";
      pen.fillText(words, width - 88, y(frame.slices.at(-1)[key] * this.half) + shift);
    };
    const [near, far] = [frame.slices.at(-1).near_rad, frame.slices.at(-1).far_rad].map((rad) => y(rad * this.half));
    const apart = Math.abs(near - far) < 22 ? 12 * Math.sign(near - far || -1) : 0;
    line("near_rad", "#b8430f", [], "near", 7 + apart);
    line("far_rad", "#1f5c8a", [12, 7], "far", 7 - apart);
  }

  /** What is seen, in words. */
  says(at) {
    const frame = this.frames[at];
    const last = at === this.frames.length - 1;
    const hottest = Math.max(...frame.slices.map((slice) => slice.hottest_c));
    const [near, far] = this.edges(frame);
    return `${last ? "When all is cold" : `${clockSaid(frame.time_s)} after the start, arc at ${frame.arc_mm > this.length ? "its end" : shown("plate", frame.arc_mm)}`}: amid the length the near edge has risen ${shown("bow", near)}, `
      + `the far one ${shown("bow", far)}. Hottest point ${shown("warm", hottest)}.`;
  }
}

const clockSaid = (s) => (s < 10 ? `${fixed(s, 1)} s` : `${fixed(s, 0)} s`);
