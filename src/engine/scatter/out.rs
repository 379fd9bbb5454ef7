//! How likely a piece of a job is out of the limits it is judged by: the one place that counts it. Whoever says a chance
//! (a verdict, a choice, a plan to straighten, an order) asks here, so that all say the same.
//!
//! Every piece is judged as a prediction is, at its own worst place. What the shop makes up for before welding, and what
//! another level of model predicts, moves every piece alike.

use super::{
    BiasAndScatter, Chance, Draws, PIECES_AT_ONCE, Pieces, Running, SamplingFault, bias_and_scatter,
    welding_alone,
};
use crate::prediction::uncertainty::{STRIP_ARM_BIAS, STRIP_FORCE_BIAS, STRIP_SEAM_BIAS};
use crate::prediction::{Job, JudgedSize, Prediction, judged_each, sizes_where};
use crate::tolerance::{DrawnSize, Likely, Quantity, Verdict};
use rayon::prelude::*;
use std::ops::Range;

/// Pieces that tell the chance if the model were right (choice: as many more would not change what is said).
const RIGHT_PIECES: usize = 1024;

/// What drawn pieces say of the verdicts on a job.
#[derive(Debug, Clone, PartialEq)]
pub struct OutOfLimits {
    /// For each verdict how likely it is passed.
    pub likely: Vec<Likely>,
    /// And its size.
    pub sizes: Vec<DrawnSize>,
    /// Pieces drawn.
    pub drawn: usize,
    /// Pieces that made no job.
    pub failed: usize,
    each: usize,
    /// What each verdict judges.
    quantities: Vec<Quantity>,
    /// One bit a verdict for each piece, with the bias as drawn and at its middle; none of a piece that made no job.
    pieces: Vec<Option<u128>>,
    right: Vec<Option<u128>>,
    /// The same pieces by their welds alone; none if plates bring nothing.
    welds: Option<Vec<Option<u128>>>,
}

/// A piece as judged.
#[derive(Debug, Clone)]
struct Judged {
    out: u128,
    sizes: Vec<f64>,
    /// By its welds alone.
    welds: u128,
    /// What plates add to each size, mm.
    plates: Vec<f64>,
}

/// Draws pieces of a job and judges them. `verdicts` are those of the prediction that is shown; `met` is the size that a
/// verdict is expected to meet: its own, or what is left of it once the shop has made up for it.
///
/// # Errors
/// Draws that cannot be drawn.
pub fn out_of_limits(
    job: &Job,
    verdicts: &[Verdict],
    draws: Draws,
    met: impl Fn(&Verdict) -> f64,
) -> Result<OutOfLimits, SamplingFault> {
    counted(job, verdicts, draws, met, Until::Told { right: RIGHT_PIECES })
}

/// The same pieces, but only until it is known that more than `most` of them are out, and none of a right model: for a search that
/// asks whether enough are inside. What was drawn until then is told of; that depends on no thread.
///
/// # Errors
/// As [`out_of_limits`].
pub fn out_at_most(
    job: &Job,
    verdicts: &[Verdict],
    draws: Draws,
    met: impl Fn(&Verdict) -> f64,
    most: usize,
) -> Result<OutOfLimits, SamplingFault> {
    counted(job, verdicts, draws, met, Until::MoreOut { most })
}

/// How far drawing goes.
#[derive(Clone, Copy)]
enum Until {
    /// All pieces, and so many of a right model.
    Told { right: usize },
    /// No further than until more than so many are out.
    MoreOut { most: usize },
}

/// Draws of the bias that are drawn before it is asked whether more are needed (choice: enough work for all cores).
const DRAWS_AT_ONCE: usize = 32;

fn counted(
    job: &Job,
    verdicts: &[Verdict],
    draws: Draws,
    met: impl Fn(&Verdict) -> f64,
    until: Until,
) -> Result<OutOfLimits, SamplingFault> {
    let light = Job { carries: None, notes: Vec::new(), title: String::new(), ..job.clone() };
    let pieces = Pieces::new(&light, draws, 0)?;
    // verdicts of one job come in one order, whatever the piece
    let nominal = sizes_where(&light, verdicts);
    let moved: Vec<f64> = verdicts.iter().zip(nominal).map(|(v, nominal)| met(v) - nominal).collect();
    // each piece, and beside it the same of a right model while so many are wanted: their scatter is drawn once
    let drawn = |which: Range<usize>, right: usize| {
        let starts: Vec<usize> = which.clone().step_by(PIECES_AT_ONCE).collect();
        let rows = starts.into_par_iter().map_init(
            || pieces.room(),
            |room, from| {
                let asked = (from..which.end.min(from + PIECES_AT_ONCE))
                    .flat_map(|n| [Some((n, true)), (n < right).then_some((n, false))])
                    .flatten();
                let (jobs, there) = pieces.row(asked.clone(), room);
                let mut judged = Vec::with_capacity(jobs.len());
                judged_each(jobs, |sizes| judged.push(Judged::of(sizes, &moved)));
                let mut judged = judged.into_iter();
                let each = asked
                    .zip(there)
                    .map(|((_, biased), there)| (biased, there.then(|| judged.next()).flatten()));
                each.collect::<Vec<(bool, Option<Judged>)>>()
            },
        );
        let (mut all, mut of_right) = (Vec::new(), Vec::new());
        for (biased, judged) in rows.collect::<Vec<_>>().into_iter().flatten() {
            if biased { all.push(judged) } else { of_right.push(judged) }
        }
        (all, of_right)
    };
    let (all, right) = match until {
        Until::Told { right: count } => drawn(0..pieces.count(), count),
        Until::MoreOut { most } => {
            let mut all = Vec::with_capacity(pieces.count());
            let out = |all: &[Option<Judged>]| all.iter().flatten().filter(|j| j.out != 0).count();
            while all.len() < pieces.count() && out(&all) <= most {
                let next = (all.len() + DRAWS_AT_ONCE * pieces.each()).min(pieces.count());
                all.extend(drawn(all.len()..next, 0).0);
            }
            (all, Vec::new())
        }
    };
    let bits = |of: &[Option<Judged>], which: fn(&Judged) -> u128| {
        of.iter().map(|j| j.as_ref().map(which)).collect::<Vec<_>>()
    };
    let mut found = OutOfLimits {
        likely: Vec::new(),
        sizes: Vec::new(),
        drawn: all.len(),
        failed: all.iter().filter(|j| j.is_none()).count(),
        each: pieces.each(),
        quantities: verdicts.iter().map(|v| v.quantity).collect(),
        pieces: bits(&all, |j| j.out),
        right: bits(&right, |j| j.out),
        welds: (!welding_alone(&light)).then(|| bits(&all, |j| j.welds)),
    };
    for at in 0..moved.len() {
        let of = |size: fn(&Judged) -> &Vec<f64>| -> Vec<f64> {
            all.iter().map(|j| j.as_ref().map_or(f64::NAN, |j| size(j)[at])).collect()
        };
        found.likely.push(found.counted(1_u128 << at));
        found.sizes.push(size(&of(|j| &j.sizes), &of(|j| &j.plates), found.each));
    }
    Ok(found)
}

/// Draws pieces of a job and writes into each verdict of its prediction how likely it is passed, with the deviations of the
/// level of model that made the prediction.
pub fn say_chances(job: &Job, prediction: &mut Prediction) {
    if prediction.verdicts.is_empty() {
        return;
    }
    let by_strip = || {
        let mut own = job.own_spread.as_deref().cloned().unwrap_or_default();
        own.entry("force".to_owned()).or_insert(STRIP_FORCE_BIAS);
        own.entry("arm".to_owned()).or_insert(STRIP_ARM_BIAS);
        for seam in ["seam_one_side", "seam_both_sides", "second_side"] {
            own.entry(seam.to_owned()).or_insert(STRIP_SEAM_BIAS);
        }
        // what was learned is how far the formulas are off
        job.unlearned().spread_as(own)
    };
    let bare = prediction.strip.is_some().then(by_strip);
    let job = bare.as_ref().unwrap_or(job);
    let verdicts = &mut prediction.verdicts;
    // the usual draws can be drawn whatever the job
    let Ok(found) = out_of_limits(job, verdicts, Draws::USUAL, |v| v.value) else { return };
    for ((verdict, likely), size) in verdicts.iter_mut().zip(&found.likely).zip(&found.sizes) {
        (verdict.likely, verdict.drawn) = (Some(*likely), Some(*size));
    }
}

impl Judged {
    fn of([with, welds]: [&[JudgedSize]; 2], moved: &[f64]) -> Self {
        let room = || Vec::with_capacity(moved.len());
        let mut one = Self { out: 0, sizes: room(), welds: 0, plates: room() };
        for (at, ((with, welds), by)) in with.iter().zip(welds).zip(moved).enumerate() {
            let [(out, size), (by_welds, of_welds)] = [with, welds].map(|judged| {
                let value = judged.value_mm + by;
                let signed = matches!(
                    judged.quantity,
                    Quantity::Camber | Quantity::Sweep | Quantity::Twist | Quantity::Length
                );
                let out = u128::from(value.abs() > judged.band.side_mm(value)) << at;
                (out, if signed { value } else { value.abs() })
            });
            one.out |= out;
            one.welds |= by_welds;
            one.sizes.push(size);
            one.plates.push(size - of_welds);
        }
        one
    }
}

impl OutOfLimits {
    /// How likely any limit on these quantities is passed.
    pub fn of(&self, is: impl Fn(Quantity) -> bool) -> Likely {
        let bits = self.quantities.iter().enumerate().filter(|(_, q)| is(**q));
        self.counted(bits.fold(0, |mask, (at, _)| mask | 1_u128 << at))
    }

    /// How likely any limit at all is passed.
    pub fn any(&self) -> Likely {
        self.of(|_| true)
    }

    fn counted(&self, mask: u128) -> Likely {
        let out = |all: &[Option<u128>]| -> Vec<f64> {
            all.iter()
                .map(|bits| bits.map_or(f64::NAN, |bits| f64::from(u8::from(bits & mask != 0))))
                .collect()
        };
        let likely = Likely::counted(&out(&self.pieces), &out(&self.right), self.each);
        let welds = self.welds.as_ref().and_then(|welds| Chance::count(&out(welds), |x| x > 0.5).fraction());
        Likely { from_welding_alone: welds, ..likely }
    }
}

/// Mean and deviations of a size, by the analysis of variance of `bias_and_scatter`.
fn size(sizes: &[f64], plates: &[f64], each: usize) -> DrawnSize {
    let plates_sd_mm = Running::of(plates).sd().unwrap_or(0.0);
    let mean_mm = Running::of(sizes).mean().unwrap_or(0.0);
    let (bias_sd_mm, scatter_sd_mm) =
        bias_and_scatter(sizes, each, &[], |_| false).map_or((0.0, 0.0), |a| (a.bias_sd, a.scatter_sd));
    DrawnSize { mean_mm, bias_sd_mm, scatter_sd_mm, plates_sd_mm }
}

impl Likely {
    /// Counts ones and zeros: pieces draw after draw of the bias, `each` of them a draw, and pieces with the bias at its
    /// middle. NaN is a piece that makes no job.
    pub fn counted(pieces: &[f64], right: &[f64], each: usize) -> Self {
        let out = |x: f64| x > 0.5;
        match bias_and_scatter(pieces, each, right, out) {
            Ok(found) => Self::from(&found),
            Err(_) => {
                let all = Chance::count(pieces, out).fraction().unwrap_or(0.0);
                let right = Chance::count(right, out);
                Self {
                    chance: all,
                    range: (all, all),
                    if_model_right: right.fraction(),
                    if_model_right_error: right.standard_error(),
                    ..Self::default()
                }
            }
        }
    }
}

/// A chance this near to none or all is told by what the count can tell apart from it: in hundredths of a per cent it would read as
/// nothing (choice).
const AS_GOOD_AS_NONE: f64 = 0.5e-4;

/// How far from none, or all, a chance may be of which as good as none, or all, of so many cases were out; None where others were.
fn no_further(chance: f64, cases: usize) -> Option<f64> {
    let most = Chance { out: 0, of: cases, failed: 0 }.at_most()?;
    (chance.min(1.0 - chance) <= AS_GOOD_AS_NONE.min(most)).then_some(most)
}

impl Likely {
    /// The chance of cases that share nothing; None if nothing was counted.
    pub fn of(cases: &Chance) -> Option<Self> {
        let (chance, standard_error) = (cases.fraction()?, cases.standard_error()?);
        let at_most = no_further(chance, cases.of);
        Some(Self { chance, standard_error, at_most, range: (chance, chance), ..Self::default() })
    }
}

impl From<&BiasAndScatter> for Likely {
    fn from(found: &BiasAndScatter) -> Self {
        let right = found.model_right;
        Self {
            chance: found.overall.0,
            standard_error: found.overall.1,
            // pieces of one draw share their bias: only the draws count as cases
            at_most: no_further(found.overall.0, found.draws),
            if_model_right: right.fraction(),
            if_model_right_error: right.standard_error(),
            range: found.range,
            from_welding_alone: None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};
    use crate::prediction::{judged, predict};
    use crate::tolerance::Set;

    const FEW: Draws = Draws { bias: 30, pieces: 5, seed: 7 };

    fn likely(job: &Job) -> Vec<(Verdict, Likely)> {
        let verdicts = predict(job).verdicts;
        let found = out_of_limits(job, &verdicts, FEW, |v| v.value).unwrap();
        verdicts.into_iter().zip(found.likely).collect()
    }

    #[test]
    fn a_limit_is_passed_as_often_among_all_limits_as_alone() {
        let starter = read_text("starter", STARTER).unwrap();
        let with =
            |sets: Vec<Set>| likely(&Job { tolerances: sets, own_limits: Vec::new(), ..starter.clone() });
        let all = with(Set::all().collect());
        let most = all.len() + Quantity::ALL.len();
        assert!(all.len() > 64 && most <= u128::BITS as usize, "{most} limits, one bit each");
        for set in Set::all() {
            for (alone, chance) in with(vec![set]) {
                let same = |v: &Verdict| {
                    v.set == alone.set && (v.quantity, v.clause) == (alone.quantity, alone.clause)
                };
                let (_, among) = all.iter().find(|(v, _)| same(v)).unwrap();
                assert_eq!(*among, chance, "{} {:?}", alone.set, alone.quantity);
            }
        }
    }

    /// A verdict on the web stands where it may wave most, a piece is judged where it waves most: what one place is off by is no matter of the other.
    #[test]
    fn pieces_of_a_tapered_web_are_out_as_often_as_they_are_judged_so() {
        let text = "tolerances = [\"metal-building\"]\n[member]\nlength = \"10 m\"\nsteel = \"S355\"\n\
                    depth = [[\"0 m\", \"350 mm\"], [\"10 m\", \"1000 mm\"]]\nweb = [{ thickness = \"5 mm\" }]\n\
                    outer_flange = [{ width = \"200 mm\", thickness = \"10 mm\" }]\n\
                    inner_flange = [{ width = \"200 mm\", thickness = \"10 mm\" }]\n\
                    [[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"6 mm\"\n\
                    [[pass]]\nseam = \"inner\"\nside = \"near\"\nleg = \"6 mm\"\n";
        let job = read_text("tapered", text).unwrap();
        let pieces = Pieces::new(&job, FEW, 0).unwrap();
        let mut room = pieces.room();
        let counted = |quantity: Quantity, room: &mut _| {
            let out = |n: &usize| {
                let Ok(piece) = pieces.piece(*n, room) else { return false };
                judged(piece).iter().any(|v| v.quantity == quantity && v.value.abs() > v.limit)
            };
            (0..pieces.count()).filter(out).count() as f64 / pieces.count() as f64
        };
        for (verdict, likely) in likely(&job) {
            let want = counted(verdict.quantity, &mut room);
            assert!(
                (likely.chance - want).abs() < 1e-12,
                "{:?}: {} said, {want} counted",
                verdict.quantity,
                likely.chance
            );
        }
    }
}
