//! Camber and sweep along the member: the line, its ±2σ band, what is wanted, and the tightest limit.

use super::axes::{FAR_LIMIT, LEAST_SPAN_MM, LEFT, Panel, Range};
use super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, draw};
use super::elevation::{line_of, reads_straight};
use super::measure::Unit;
use super::smooth::smooth;
use super::spread::spread;
use super::theme::{
    BAND_ALPHA, BLUE, DOTTED, GREEN, HEADING, Ink, LABEL, LIMIT, PREDICTED, SMALL, Stroke, THIN, VALUE,
    VERMILION, WANTED, WHITE,
};
use super::{Done, Picture};
use weldbow_engine::numerics::along;
use weldbow_engine::prediction::{Bow, Job, Prediction};
use weldbow_engine::tolerance::{Quantity, Verdict};
use weldbow_engine::units::{System, show};

const SIZE: (f64, f64) = (900.0, 592.0);
const RIGHT: f64 = 672.0;
/// How far to either side of its place a limit on a wanted camber is drawn, share of the length.
const LIMIT_REACH: f64 = 0.16;
/// Limits to either side that differ by less are one, mm.
const SAME_MM: f64 = 1e-6;
/// A value stays this far from a line, px.
const CLEAR: f64 = 11.0;

/// Points of a line, mm.
type Line = Vec<(f64, f64)>;

/// One bow and what it is held against.
struct Bowed<'p> {
    name: &'static str,
    up: &'static str,
    down: &'static str,
    bow: &'p Bow,
    wanted: Vec<f64>,
    limit: Option<&'p Verdict>,
    system: System,
}

pub(super) fn bow(job: &Job, prediction: &Prediction, system: System) -> Done<Picture> {
    let (camber, sweep) = (&prediction.camber, &prediction.sweep);
    let wanted = job.wanted_camber.map_or_else(Vec::new, |wanted| {
        camber.profile.iter().map(|p| wanted.offset_mm(p[0], job.member.length_mm)).collect()
    });
    let (up, down) = ("toward the inner flange", "toward the outer flange");
    let limit = tightest(prediction, Quantity::Camber);
    let camber = Bowed { name: "Camber", up, down, bow: camber, wanted, limit, system };
    let (up, down) = ("toward the near side", "toward the far side");
    let limit = tightest(prediction, Quantity::Sweep);
    let sweep = Bowed { name: "Sweep", up, down, bow: sweep, wanted: Vec::new(), limit, system };
    let finding = format!("{}. {}.", camber.finding(), sweep.finding());
    let heading = Heading {
        name: "bow",
        job: &job.title,
        what: "camber and sweep along the member",
        description: format!(
            "Two plots against x from the start end. {finding} Bands show two standard deviations."
        ),
        subtitle: finding,
    };
    draw(&heading, SIZE, |paper| {
        panel(paper, &camber, (BELOW_TITLE + 42.0, 292.0))?;
        let lower = panel(paper, &sweep, (352.0, 540.0))?;
        lower.x_axis(paper, Unit::along(system), "x from the start end")
    })
}

/// One of the two plots, between those heights.
fn panel(paper: &Canvas<'_>, bowed: &Bowed<'_>, (top, bottom): (f64, f64)) -> Done<Panel> {
    let limit = bowed.limit.filter(|verdict| verdict.limit < FAR_LIMIT * bowed.largest());
    let limits: Vec<Line> = limit.map_or_else(Vec::new, |verdict| bowed.limit_lines(verdict));
    let shown = limits.iter().flatten().map(|p| p.1);
    let y = Range::around(bowed.reach().chain(shown), LEAST_SPAN_MM);
    let length_mm = bowed.bow.profile.last().map_or(1.0, |p| p[0]);
    let panel = Panel::new((LEFT, RIGHT), (top, bottom), Range::to(length_mm), y);

    paper.text((MARGIN, top - 34.0), At::Left, bowed.name, HEADING)?;
    let signs = format!("+ {}, \u{2212} {}", bowed.up, bowed.down);
    paper.text((LEFT + 6.0, top - 34.0), At::Left, &signs, SMALL)?;
    // a line of its own: it is what tells a reader whom to ask for less
    let divided = bowed.bow.max_2s_of.sentence().in_units(bowed.system);
    paper.text_within((LEFT + 6.0, top - 17.0), SIZE.0 - MARGIN - LEFT - 6.0, &divided, SMALL)?;
    panel.y_axis(paper, Unit::offset(bowed.system), "offset from the chord")?;

    let stations = || bowed.bow.profile.iter().zip(&bowed.bow.profile_2s_mm);
    let edge = |side: f64| smooth(&stations().map(|(p, s)| (p[0], p[1] + side * s)).collect::<Vec<_>>());
    let around = edge(1.0).into_iter().chain(edge(-1.0).into_iter().rev());
    paper.fill(&panel.path(around), BLUE, BAND_ALPHA)?;
    for line in &limits {
        paper.line(&panel.path(line.iter().copied()), LIMIT)?;
        let end = line.last().map_or((RIGHT, top), |p| panel.at(p.0, p.1));
        if RIGHT - end.0 > 4.0 {
            paper.line(&[(end.0 + 4.0, end.1), (RIGHT, end.1)], Stroke { dash: DOTTED, ..THIN })?;
        }
    }
    if !bowed.wanted.is_empty() {
        paper.line(&panel.path(smooth(&bowed.wanted_line())), WANTED)?;
    }
    paper.line(&panel.path(line_of(bowed.bow)), PREDICTED)?;
    mark_largest(paper, &panel, bowed, &limits)?;
    end_labels(paper, &panel, bowed, &limits)?;
    Ok(panel)
}

/// A dot at the largest offset, with its value where neither line nor band is.
fn mark_largest(paper: &Canvas<'_>, panel: &Panel, bowed: &Bowed<'_>, limits: &[Line]) -> Done {
    let (bow, system) = (bowed.bow, bowed.system);
    if reads_straight(bow, system) {
        return Ok(());
    }
    let at = panel.at(bow.at_mm, bow.max_mm);
    let value = Unit::offset(system).size_2s(bow.max_mm, bow.max_2s_mm);
    let text = format!("{value} at {}", show::position(bow.at_mm, system));
    let half = 0.5 * paper.width_of(&text, VALUE)? + 4.0;
    let beside = |p: &(f64, f64)| (panel.px(p.0) - at.0).abs() <= half;
    let wanted = bowed.wanted_line();
    // a limit is level between its two ends, which may both lie far from the text
    let under = |line: &&Line| {
        let [from, to] = [line.first(), line.last()].map(|p| p.map_or(0.0, |p| panel.px(p.0)));
        from <= at.0 + half && to >= at.0 - half
    };
    let held = limits.iter().filter(under).filter_map(|line| line.first());
    let lines = wanted.iter().filter(|p| beside(p)).chain(held).map(|p| panel.py(p.1));
    let lines: Vec<f64> = lines.chain([panel.py(0.0)]).collect();
    let free = |y: &f64| lines.iter().all(|line| (line - y).abs() > CLEAR);

    // the edges of the band over the width of the text: toward the chord and away from it
    let sign = bow.max_mm.signum();
    let stations = || bow.profile.iter().zip(&bow.profile_2s_mm).filter(|(p, _)| beside(&(p[0], p[1])));
    let inner = stations().map(|(p, s)| p[1] * sign - s).fold(bow.max_mm * sign - bow.max_2s_mm, f64::min);
    let outer = bow.max_mm * sign + bow.max_2s_mm;
    let step = sign * (CLEAR + 1.0);
    let (inward, outward, beyond) =
        (panel.py(inner * sign) + step, panel.py(outer * sign) - step, panel.py(0.0) + step);
    let above_zero = (panel.py(0.0) - inward) * sign > 0.0;
    let places = [if above_zero { inward } else { outward }, outward, beyond, beyond + step];
    let in_plot = |y: &f64| *y > panel.top + 1.0 && *y < panel.bottom - 6.0;
    let y = places
        .into_iter()
        .filter(in_plot)
        .find(free)
        .unwrap_or(outward.clamp(panel.top + 8.0, panel.bottom - 8.0));
    paper.dot(at, 4.0, BLUE)?;
    paper.plated((at.0, y), At::Middle, &text, VALUE, WHITE)
}

/// What stands right of the end of a line.
struct EndLabel {
    y_mm: f64,
    text: String,
    note: String,
    ink: Ink,
}

/// What each line is, right of its end.
fn end_labels(paper: &Canvas<'_>, panel: &Panel, bowed: &Bowed<'_>, limits: &[Line]) -> Done {
    let mut labels =
        vec![EndLabel { y_mm: 0.0, text: "predicted".to_owned(), note: "band ±2σ".to_owned(), ink: BLUE }];
    if !bowed.wanted.is_empty() {
        let text = "wanted camber".to_owned();
        labels.push(EndLabel { y_mm: 0.0, text, note: String::new(), ink: GREEN });
    }
    if let Some(verdict) = bowed.limit {
        let size = |mm: f64| show::offset(mm, bowed.system);
        let bare = |mm: f64| size(mm).split(' ').next().unwrap_or_default().to_owned();
        let (less, more) = (verdict.band.less_mm, verdict.band.more_mm);
        let text = match (limits.is_empty(), bowed.wanted.is_empty(), (less - more).abs() < SAME_MM) {
            (true, ..) => format!("limit ±{}, off the plot", size(verdict.limit)),
            (_, true, true) => format!("limit ±{}", size(more)),
            (_, true, false) => format!("limits \u{2212}{}, +{}", size(less), size(more)),
            (_, false, true) => format!("limit {} from wanted", size(more)),
            (_, false, false) => format!("{} less, {} more", bare(less), size(more)),
        };
        let note = format!("{} {}", verdict.standard, verdict.clause);
        let y_mm = limits.first().and_then(|line| line.last()).map_or(panel.y.high, |p| p.1);
        labels.push(EndLabel { y_mm, text, note, ink: VERMILION });
    }
    let wanted: Vec<f64> = labels.iter().map(|l| panel.py(l.y_mm)).collect();
    let placed = spread(&wanted, 32.0, panel.top, panel.bottom - 12.0);
    let room = SIZE.0 - RIGHT - 18.0 - 8.0;
    for ((y, from), label) in placed.into_iter().zip(wanted).zip(labels) {
        paper.line(&[(RIGHT + 2.0, from), (RIGHT + 14.0, y)], THIN)?;
        paper.text_within((RIGHT + 18.0, y), room, &label.text, LABEL.in_ink(label.ink))?;
        paper.text_within((RIGHT + 18.0, y + 14.0), room, label.note.trim(), SMALL)?;
    }
    Ok(())
}

impl Bowed<'_> {
    fn finding(&self) -> String {
        let system = self.system;
        let size = Unit::offset(system).size_2s(self.bow.max_mm, self.bow.max_2s_mm);
        if reads_straight(self.bow, system) {
            return if self.bow.max_2s_mm > 0.0 {
                format!("{} {size}", self.name)
            } else {
                format!("{}: none", self.name)
            };
        }
        let way = if self.bow.max_mm < 0.0 { self.down } else { self.up };
        format!("{} {size} {way}, at {}", self.name, show::position(self.bow.at_mm, system))
    }

    fn wanted_line(&self) -> Line {
        self.bow.profile.iter().zip(&self.wanted).map(|(p, wanted)| (p[0], *wanted)).collect()
    }

    /// Where the limits run, above and below. Without a wanted camber they hold all along. With one, they may differ from side to
    /// side and along the member: they are drawn only about the place where it is judged.
    fn limit_lines(&self, verdict: &Verdict) -> Vec<Line> {
        let length = self.bow.profile.last().map_or(0.0, |p| p[0]);
        let sides = [verdict.band.more_mm, -verdict.band.less_mm];
        if self.wanted.is_empty() {
            return sides.map(|size| vec![(0.0, size), (length, size)]).to_vec();
        }
        // a positive value is more of the wanted camber, whichever way that goes
        let way = self.wanted.iter().sum::<f64>().signum();
        let reach = LIMIT_REACH * length;
        let (from, to) = ((verdict.at_mm - reach).max(0.0), (verdict.at_mm + reach).min(length));
        let wanted = along(&self.wanted_line(), verdict.at_mm);
        sides.map(|size| [from, to].map(|x| (x, wanted + way * size)).to_vec()).to_vec()
    }

    fn largest(&self) -> f64 {
        self.reach().fold(0.5 * LEAST_SPAN_MM, |largest, v| largest.max(v.abs()))
    }

    fn reach(&self) -> impl Iterator<Item = f64> {
        let band =
            self.bow.profile.iter().zip(&self.bow.profile_2s_mm).flat_map(|(p, s)| [p[1] - s, p[1] + s]);
        band.chain(self.wanted.iter().copied())
    }
}

/// The verdict that leaves least.
fn tightest(prediction: &Prediction, quantity: Quantity) -> Option<&Verdict> {
    let of_it = prediction.verdicts.iter().filter(|v| v.quantity == quantity);
    of_it.min_by(|a, b| a.margin.total_cmp(&b.margin))
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn limits_lie_to_either_side_of_the_wanted_camber() {
        let job = sample::busy_job();
        let prediction = sample::prediction(&job, -8.4, 4.0);
        let wanted = |p: &[f64; 2]| job.wanted_camber.unwrap().offset_mm(p[0], job.member.length_mm);
        let bowed = Bowed {
            name: "Camber",
            up: "",
            down: "",
            bow: &prediction.camber,
            wanted: prediction.camber.profile.iter().map(wanted).collect(),
            limit: tightest(&prediction, Quantity::Camber),
            system: System::Si,
        };
        let lines = bowed.limit_lines(bowed.limit.unwrap());
        assert_eq!(lines.len(), 2, "more and less than wanted");
        // 6 mm wanted and 9 mm allowed toward the outer flange, which is down
        assert!(lines[0].iter().all(|p| (p.1 + 15.0).abs() < 1e-9), "{lines:?}");
        assert!(lines[1].iter().all(|p| (p.1 - 3.0).abs() < 1e-9), "{lines:?}");
    }
}
