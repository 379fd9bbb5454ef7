// The course: lessons with picture, question and answer, the bench set to each; and a quiz over all of them.

class Course {
  constructor(bench) {
    this.bench = bench;
    this.room = document.getElementById("course-room");
    this.answers = new Map();
    this.quiz = false;
    this.jobs = new Map(data.members.map((member, k) => [member.name, k]));
    this.build();
  }

  build() {
    this.score = make("output", { class: "score", "aria-live": "polite" });
    this.switch = make("button", { type: "button", id: "quiz", "aria-pressed": "false", onclick: () => this.toggle() }, "Quiz: hide the lessons");
    this.list = make("ol", { class: "contents" });
    const lessons = make("div", { class: "lessons" });
    let part = "";
    data.course.forEach((lesson, k) => {
      if (lesson.part !== part) {
        part = lesson.part;
        lessons.append(make("h3", { class: "part" }, part));
      }
      lessons.append(this.lesson(lesson, k));
      this.list.append(make("li", {}, make("a", { href: `#lesson-${lesson.id}` }, lesson.title)));
    });
    this.room.append(make("div", { class: "row" }, this.switch, make("button", { type: "button", onclick: () => print() }, "Print the handout"), this.score), make("nav", { "aria-label": "Lessons" }, this.list), lessons);
    this.count();
    this.drawLater();
  }

  /** Pictures are drawn when the page has time, and all of them before it prints. */
  drawLater() {
    const waiting = [...this.room.querySelectorAll(".picture")];
    const next = () => {
      const holder = waiting.shift();
      if (!holder) return this.room.setAttribute("data-drawn", "all");
      this.picture(holder);
      setTimeout(next, 0);
    };
    addEventListener("beforeprint", () => waiting.splice(0).forEach((holder) => this.picture(holder)), { once: true });
    setTimeout(next, 0);
  }

  /** Units have changed: pictures with sizes in them are drawn anew. */
  again() {
    this.room.removeAttribute("data-drawn");
    this.drawLater();
  }

  picture(holder) {
    const lesson = data.course[Number(holder.dataset.lesson)];
    const base = lesson.job ? page.ask({ ask: "shape", toml: this.member(lesson).toml }) : null;
    holder.replaceChildren(lessonPicture(lesson, base));
  }

  member(lesson) {
    return data.members[this.jobs.get(lesson.job) ?? 0];
  }

  lesson(lesson, k) {
    const name = `answer-${lesson.id}`;
    const verdict = make("p", { class: "verdict-said", role: "status" });
    const solution = make("p", { class: "solution" }, make("strong", {}, "Answer: "), lesson.answer);
    const choices = lesson.choices.map((choice, c) => make("label", { class: "choice" },
      make("input", { type: "radio", name, value: c, onchange: () => this.answer(lesson, c, verdict, article) }), make("span", {}, choice)));
    const buttons = make("div", { class: "row" });
    if (lesson.job) {
      buttons.append(make("button", { type: "button", onclick: () => this.onBench(lesson) }, "Try it on the bench"));
      if (lesson.joint) buttons.append(make("button", { type: "button", onclick: () => this.onJoint(lesson) }, "Open the joint"));
    }
    const article = make("article", { class: "lesson", id: `lesson-${lesson.id}`, tabindex: "-1" },
      make("h4", {}, make("span", { class: "count" }, String(k + 1)), lesson.title),
      make("figure", { class: "picture", "data-lesson": k }), make("p", { class: "teaching" }, lesson.text.trim()),
      make("fieldset", {}, make("legend", {}, lesson.question), ...choices), verdict, solution, buttons);
    return article;
  }

  answer(lesson, choice, verdict, article) {
    const right = choice === lesson.right;
    if (!this.answers.has(lesson.id)) this.answers.set(lesson.id, right);
    verdict.textContent = right ? "Right." : "Not so; look again.";
    article.classList.toggle("solved", right);
    article.classList.toggle("missed", !right);
    this.count();
  }

  count() {
    const right = [...this.answers.values()].filter(Boolean).length;
    this.score.textContent = this.answers.size ? `${right} of ${this.answers.size} right at the first try; ${data.course.length - this.answers.size} to go` : `${data.course.length} lessons, a question each`;
  }

  toggle() {
    this.quiz = !this.quiz;
    this.switch.setAttribute("aria-pressed", String(this.quiz));
    this.switch.textContent = this.quiz ? "Show the lessons" : "Quiz: hide the lessons";
    this.room.classList.toggle("quiz", this.quiz);
  }

  settings(lesson) {
    return { touch: lesson.touch, result: lesson.result, switches: lesson.switches ?? {}, knobs: {} };
  }

  onBench(lesson) {
    this.bench.open(this.jobs.get(lesson.job) ?? 0, this.settings(lesson));
    showRoom("bench");
  }

  onJoint(lesson) {
    this.bench.open(this.jobs.get(lesson.job) ?? 0, this.settings(lesson));
    showRoom("joint");
  }

  /** What an answer rests on: the result after over the result before, by the engine. */
  ratio(id) {
    const lesson = data.course.find((one) => one.id === id);
    const base = page.ask({ ask: "shape", toml: this.member(lesson).toml });
    const { knob, switch: turn, from, to } = lesson.check;
    const jobs = [from, to].map((value) => variant(base, turn ? { switches: { [turn]: value } } : { knobs: { [knob]: value } }));
    const [values] = page.ask({ ask: "curve", jobs, collect: [lesson.result] });
    return values[1] / values[0];
  }
}
