//! Ways to bring a flange back to square, stretch by stretch.

use super::cups::{Cups, SLIVER_MM, Station, Stretch};
use super::price::{Price, fails};
use super::{Block, BlockingLimit, Roller, Step, StraighteningMethod, Task, Way, Work};
use crate::member::Seam;
use crate::straighten::flange::{Fold, STRAIN_LIMIT, Torch, fold, most_angle_rad, passes};
use crate::tolerance::Quantity;
use crate::units::{Message, Part};

/// Scatter of a rolled angle over the angle, after calibration on the first metre (choice).
const ROLLED_SD: f64 = 0.15;
/// The same of a heated one (choice).
const HEATED_SD: f64 = 0.35;
const AFTER: [&str; 3] = [
    "toes with a square on the web, two stations a metre or yard",
    "weld toes for cracks",
    "camber and sweep",
];

/// What helps where a toe is out at a place that holds the flange.
const BEFORE_IT_IS_HELD: &str = "bend the flange back before what holds it is welded on, cut it free first, or the engineer's word on the toe as it is";
/// The same on a stretch to keep off.
const LIFT_IT: &str = "lift the stretch to keep off, or the engineer's word on the toe as it is";
/// What helps where nothing takes back the camber that lines bring.
const TAKEN_BACK: &str = "rollers or dies, or first what the camber step needs";

/// Two numbers in as many places as it takes to tell them apart.
fn told_apart(numbers: [f64; 2]) -> [String; 2] {
    let with = |places: usize| numbers.map(|number| format!("{number:.places$}"));
    let apart = |[one, other]: &[String; 2]| one != other;
    (1..6).map(with).find(apart).unwrap_or_else(|| with(6))
}

/// A strain over the limit.
fn too_far(strain: f64) -> String {
    let [found, _] = told_apart([strain, STRAIN_LIMIT].map(|part| 100.0 * part));
    let most = 100.0 * STRAIN_LIMIT;
    format!("even the least bend strains the weld toes by {found} %, {most:.1} % allowed (our limit)")
}

/// Every way for one flange, and every block; none if nothing of it is to be bent back. Camber that a way brings stands in its passes;
/// `no_lines`: why no lines of heat are to be drawn, if they are not.
pub(super) fn ways(
    task: &Task<'_>,
    seam: Seam,
    cold: bool,
    heat: bool,
    no_lines: Option<&Message>,
) -> Vec<Result<Way, Block>> {
    let cups = Cups::of(task, seam);
    if let Some((found, kept_off)) = cups.out_of_reach() {
        let help = if kept_off { LIFT_IT } else { BEFORE_IT_IS_HELD };
        let block = |method| Err(Block::new(method, BlockingLimit::Places, found.clone(), help));
        return vec![block(ROLLED), block(LINES)];
    }
    if cups.stretches.is_empty() {
        return Vec::new();
    }
    let drawn = lines(task, &cups, heat).and_then(|way| match no_lines {
        Some(why) => Err(lines_blocked(why.clone())),
        None => Ok(way),
    });
    vec![rolled(task, &cups, cold), drawn]
}

/// Work on one plate of a stretch.
struct Piece {
    ends_mm: [f64; 2],
    /// Angle it takes away, rad.
    taken: f64,
    /// How often the tool goes along it.
    runs: f64,
    work: Work,
}

/// What a stretch is bent by at a place of it, rad; nothing where it is not bent.
fn taken_at(pieces: &[Piece], x_mm: f64) -> f64 {
    let away = |p: &Piece| (p.ends_mm[0] - x_mm).max(x_mm - p.ends_mm[1]).max(0.0);
    let near = pieces.iter().filter(|p| away(p) <= SLIVER_MM);
    near.min_by(|a, b| away(a).total_cmp(&away(b))).map_or(0.0, |p| p.taken)
}

/// The way of stretches that are bent by their pieces, judged at every station of the flange.
fn way(
    task: &Task<'_>,
    cups: &Cups,
    method: StraighteningMethod,
    scatter: f64,
    done: Vec<Vec<Piece>>,
) -> Way {
    let rates = &task.shop.rates;
    let (mut left_mm, mut sd_mm) = (0.0_f64, 0.0_f64);
    let mut out = |s: &Station, taken: f64| {
        let (left, sd) = (s.mm(s.angle.abs() - taken).abs(), scatter * s.mm(taken));
        (left_mm, sd_mm) = (left_mm.max(left), sd_mm.max(sd));
        fails(left, sd.hypot(s.read_mm), s.room_mm)
    };
    // stations of one stretch are off together: the worst of them counts
    let mut inside = 1.0;
    for (stretch, pieces) in cups.stretches.iter().zip(&done) {
        let worst = stretch.stations.iter().map(|s| out(s, taken_at(pieces, s.x_mm))).fold(0.0, f64::max);
        inside *= 1.0 - worst;
    }
    let bent = |s: &Station| cups.stretches.iter().any(|stretch| stretch.stations.contains(s));
    let rest = cups.stations.iter().filter(|s| !bent(s)).map(|s| out(s, 0.0)).fold(0.0, f64::max);
    let failing = 1.0 - inside * (1.0 - rest);
    let pieces: Vec<Piece> = done.into_iter().flatten().collect();
    let setup =
        if method == StraighteningMethod::Roller { rates.press_setup_min } else { rates.heat_setup_min };
    let all: f64 = pieces.iter().map(|p| p.runs).sum();
    let consumed = if method == StraighteningMethod::LineHeat { all * rates.per_heat } else { 0.0 };
    let runs = pieces.iter().map(|p| (p.runs, p.ends_mm[1] - p.ends_mm[0]));
    let price = Price::runs(rates, setup, runs, consumed, failing);
    let step = |(i, piece): (usize, Piece)| Step {
        number: i + 1,
        quantity: Quantity::FlangeToe,
        side: match cups.seam {
            Seam::Outer => "outer flange",
            Seam::Inner => "inner flange",
        },
        work: piece.work,
        check_after: AFTER.to_vec(),
    };
    Way {
        method,
        steps: pieces.into_iter().enumerate().map(step).collect(),
        left_mm,
        left_sd_mm: sd_mm,
        price,
    }
}

const ROLLED: &str = "rollers or dies on the flange";

fn rolled(task: &Task<'_>, cups: &Cups, refused: bool) -> Result<Way, Block> {
    if refused {
        return Err(Block::refused(ROLLED, "cold work"));
    }
    let none = || Block::no_tool(ROLLED, "no rollers or dies", "give their sizes and force");
    let rollers = task.shop.roller.ok_or_else(none)?;
    let done: Result<Vec<_>, Block> =
        cups.stretches.iter().map(|s| folded(task, &rollers, cups, s)).collect();
    Ok(way(task, cups, StraighteningMethod::Roller, ROLLED_SD, done?))
}

/// The largest bend of a stretch up to half of the limit that strains the weld toes no more than allowed and leaves none of its
/// stations outside; at least what the limit asks for.
fn folded(task: &Task<'_>, r: &Roller, cups: &Cups, stretch: &Stretch) -> Result<Vec<Piece>, Block> {
    let [most, least] = stretch.wanted(ROLLED_SD);
    // what is just inside the limit may come out beyond it: the price tells the chance
    let [_, just] = stretch.wanted(0.0);
    let mut found = folded_by(task, r, cups, stretch, most);
    for taken in [least, just] {
        if matches!(&found, Err(b) if matches!(b.limit, BlockingLimit::Strain | BlockingLimit::NoMethod)) {
            found = folded_by(task, r, cups, stretch, taken);
        }
    }
    found
}

fn folded_by(
    task: &Task<'_>,
    r: &Roller,
    cups: &Cups,
    stretch: &Stretch,
    taken: f64,
) -> Result<Vec<Piece>, Block> {
    let block = |limit, found: Message, help: &'static str| Block::new(ROLLED, limit, found, help);
    if let Some((found, help)) = stretch.misses(&|_| taken) {
        return Err(block(BlockingLimit::NoMethod, found, help));
    }
    let one = |(ends_mm, (_, thickness)): ([f64; 2], (f64, f64))| {
        let bend = fold(taken, thickness, r.bend_mm, r.arm_mm, r.contact_mm, &task.member.steel);
        let bend: Fold =
            bend.map_err(|e| block(BlockingLimit::NoMethod, e.to_string().into(), "measure the toes again"))?;
        let [from_mm, to_mm] = ends_mm;
        let plate = [Part::Plate(thickness), Part::Position(from_mm), Part::Position(to_mm)];
        if !bend.allowed {
            let found =
                Message::from(too_far(bend.strain)).then(Message::of(", plate of {} from {} to {}", plate));
            let help = "a wider bend (rounder dies), several stands, or line heat";
            return Err(block(BlockingLimit::Strain, found, help));
        }
        if bend.force_n > r.most_n {
            let forces =
                Message::of("{} needed, {} in the rollers", [bend.force_n, r.most_n].map(Part::Force));
            let found = forces.then(Message::of(", plate of {} from {} to {}", plate));
            return Err(block(BlockingLimit::Force, found, "a shorter contact, a longer arm, or line heat"));
        }
        let angle_rad = stretch.sign() * taken;
        let (flange, stops) = (cups.seam, cups.stops(ends_mm));
        let work = Work::Fold { flange, from_mm, to_mm, angle_rad, fold: bend, stops };
        Ok(Piece { ends_mm, taken, runs: 1.0, work })
    };
    stretch.plates(task, cups, stretch.ends_mm(taken)).into_iter().map(one).collect()
}

/// Lines that are not drawn because nothing takes back the camber that they bring.
pub(crate) fn lines_blocked(why: Message) -> Block {
    Block::new(LINES, BlockingLimit::NoMethod, why, TAKEN_BACK)
}

const LINES: &str = "lines of heat on the back of the flange";

fn lines(task: &Task<'_>, cups: &Cups, refused: bool) -> Result<Way, Block> {
    if refused {
        return Err(Block::refused(LINES, "heat"));
    }
    let none = || Block::no_tool(LINES, "no torches", "give torch and heat");
    let torch = task.shop.heat.ok_or_else(none)?.torch;
    task.most_c().ok_or_else(|| Block::no_limit(LINES))?;
    if let Some(away) = cups.stretches.iter().find(|s| s.sign() < 0.0) {
        let found = Message::of(
            "at {} the halves bend away from the web; a line on the back makes it worse",
            [Part::Position(away.worst().x_mm)],
        );
        return Err(Block::new(LINES, BlockingLimit::NoMethod, found, "press"));
    }
    let one = |stretch: &Stretch| {
        // as few lines as bring the cup to half of the limit, or if that takes too many just inside it
        let [most, least] = stretch.wanted(0.0);
        drawn(task, &torch, cups, stretch, most).or_else(|_| drawn(task, &torch, cups, stretch, least))
    };
    let done: Result<Vec<_>, Block> = cups.stretches.iter().map(one).collect();
    Ok(way(task, cups, StraighteningMethod::LineHeat, HEATED_SD, done?))
}

/// The lines that take at least that angle (rad) from a stretch.
fn drawn(
    task: &Task<'_>,
    torch: &Torch,
    cups: &Cups,
    stretch: &Stretch,
    least: f64,
) -> Result<Vec<Piece>, Block> {
    let whole = stretch.worst().angle;
    let one = |(ends_mm, (_, thickness)): ([f64; 2], (f64, f64))| {
        let Some(found) = passes(task.member, cups.seam, ends_mm, [whole, whole - least], torch) else {
            let [from, to] = ends_mm.map(Part::Position);
            let angles = [most_angle_rad(torch, thickness), least].map(f64::to_degrees);
            let [most, wanted] = told_apart(angles).map(|angle| Part::from(format!("{angle}°")));
            let found = Message::of(
                "six lines, one on the other (our limit), turn the halves of the plate of {} from {} to {} by {}, at least {} is wanted",
                [Part::Plate(thickness), from, to, most, wanted],
            );
            let help = "a torch that heats to about 0.79 of the thickness, rollers or dies";
            return Err(Block::new(LINES, BlockingLimit::Heats, found, help));
        };
        let [from_mm, to_mm] = ends_mm;
        let (taken, runs) = (found.angle_rad, f64::from(found.count));
        let (flange, stops) = (cups.seam, cups.stops(ends_mm));
        Ok(Piece { ends_mm, taken, runs, work: Work::Lines { flange, from_mm, to_mm, passes: found, stops } })
    };
    let pieces: Result<Vec<_>, Block> =
        stretch.plates(task, cups, stretch.ends_mm(least)).into_iter().map(one).collect();
    let pieces = pieces?;
    match stretch.misses(&|x| taken_at(&pieces, x)) {
        Some((found, help)) => Err(Block::new(LINES, BlockingLimit::NoMethod, found, help)),
        None => Ok(pieces),
    }
}

#[cfg(test)]
mod tests {
    use super::{told_apart, too_far};

    /// "Turn … by 1.9°, at least 1.9° is wanted."
    #[test]
    fn what_falls_just_short_is_seen_to_fall_short() {
        assert_eq!(told_apart([1.91, 1.94]), ["1.91", "1.94"]);
        assert_eq!(told_apart([1.9, 2.4]), ["1.9", "2.4"]);
    }

    #[test]
    fn a_strain_just_over_the_limit_is_seen_to_be_over_it() {
        for (strain, said) in [(0.018, "1.8 %,"), (0.0152, "1.52 %,"), (0.015_02, "1.502 %,")] {
            let text = too_far(strain);
            assert!(text.contains(said) && text.contains("1.5 % allowed"), "{strain}: {text}");
        }
    }
}
