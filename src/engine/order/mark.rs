//! One mark of the order: its chances, its work, and what prevention would save.

use super::case::Case;
use super::curve::{Curve, weight};
use super::drawn::Drawn;
use super::tally::Tally;
use super::what_if::Measure;
use super::work::{Basis, Planned, WorkKind};
use super::{Load, what_if};
use crate::straighten::cautions::CautionFacts;
use crate::straighten::plan::Block;
use crate::straighten::shape::OutOfStraight;
use crate::tolerance::Quantity;

/// Curves of a member: for each kind of work, as [`WorkKind::ALL`] has them, negative and positive sizes.
struct Curves([[Curve; 2]; 4]);

/// What is known of a mark once its pieces are planned.
pub(super) struct Worked {
    pub(crate) as_is: Tally,
    /// The same with a measure of prevention taken.
    pub(crate) prevented: Vec<(Measure, Tally)>,
    /// What stands in the way.
    pub blocks: Vec<Stop>,
    /// Worst facts of all plans.
    pub facts: CautionFacts,
    /// The piece whose pushes hold most energy.
    pub(crate) strongest: Option<OutOfStraight>,
    /// Part of the minutes that may be wrong because they are read off.
    pub may_be_wrong: f64,
    /// Full plans made.
    pub plans: usize,
}

/// What stands in the way of some pieces.
pub(super) struct Stop {
    pub quantity: Quantity,
    /// Method by method.
    pub blocks: Vec<Block>,
    /// Part of all pieces.
    pub part: f64,
}

/// Works out a mark from its drawn pieces; `nominal` is the shape the prediction expects.
pub(super) fn work(basis: &Basis, drawn: &Drawn, nominal: &OutOfStraight) -> Worked {
    let scenarios = what_if::scenarios(basis, drawn, nominal);
    let curves = Curves::new(basis, drawn, &scenarios);
    let mut blocks: Vec<Stop> = Vec::new();
    let count = drawn.cases.iter().flatten().count().max(1) as f64;
    let as_is: Vec<(Option<&Case>, Load)> = drawn
        .cases
        .iter()
        .map(|case| {
            let Some(case) = case else { return (None, Load::default()) };
            let (load, stops) = curves.load(basis, case);
            for stop in stops {
                let kind = |s: &Stop| -> Vec<_> { s.blocks.iter().map(|b| (b.method, b.limit)).collect() };
                let same = |b: &&mut Stop| b.quantity == stop.quantity && kind(b) == kind(&stop);
                match blocks.iter_mut().find(same) {
                    Some(known) => known.part += stop.part / count,
                    None => blocks.push(Stop { part: stop.part / count, ..stop }),
                }
            }
            (Some(case), load)
        })
        .collect();
    blocks.sort_by(|a, b| b.part.total_cmp(&a.part));
    let prevented = scenarios
        .iter()
        .map(|(measure, cases)| {
            let loads: Vec<(Option<&Case>, Load)> = cases
                .iter()
                .map(|c| (c.as_ref(), c.as_ref().map_or_else(Load::default, |c| curves.load(basis, c).0)))
                .collect();
            (*measure, Tally::of(&loads, drawn.each))
        })
        .collect();
    let minutes: f64 = as_is.iter().map(|(_, load)| weight(load)).sum();
    let wrong: f64 = curves.all().map(|c| c.may_be_wrong_min).sum();
    Worked {
        as_is: Tally::of(&as_is, drawn.each),
        prevented,
        blocks,
        facts: curves.facts(),
        strongest: curves.strongest(),
        may_be_wrong: if minutes > 0.0 { wrong / minutes + 0.0 } else { 0.0 },
        plans: curves.all().flat_map(Curve::plans).count(),
    }
}

impl Curves {
    fn new(basis: &Basis, drawn: &Drawn, scenarios: &[(Measure, Vec<Option<Case>>)]) -> Self {
        let all: Vec<&Case> = drawn.cases.iter().flatten().collect();
        // prevention may turn a distortion round: a side that no piece of today has is planned from those
        let other: Vec<&Case> = scenarios.iter().flat_map(|(_, cases)| cases.iter().flatten()).collect();
        let of = |kind| pair(basis, &all, &other, kind, &|case| case.clone());
        let toe = [of(WorkKind::ALL[0]), of(WorkKind::ALL[1])];
        let sweep = of(WorkKind::Sweep);
        let bent = |case: &Case| case.bent(basis, toe_shift(basis, &toe, case));
        let camber = pair(basis, &all, &other, WorkKind::Camber, &bent);
        let [outer, inner] = toe;
        Self([outer, inner, sweep, camber])
    }

    /// Curves of the order as it is.
    fn all(&self) -> impl Iterator<Item = &Curve> {
        self.0.iter().flatten().filter(|curve| !curve.imagined)
    }

    /// Work on a piece, and what stands in its way.
    fn load(&self, basis: &Basis, case: &Case) -> (Load, Vec<Stop>) {
        let mut load = basis.measuring(case.measured_again());
        let mut stops: Vec<Stop> = Vec::new();
        let bent = case.bent(basis, toe_shift(basis, &self.0[..2], case));
        let stranded = self.stranded(basis, case, &bent);
        let bent = if stranded.is_some() { case } else { &bent };
        for (kind, curves) in WorkKind::ALL.into_iter().zip(&self.0).filter(|(kind, _)| bent.asks(*kind)) {
            let mut planned = read(curves, bent.size(basis, kind));
            if let (WorkKind::Toe(_), Some(block)) = (kind, &stranded)
                && planned.camber_mm.abs() > 0.0
            {
                let load = Load { blocked: 1.0, ..Load::default() };
                planned = Planned { load, blocks: vec![block.clone()], ..Planned::default() };
            }
            load = load.beside(planned.load);
            let (quantity, part) = (kind.quantity(), planned.load.blocked);
            if part <= 0.0 {
                continue;
            }
            // both flanges of a piece are one quantity
            match stops.iter_mut().find(|s| s.quantity == quantity) {
                Some(known) if known.part >= part => {}
                Some(known) => *known = Stop { quantity, blocks: planned.blocks, part },
                None => stops.push(Stop { quantity, blocks: planned.blocks, part }),
            }
        }
        (load, stops)
    }

    /// Why the lines of heat on its flanges are not drawn, if no way takes back the camber that they leave.
    fn stranded(&self, basis: &Basis, case: &Case, bent: &Case) -> Option<Block> {
        if bent.shape == case.shape || !bent.asks(WorkKind::Camber) {
            return None;
        }
        let back = read(&self.0[3], bent.size(basis, WorkKind::Camber));
        let blocks = (back.load.blocked > 0.5).then_some(back.blocks)?;
        basis.lines_blocked([&case.shape, &bent.shape], &blocks)
    }

    fn facts(&self) -> CautionFacts {
        let all = self.all().flat_map(Curve::plans).filter_map(|planned| planned.facts);
        all.reduce(|a, b| a.worst(&b)).unwrap_or(CautionFacts::NOTHING)
    }

    fn strongest(&self) -> Option<OutOfStraight> {
        let stored = |p: &&Planned| p.facts.map_or(0.0, |f| f.stored_j);
        let plans = self.all().flat_map(Curve::plans).filter(|p| p.piece.is_some());
        plans.max_by(|a, b| stored(a).total_cmp(&stored(b))).and_then(|p| p.piece.clone())
    }
}

/// Camber that lines of heat on the flanges of a piece bring, mm.
fn toe_shift(basis: &Basis, toe: &[[Curve; 2]], case: &Case) -> f64 {
    let of = |(curves, kind): (&[Curve; 2], WorkKind)| {
        if case.asks(kind) { read(curves, case.size(basis, kind)).camber_mm } else { 0.0 }
    };
    toe.iter().zip([WorkKind::ALL[0], WorkKind::ALL[1]]).map(of).sum()
}

fn read(curves: &[Curve; 2], size: f64) -> Planned {
    curves[usize::from(size > 0.0)].at(size.abs())
}

/// Curves of one kind: negative, positive.
fn pair(
    basis: &Basis,
    cases: &[&Case],
    other: &[&Case],
    kind: WorkKind,
    bent: &dyn Fn(&Case) -> Case,
) -> [Curve; 2] {
    [false, true].map(|positive| {
        let sized = |cases: &[&Case]| -> Vec<(f64, Case)> {
            let asking = cases.iter().map(|case| bent(case)).filter(|case| case.asks(kind));
            let sized = asking.map(|case| (case.size(basis, kind), case));
            let mut found: Vec<(f64, Case)> = sized.filter(|(size, _)| (*size > 0.0) == positive).collect();
            found.sort_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
            found
        };
        let mut samples = sized(cases);
        let imagined = samples.is_empty();
        if imagined {
            samples = sized(other);
        }
        let sizes: Vec<f64> = samples.iter().map(|(size, _)| size.abs()).collect();
        let mut curve = Curve::through(&sizes, |i| basis.plan(&samples[i].1.shape, kind));
        curve.imagined = imagined;
        curve
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{check, file_of_text};
    use crate::order::Draws;
    use crate::order::basis::{basis, shape};
    use crate::prediction::{Wanted, predict, predict_only};
    use crate::shop::{Shop, read_text};

    /// Minutes, places and heats may differ by this part from planning every drawn piece: [`WITHIN`](crate::order::WITHIN) for
    /// what is read off between two sizes, and as much again and more for pieces whose shape is not that of their neighbours: plates and
    /// assembly give each its own bows and toes, whatever its welds do.
    const AGREES: f64 = 0.04;
    /// The same where rolled flanges are tilted: pieces are sorted by their cup, but tilt decides as well what rollers may do.
    const TILTED: f64 = 0.07;
    /// So may this part of the pieces that need it be blocked that are not.
    const BLOCKED: f64 = 0.04;
    /// Both where a limit is hardly wider than its guard band: then tenths of a millimetre between the pushes decide, and pieces
    /// of one size need not be planned alike.
    const NARROW: (f64, f64) = (0.06, 0.08);

    fn shop(press: bool, heat: bool) -> Shop {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/shop/shop.toml");
        let mut shop = read_text("shop.toml", &std::fs::read_to_string(path).unwrap()).unwrap();
        if !press {
            (shop.tools.press, shop.tools.roller) = (None, None);
        }
        if !heat {
            shop.tools.heat = None;
        }
        shop
    }

    /// Work read off, and the same with a full plan for every drawn piece.
    fn compared(stem: &str, limits: &str, shop: &Shop) -> (Load, Load, usize, f64) {
        let path = format!("{}/../../studies/jobs/{stem}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap().replace("[limits]\nsweep = \"L/1000\"", "");
        let file = file_of_text(stem, &format!("{text}\n{limits}")).unwrap_or_else(|c| panic!("{c}"));
        let job = check(&file).unwrap();
        let basis = basis(&job, &predict(&job), shop);
        let draws = Draws { bias: 15, pieces: 8, seed: 5 };
        let drawn = Drawn::new(&job, &file, draws, &basis, |shape| shape).unwrap();
        let expected = shape(&job, &predict_only(&job, &Wanted::SHAPE)).unwrap();
        let worked = work(&basis, &drawn, &expected);
        let sum = worked.as_is.load.iter().fold(Load::default(), |sum, load| sum + *load);
        let all = drawn.cases.iter().flatten().map(|case| basis.whole(&case.shape).load);
        let exact = all.fold(Load::default(), |sum, load| sum + load) * (1.0 / draws.pieces as f64);
        (sum, exact, worked.plans, worked.as_is.needs.iter().sum())
    }

    /// A piece that is only measured again costs its minutes: 2 min at 100 an hour are 3.33.
    #[test]
    fn money_and_hours_are_of_the_same_work() {
        let job = crate::job::read_text("starter.toml", crate::job::STARTER).unwrap();
        let mut basis = basis(&job, &predict(&job), &Shop::usual());
        basis.piece.goals = crate::straighten::plan::Goals {
            sweep: crate::straighten::decide::Limits::both(10.0, 1.0),
            ..crate::straighten::plan::Goals::NONE
        };
        let length = basis.member.length_mm;
        let (x, sweep) = (vec![0.0, 0.5 * length, length], vec![0.0, 9.5, 0.0]);
        let case = Case::new(&basis, OutOfStraight::new(length, x, vec![0.0; 3], sweep, vec![]).unwrap());
        let none = || [false; 2].map(|_| Curve::through(&[], |_| Planned::default()));
        let (load, stops) = Curves([none(), none(), none(), none()]).load(&basis, &case);
        println!("{} min, {} money", load.measure_min, load.money);
        assert!(stops.is_empty() && (load.measure_min - 2.0).abs() < 1e-12);
        assert!((load.money - 2.0 / 60.0 * 100.0).abs() < 1e-9);
    }

    #[test]
    fn work_read_off_is_that_of_planning_every_drawn_piece() {
        let usual = "[limits]\nsweep = \"6 mm\"\ncamber = \"6 mm\"\nflange_toe = \"2 mm\"\n\
                     [factors]\nforce = 1.5\ncup = 1.5\n";
        let narrow = "[limits]\nsweep = \"4 mm\"\ncamber = \"2 mm\"\nflange_toe = \"1 mm\"\n";
        let mut bias_and_scatter: Vec<String> = Vec::new();
        for (stem, press, heat, is_narrow) in [
            ("rafter", true, true, false),
            ("light", true, true, false),
            ("gallery_beam", false, true, false),
            ("us_beam", true, false, false),
            ("rafter", true, true, true),
            ("stall_rafter", false, true, true),
        ] {
            let shop = shop(press, heat);
            let limits = if is_narrow { narrow } else { usual };
            let (agrees, blocked) = match stem {
                _ if is_narrow => NARROW,
                "us_beam" => (TILTED, BLOCKED),
                _ => (AGREES, BLOCKED),
            };
            let (read, exact, plans, needing) = compared(stem, limits, &shop);
            println!(
                "{stem}, press {press}, heat {heat}, narrow {is_narrow}: {:.1} min read off with {plans} plans, {:.1} with all; \
                 of {needing:.2} blocked {:.2} and {:.2}, places {:.2} and {:.2}, heats {:.2} and {:.2}",
                read.minutes(),
                exact.minutes(),
                read.blocked,
                exact.blocked,
                read.push_places,
                exact.push_places,
                read.heats,
                exact.heats
            );
            let near = |a: f64, b: f64| (a - b).abs() <= agrees * b.abs() + 1e-9;
            let same = near(read.minutes(), exact.minutes())
                && near(read.push_places, exact.push_places)
                && near(read.heats, exact.heats)
                && (read.blocked - exact.blocked).abs() <= blocked * needing;
            if !same {
                bias_and_scatter.push(format!("{stem}, press {press}, heat {heat}, narrow {is_narrow}"));
            }
            assert!(exact.minutes() + exact.blocked > 0.0, "nothing to compare");
        }
        assert!(bias_and_scatter.is_empty(), "{bias_and_scatter:?}");
    }
}
