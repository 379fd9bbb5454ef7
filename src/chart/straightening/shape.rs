//! Camber and sweep before and after, with the places of pushes or heats.

use super::super::axes::{FAR_LIMIT, Panel, Range};
use super::super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, draw};
use super::super::measure::Unit;
use super::super::smooth::smooth;
use super::super::spread::spread;
use super::super::theme::{
    BLACK, BLUE, GREEN, HEADING, Ink, LABEL, LIMIT, OUTLINE, PREDICTED, SMALL, Stroke, THIN, VERMILION, WHITE,
};
use super::super::{Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::decide::Limits;
use weldbow_engine::straighten::piece::Piece;
use weldbow_engine::straighten::plan::{Chosen, Plan, Step, Work};
use weldbow_engine::straighten::press::PushFrom;
use weldbow_engine::tolerance::Quantity;
use weldbow_engine::units::{System, show};

/// Where things stand on the paper, px.
struct Frame {
    size: (f64, f64),
    left: f64,
    right: f64,
    /// Top and bottom of the plot of camber, and of that of sweep.
    plots: [(f64, f64); 2],
    /// Whether the signs are told in words beside the names.
    ways: bool,
}

const WIDE: Frame = Frame {
    size: (900.0, 560.0),
    left: 92.0,
    right: 672.0,
    plots: [(BELOW_TITLE + 26.0, 276.0), (320.0, 508.0)],
    ways: true,
};
/// For a third of a page: letters as large, half as wide.
const NARROW: Frame = Frame {
    size: (470.0, 312.0),
    left: 76.0,
    right: 352.0,
    plots: [(BELOW_TITLE + 20.0, 166.0), (194.0, 266.0)],
    ways: false,
};
const LEAST_SPAN_MM: f64 = 2.0;
/// After straightening.
const AFTER: Stroke = Stroke { ink: GREEN, width: 2.2, dash: super::super::theme::DASHED };

struct Bow<'a> {
    name: &'static str,
    ways: &'static str,
    /// As it is, if lines of heat on a flange bend it before its own steps.
    as_it_is: Option<&'a [f64]>,
    before: Vec<f64>,
    after: Option<Vec<f64>>,
    chosen: Option<&'a Chosen>,
    limits: Limits,
}

/// The picture of both bows.
///
/// # Errors
/// If a value is not finite or the build is broken.
pub(crate) fn straightening_shape(job: &Job, piece: &Piece, plan: &Plan, system: System) -> Done<Picture> {
    drawn(job, piece, plan, system, &WIDE)
}

/// The same picture, small, for a sheet.
///
/// # Errors
/// If the shape cannot be drawn.
pub fn straightening_sketch(job: &Job, piece: &Piece, plan: &Plan, system: System) -> Done<Picture> {
    drawn(job, piece, plan, system, &NARROW)
}

fn drawn(job: &Job, piece: &Piece, plan: &Plan, system: System, frame: &Frame) -> Done<Picture> {
    let x = &piece.shape.x_mm;
    let one = |name, ways, quantity, limits| {
        let chosen = plan.chosen.iter().find(|c| c.quantity == quantity);
        let before = plan.before_mm(&piece.shape, quantity);
        let after = chosen.map(|c| c.way.after_mm(x, &before));
        let lined = plan.camber_then.is_some() && quantity == Quantity::Camber;
        let as_it_is = lined.then_some(piece.shape.camber_mm.as_slice());
        Bow { name, ways, as_it_is, before, after, chosen, limits }
    };
    let name = if job.wanted_camber.is_some() { "Camber less the wanted one" } else { "Camber" };
    let ways = "+ toward the inner flange, \u{2212} toward the outer flange";
    let camber = one(name, ways, Quantity::Camber, piece.goals.camber);
    let ways = "+ toward the near side, \u{2212} toward the far side";
    let sweep = one("Sweep", ways, Quantity::Sweep, piece.goals.sweep);
    let finding = format!("{}. {}.", camber.finding(system), sweep.finding(system));
    let heading = Heading {
        name: "straighten-shape",
        // the title of the job stands on the sheet already
        job: if frame.ways { &job.title } else { "Both bows" },
        what: "before and after straightening",
        description: format!(
            "Two plots against x from the start end. {finding} Numbered marks show where a ram or a flame acts."
        ),
        // a sheet has the sizes in a table
        subtitle: if frame.ways { finding } else { "dashed: limits, and after".to_owned() },
    };
    let judged: Vec<&Bow<'_>> = [&camber, &sweep].into_iter().filter(|bow| bow.limits.is_some()).collect();
    let [first, second] = frame.plots;
    draw(&heading, frame.size, |paper| {
        // a bow that is not judged says nothing: the other has the whole sheet
        let lower = match judged.as_slice() {
            [only] => panel(paper, x, job.member.length_mm, only, (frame, (first.0, second.1)), system)?,
            _ => {
                panel(paper, x, job.member.length_mm, &camber, (frame, first), system)?;
                panel(paper, x, job.member.length_mm, &sweep, (frame, second), system)?
            }
        };
        lower.x_axis(paper, Unit::along(system), "x from the start end")
    })
}

impl Bow<'_> {
    fn finding(&self, system: System) -> String {
        let largest = |m: f64, o: &f64| if o.abs() > m.abs() { *o } else { m };
        let size = |v: &[f64]| show::offset(v.iter().fold(0.0, largest), system);
        let lined = self.as_it_is.map_or(String::new(), |now| format!("{}, by lines of heat ", size(now)));
        let before = format!("{} {lined}{}", self.name, size(&self.before));
        match &self.after {
            Some(after) => format!("{before} to {}", size(after)),
            None if !self.limits.is_some() => format!("{} not judged", self.name),
            None if self.as_it_is.is_some() => before,
            None => format!("{before}, left as it is"),
        }
    }

    /// Every step that bends this bow.
    fn marks(&self) -> Vec<Mark> {
        let Some(chosen) = self.chosen else { return Vec::new() };
        let of = |step: &Step| match &step.work {
            Work::Push(p) => {
                let places = p.layout.rams.places_mm().collect();
                vec![Mark::new(format!("step {}", step.number), places, p.layout.from)]
            }
            Work::Heats(h) => {
                let label = format!("step {}, {} heats", step.number, h.count());
                // an S is heated on both sides
                let on = |from: PushFrom| -> Vec<f64> {
                    h.places.iter().filter(|p| p.heated == from).map(|p| p.x_mm).collect()
                };
                let sides = [PushFrom::Outer, PushFrom::Inner, PushFrom::Near, PushFrom::Far];
                let marks = sides.map(|from| Mark::new(label.clone(), on(from), from));
                marks.into_iter().filter(|m| !m.places_mm.is_empty()).collect()
            }
            Work::Fold { .. } | Work::Lines { .. } => Vec::new(),
        };
        chosen.way.steps.iter().flat_map(of).collect()
    }
}

/// Where a tool acts, and from which side.
struct Mark {
    label: String,
    places_mm: Vec<f64>,
    /// Whether it pushes or heats from above in the picture.
    above: bool,
}

impl Mark {
    fn new(label: String, places_mm: Vec<f64>, from: PushFrom) -> Self {
        Self { label, places_mm, above: from.sign() < 0.0 }
    }
}

fn panel(
    paper: &Canvas<'_>,
    x: &[f64],
    length_mm: f64,
    bow: &Bow<'_>,
    (frame, (top, bottom)): (&Frame, (f64, f64)),
    system: System,
) -> Done<Panel> {
    let measured = bow.as_it_is.unwrap_or(&bow.before);
    let offsets = measured.iter().chain(&bow.before).copied();
    let largest = offsets.clone().fold(0.5 * LEAST_SPAN_MM, |m: f64, o| m.max(o.abs()));
    let limits = bow.limits;
    let drawn = limits.is_some() && limits.highest.max(-limits.lowest) < FAR_LIMIT * largest;
    let shown = if drawn { vec![limits.lowest, limits.highest] } else { Vec::new() };
    let after = bow.after.clone().unwrap_or_default();
    let all = offsets.chain(after.iter().copied()).chain(shown);
    let marks = bow.marks();
    let y = with_strips(Range::around(all, LEAST_SPAN_MM), &marks, bottom - top);
    let panel = Panel::new((frame.left, frame.right), (top, bottom), Range::to(length_mm), y);
    paper.text((MARGIN, top - 18.0), At::Left, bow.name, HEADING)?;
    if frame.ways {
        let beside = MARGIN + paper.width_of(bow.name, HEADING)? + 14.0;
        paper.text((beside, top - 18.0), At::Left, bow.ways, SMALL)?;
    }
    panel.y_axis(paper, Unit::offset(system), if frame.ways { "offset from the chord" } else { "offset" })?;
    let mut labels: Vec<(f64, String, Ink)> = Vec::new();
    if drawn {
        for side in [limits.lowest, limits.highest] {
            let line = (0..=32).map(|i| {
                let s = f64::from(i) / 32.0;
                // unequal limits lie about a curve
                (s * length_mm, side - limits.middle(0.5) + limits.middle(s))
            });
            let end = side - limits.middle(0.5);
            paper.line(&panel.path(line), LIMIT)?;
            labels.push((end, format!("limit {}", show::offset(side, system)), VERMILION));
        }
    }
    let line = |offsets: &[f64]| smooth(&x.iter().copied().zip(offsets.iter().copied()).collect::<Vec<_>>());
    let last = |offsets: &[f64]| offsets.last().copied().unwrap_or(0.0);
    paper.line(&panel.path(line(measured)), PREDICTED)?;
    let before = if limits.is_some() { "before" } else { "not judged" };
    labels.push((last(measured), before.to_owned(), BLUE));
    if bow.as_it_is.is_some() {
        paper.line(&panel.path(line(&bow.before)), OUTLINE)?;
        labels.push((last(&bow.before), "after lines".to_owned(), BLACK));
    }
    if bow.after.is_some() {
        // kinks are corners: not smoothed
        paper.line(&panel.path(x.iter().copied().zip(after.iter().copied())), AFTER)?;
        labels.push((last(&after), "after".to_owned(), GREEN));
    }
    drawn_marks(paper, &panel, &marks)?;
    end_labels(paper, &panel, labels)?;
    Ok(panel)
}

/// Height of the strip that marks have to themselves, px.
const STRIP: f64 = 20.0;

/// The range with a strip free of curves at the edges where marks stand.
fn with_strips(range: Range, marks: &[Mark], height: f64) -> Range {
    let strip = |above| if marks.iter().any(|m| m.above == above) { STRIP } else { 0.0 };
    let (up, down) = (strip(true), strip(false));
    let a_px = (range.high - range.low) / (height - up - down);
    Range { low: range.low - down * a_px, high: range.high + up * a_px }
}

/// Triangles where the tool acts, pointing the way it pushes, at the edge of the plot on its side.
fn drawn_marks(paper: &Canvas<'_>, panel: &Panel, marks: &[Mark]) -> Done {
    let mut taken: Vec<(bool, [f64; 2])> = marks
        .iter()
        .flat_map(|m| m.places_mm.iter().map(|at| (m.above, [panel.px(*at) - 6.0, panel.px(*at) + 6.0])))
        .collect();
    for mark in marks {
        let (tip, base) = if mark.above {
            (panel.top + 11.0, panel.top + 2.0)
        } else {
            (panel.bottom - 13.0, panel.bottom - 4.0)
        };
        for at in &mark.places_mm {
            let x = panel.px(*at);
            paper.fill(&[(x, tip), (x - 5.0, base), (x + 5.0, base)], BLACK, 1.0)?;
        }
        let text = 0.5 * (tip + base);
        let (Some(first), Some(last)) = (mark.places_mm.first(), mark.places_mm.last()) else { continue };
        let (first, last) = (panel.px(*first), panel.px(*last));
        let wide = paper.width_of(&mark.label, SMALL)?;
        let here: Vec<[f64; 2]> = taken.iter().filter(|t| t.0 == mark.above).map(|t| t.1).collect();
        let (place, between) = label_place([first, last], mark.places_mm.len() == 2, wide, panel, &here);
        if between {
            paper.line(&[(first, base), (last, base)], THIN)?;
        }
        paper.plated((place, text), At::Middle, &mark.label, SMALL, WHITE)?;
        taken.push((mark.above, [place - 0.5 * wide, place + 0.5 * wide]));
    }
    Ok(())
}

/// Middle of the label of a step whose first and last mark stand there, px, and whether it stands between a pair: where nothing else
/// stands, as near to them as may be.
fn label_place(
    [first, last]: [f64; 2],
    pair: bool,
    wide: f64,
    panel: &Panel,
    taken: &[[f64; 2]],
) -> (f64, bool) {
    const GAP: f64 = 3.0;
    let half = 0.5 * wide;
    let free = |at: f64| {
        let [from, to] = [at - half - GAP, at + half + GAP];
        // the numbers of the axis stand close to its left
        from >= panel.left + GAP && to <= panel.right && taken.iter().all(|[a, b]| to <= *a || from >= *b)
    };
    let middle = 0.5 * (first + last);
    if pair && last - first > wide + 24.0 && free(middle) {
        return (middle, true);
    }
    // outward on both sides, a little further each time
    let beside = |step: u32| {
        let off = 9.0 + half + 4.0 * f64::from(step);
        [last + off, first - off]
    };
    // else anywhere on the plot, as near to the middle as may be; if marks fill it, over some of them
    let anywhere = |step: u32| {
        let off = f64::from(step);
        [middle + off, middle - off]
    };
    let place = (0..60).flat_map(beside).chain((0..1000).flat_map(anywhere)).find(|at| free(*at));
    (place.unwrap_or_else(|| beside(0)[0].min(panel.right - half)), false)
}

fn end_labels(paper: &Canvas<'_>, panel: &Panel, labels: Vec<(f64, String, Ink)>) -> Done {
    let wanted: Vec<f64> = labels.iter().map(|l| panel.py(l.0)).collect();
    let placed = spread(&wanted, 17.0, panel.top, panel.bottom);
    for ((y, from), (_, text, ink)) in placed.into_iter().zip(wanted).zip(labels) {
        paper.line(&[(panel.right + 2.0, from), (panel.right + 14.0, y)], THIN)?;
        paper.text((panel.right + 18.0, y), At::Left, &text, LABEL.in_ink(ink))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_stands_where_nothing_else_does() {
        let level = Range::to(1.0);
        let panel = Panel::new((100.0, 400.0), (0.0, 100.0), level, level);
        let marks = |places: &[f64]| places.iter().map(|x| [x - 6.0, x + 6.0]).collect::<Vec<_>>();
        // right of its mark; left of it where the next stands too near; between a pair that is far enough apart
        assert!((label_place([200.0; 2], false, 40.0, &panel, &marks(&[200.0])).0 - 229.0).abs() < 1e-12);
        assert!(
            (label_place([200.0; 2], false, 40.0, &panel, &marks(&[200.0, 235.0])).0 - 171.0).abs() < 1e-12
        );
        assert_eq!(label_place([150.0, 350.0], true, 40.0, &panel, &marks(&[150.0, 350.0])), (250.0, true));
        // a third mark between a pair sends it aside; at the edge it stays on the plot
        let (aside, between) =
            label_place([150.0, 250.0], true, 40.0, &panel, &marks(&[150.0, 200.0, 250.0]));
        assert!(!between && (aside - 279.0).abs() < 1e-12, "{aside}");
        assert!(label_place([395.0; 2], false, 40.0, &panel, &marks(&[395.0])).0 < 395.0);
        // marks from edge to edge with one gap: in it; with none: on the plot all the same
        let edges = [103.0, 190.0, 250.0, 310.0, 397.0];
        let (inside, _) = label_place([103.0, 397.0], false, 40.0, &panel, &marks(&edges));
        assert!((inside - 220.0).abs() < 5.0 || (inside - 280.0).abs() < 5.0, "{inside}");
        let full: Vec<f64> = (0..16).map(|k| 100.0 + 20.0 * f64::from(k)).collect();
        let (over, _) = label_place([100.0, 400.0], false, 40.0, &panel, &marks(&full));
        assert!(over - 20.0 >= panel.left && over + 20.0 <= panel.right, "{over}");
    }

    #[test]
    fn a_mark_stands_on_the_side_of_its_tool_in_a_strip_of_its_own() {
        let mark = |from| Mark::new("step 1".to_owned(), vec![1e3], from);
        let above = [PushFrom::Inner, PushFrom::Near, PushFrom::Outer, PushFrom::Far].map(|f| mark(f).above);
        assert_eq!(above, [true, true, false, false], "+ is drawn upward: toward inner flange and near side");
        let range = Range { low: -10.0, high: 10.0 };
        // 80 px for 20 mm, so that 20 px below them are 5 mm more
        let below = with_strips(range, &[mark(PushFrom::Far)], 100.0);
        println!("{:.3} to {:.3}; −15 to 10 wanted", below.low, below.high);
        assert!((below.low + 15.0).abs() < 1e-12 && (below.high - 10.0).abs() < 1e-12);
    }
}
