//! Cross-sections with cup and tilt drawn larger, and the four toe offsets.

use super::canvas::{At, Canvas, Heading, MARGIN, Point, SIZE, corners, draw};
use super::dimension::arrow;
use super::measure::{Unit, plate_size};
use super::number::{number, round_down, signed};
use super::theme::{BLACK, BLUE, GHOST, HEADING, LABEL, OUTLINE, SMALL, STEEL, VALUE, VERMILION, WEB, WHITE};
use super::{Done, Picture};
use weldbow_engine::member::Seam;
use weldbow_engine::prediction::{FlangeAngles, Job, Prediction};
use weldbow_engine::units::{System, show};
use weldbow_engine::welding::{Pass, Side};

/// Most sections side by side.
const MOST: usize = 3;
/// The widest flange is drawn no wider than this, and leaves this much beside it for values, px.
const WIDEST: f64 = 250.0;
const VALUES: f64 = 132.0;
/// The largest toe offset is drawn up to this high, px.
const RISE: f64 = 32.0;
/// Heights of the inner and the outer web edge, px.
const INNER: f64 = 192.0;
const OUTER: f64 = 440.0;
const MIDDLE: f64 = 0.5 * (INNER + OUTER);
/// A plate is drawn no thinner than this, px.
const THINNEST: f64 = 3.0;

/// A section where both flanges keep their size and shape.
#[derive(Clone, Copy)]
struct Station<'p> {
    from_mm: f64,
    to_mm: f64,
    outer: Option<&'p FlangeAngles>,
    inner: Option<&'p FlangeAngles>,
}

impl Station<'_> {
    fn x_mm(&self) -> f64 {
        0.5 * (self.from_mm + self.to_mm)
    }

    fn largest_toe_mm(&self) -> f64 {
        let toes =
            self.outer.into_iter().chain(self.inner).flat_map(|f| [f.near_toe_mm.abs(), f.far_toe_mm.abs()]);
        toes.fold(0.0, f64::max)
    }
}

pub(super) fn section(job: &Job, prediction: &Prediction, system: System) -> Done<Picture> {
    let all = stations(&prediction.flanges);
    let count = all.len();
    let stations = worst(all);
    let toe = stations.iter().map(Station::largest_toe_mm).fold(0.0, f64::max);
    let widest = prediction.flanges.iter().map(|f| f.width_mm).fold(1.0, f64::max);
    let room = (SIZE.0 - 2.0 * MARGIN) / stations.len().max(1) as f64;
    let scale = (room - VALUES).min(WIDEST) / widest;
    let times = if toe < 1e-6 { 1.0 } else { round_down(RISE / (toe * scale)).max(1.0) };
    let heading = Heading {
        name: "section",
        job: &job.title,
        what: "cup and tilt of the flanges",
        subtitle: format!(
            "Seen from the start end. Toe offsets ({}) from the square line, + toward the web, ± 2σ; drawn {} ×.{}",
            Unit::offset(system).name,
            number(times, 0),
            if count > MOST { format!(" The {MOST} worst of {count} stretches.") } else { String::new() }
        ),
        description: told(&stations, system),
    };
    draw(&heading, SIZE, |paper| {
        for (i, station) in stations.iter().enumerate() {
            let middle = MARGIN + room * (i as f64 + 0.5);
            Column { job, station, middle, scale, times, system }.draw(paper)?;
        }
        if stations.is_empty() {
            paper.text((0.5 * SIZE.0, MIDDLE), At::Middle, "No flange shape was predicted.", LABEL)?;
        }
        Ok(())
    })
}

/// Stretches on which neither flange changes, from start to finish.
fn stations(flanges: &[FlangeAngles]) -> Vec<Station<'_>> {
    let mut breaks: Vec<f64> = flanges.iter().flat_map(|f| [f.from_mm, f.to_mm]).collect();
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|b, a| *b - *a < 1.0);
    let shape =
        |seam: Seam, x: f64| flanges.iter().find(|f| f.flange == seam && f.from_mm <= x && x <= f.to_mm);
    breaks
        .windows(2)
        .map(|ends| {
            let x = 0.5 * (ends[0] + ends[1]);
            let (outer, inner) = (shape(Seam::Outer, x), shape(Seam::Inner, x));
            Station { from_mm: ends[0], to_mm: ends[1], outer, inner }
        })
        .collect()
}

/// The few with the largest toe offsets, from start to finish.
fn worst(mut stations: Vec<Station<'_>>) -> Vec<Station<'_>> {
    stations.sort_by(|a, b| b.largest_toe_mm().total_cmp(&a.largest_toe_mm()));
    stations.truncate(MOST);
    stations.sort_by(|a, b| a.from_mm.total_cmp(&b.from_mm));
    stations
}

fn told(stations: &[Station<'_>], system: System) -> String {
    let unit = Unit::offset(system);
    let flange = |f: &FlangeAngles| {
        let [near, far] = [f.near_toe_mm, f.far_toe_mm].map(|mm| unit.bare(mm));
        format!("{} flange near toe {near}, far toe {far}", f.flange.name())
    };
    let station = |s: &Station<'_>| {
        let flanges: Vec<String> = s.outer.into_iter().chain(s.inner).map(flange).collect();
        format!("At {}: {}.", show::position(s.x_mm(), system), flanges.join("; "))
    };
    let all: Vec<String> = stations.iter().map(station).collect();
    format!("Cross-sections, toe offsets in {}. {}", unit.name, all.join(" "))
}

/// One section on paper.
struct Column<'p> {
    job: &'p Job,
    station: &'p Station<'p>,
    /// Web plane, px.
    middle: f64,
    /// px per mm.
    scale: f64,
    times: f64,
    system: System,
}

impl Column<'_> {
    fn draw(&self, paper: &Canvas<'_>) -> Done {
        let x_mm = self.station.x_mm();
        let plates = self.job.member.plates_at(x_mm);
        let title = format!("x = {}", show::position(x_mm, self.system));
        paper.text((self.middle, 84.0), At::Middle, &title, HEADING)?;
        let [from, to] = [self.station.from_mm, self.station.to_mm].map(|mm| show::position(mm, self.system));
        let stretch = format!("for {from} to {to}");
        paper.text((self.middle, 101.0), At::Middle, &stretch, SMALL)?;

        self.web(paper, plates.web_mm)?;
        let web =
            format!("web {}, clear depth {}", show::plate(plates.web_mm, self.system), self.depth(x_mm));
        let beside = self.middle + 0.5 * self.thickness(plates.web_mm) + 10.0;
        paper.text((beside, MIDDLE), At::Left, "near side", LABEL.in_ink(BLUE))?;
        let beside = self.middle - (beside - self.middle);
        paper.text((beside, MIDDLE), At::Right, "far side", LABEL.in_ink(VERMILION))?;
        for shape in self.station.inner.into_iter().chain(self.station.outer) {
            self.flange(paper, shape)?;
            self.fillets(paper, shape, plates.web_mm)?;
            let size = plate_size(shape.width_mm, shape.thickness_mm, self.system);
            let name = format!("{} flange {size}", shape.flange.name());
            let y = self.level(shape.flange, -(self.thickness(shape.thickness_mm) + RISE + 6.0));
            paper.text((self.middle, y), At::Middle, &name, LABEL)?;
        }
        paper.text((self.middle, SIZE.1 - 20.0), At::Middle, &web, SMALL)
    }

    /// Clear depth at a station between two that were given: no more digits than it deserves.
    fn depth(&self, x_mm: f64) -> String {
        let unit = Unit::offset(self.system);
        let depth = self.job.member.depth.depth_mm(x_mm) / unit.mm;
        format!("{} {}", number(depth, self.system.pick(0, 1)), unit.name)
    }

    fn thickness(&self, mm: f64) -> f64 {
        (mm * self.scale).max(THINNEST)
    }

    /// Height on paper, `toward` px from a web edge toward the middle of the web.
    fn level(&self, seam: Seam, toward: f64) -> f64 {
        match seam {
            Seam::Outer => OUTER - toward,
            Seam::Inner => INNER + toward,
        }
    }

    /// The web, with a piece left out of it.
    fn web(&self, paper: &Canvas<'_>, web_mm: f64) -> Done {
        let half = 0.5 * self.thickness(web_mm);
        let (left, right) = (self.middle - half, self.middle + half);
        for (edge, cut, lean) in [(INNER, MIDDLE - 18.0, 3.0), (OUTER, MIDDLE + 18.0, 3.0)] {
            paper.fill(&corners((left, edge), (right, cut)), WEB, 1.0)?;
            for x in [left, right] {
                paper.line(&[(x, edge), (x, cut)], OUTLINE)?;
            }
            paper.line(&[(left - 6.0, cut + lean), (right + 6.0, cut - lean)], OUTLINE)?;
        }
        Ok(())
    }

    fn flange(&self, paper: &Canvas<'_>, shape: &FlangeAngles) -> Done {
        let seam = shape.flange;
        let half = 0.5 * shape.width_mm * self.scale;
        let thick = self.thickness(shape.thickness_mm);
        let rise = |mm: f64| mm * self.scale * self.times;
        let (near, far) = (rise(shape.near_toe_mm), rise(shape.far_toe_mm));
        let at = |z: f64, toward: f64| -> Point { (self.middle + z, self.level(seam, toward)) };
        // outer corner of a leaning half: its thickness square to it
        let back = |z: f64, toward: f64| {
            let length = z.hypot(toward);
            at(z + thick * toward * z.signum() / length, toward - thick * z.abs() / length)
        };
        let face = [at(half, near), at(0.0, 0.0), at(-half, far)];
        let body = [face, [back(-half, far), at(0.0, -thick), back(half, near)]].concat();
        paper.shape(&body, STEEL, 0.75, OUTLINE)?;
        paper.line(&[at(-half - 16.0, 0.0), at(half + 16.0, 0.0)], GHOST)?;

        for (side, toe_mm, toward) in [(1.0, shape.near_toe_mm, near), (-1.0, shape.far_toe_mm, far)] {
            let z = side * (half + 11.0);
            if toward.abs() > 6.0 {
                arrow(paper, at(z, 0.0), at(z, toward), BLACK)?;
            }
            let from = if side > 0.0 { At::Left } else { At::Right };
            let unit = Unit::offset(self.system);
            let value = signed(toe_mm / unit.mm, unit.decimals);
            let (x, y) = at(z + side * 9.0, 0.5 * toward);
            // beside a toe that barely moved, the square line would run through the value
            paper.plated((x, y - 7.0), from, &value, VALUE, WHITE)?;
            paper.plated((x, y + 8.0), from, &format!("± {}", unit.bare(shape.toe_2s_mm)), SMALL, WHITE)?;
        }
        Ok(())
    }

    fn fillets(&self, paper: &Canvas<'_>, shape: &FlangeAngles, web_mm: f64) -> Done {
        let x_mm = self.station.x_mm();
        let half = 0.5 * shape.width_mm * self.scale;
        let face = 0.5 * self.thickness(web_mm);
        for (side, toe_mm, ink) in
            [(Side::Near, shape.near_toe_mm, BLUE), (Side::Far, shape.far_toe_mm, VERMILION)]
        {
            let here =
                |p: &&Pass| p.seam == shape.flange && p.side == side && p.from_mm <= x_mm && x_mm <= p.to_mm;
            let passes: Vec<&Pass> = self.job.passes.iter().filter(here).collect();
            let Some(leg_mm) = passes.iter().map(|p| p.leg_mm).max_by(f64::total_cmp) else { continue };
            let leg = (leg_mm * self.scale).max(THINNEST);
            let sign = side.sign();
            let lean = toe_mm * self.scale * self.times / half;
            let at = |z: f64, toward: f64| (self.middle + sign * z, self.level(shape.flange, toward));
            let toe = at(face + leg, lean * (face + leg));
            paper.fill(&[at(face, lean * face), toe, at(face, leg + lean * face)], ink, 1.0)?;
            let mut orders: Vec<String> = passes.iter().map(|p| p.order.to_string()).collect();
            orders.dedup();
            let plural = if orders.len() > 1 { "s" } else { "" };
            let from = if side == Side::Near { At::Left } else { At::Right };
            let (x, y) = at(face + 9.0, RISE + 18.0);
            let leg = format!("leg {}", show::plate(leg_mm, self.system));
            paper.text((x, y), from, &leg, SMALL.in_ink(ink))?;
            let y = if y < MIDDLE { y + 14.0 } else { y - 14.0 };
            let order = format!("step{plural} {}", orders.join(", "));
            paper.text((x, y), from, &order, SMALL.in_ink(ink))?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn every_stretch_of_both_flanges_is_a_station_and_the_worst_three_are_kept() {
        let job = sample::job();
        let prediction = sample::prediction(&job, 9.0, 3.0);
        assert_eq!(stations(&prediction.flanges).len(), 2, "one outer, two inner plates");
        let mut many = prediction.flanges.clone();
        many[0].to_mm = 1000.0;
        many.push(FlangeAngles { from_mm: 1000.0, to_mm: 2000.0, near_toe_mm: 9.9, ..many[0] });
        many.push(FlangeAngles { from_mm: 2000.0, to_mm: 9000.0, near_toe_mm: 0.1, ..many[0] });
        let kept = worst(stations(&many));
        assert_eq!(kept.len(), 3);
        assert!(kept.iter().any(|s| (s.largest_toe_mm() - 9.9).abs() < 1e-9), "the worst is kept");
        assert!(kept.windows(2).all(|p| p[0].from_mm < p[1].from_mm), "from start to finish");
    }
}
