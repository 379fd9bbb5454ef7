//! What a study keeps of every case: names of results, with their units and words for axes.

use super::joint::{After, JointNumbers, NumbersOf, PARTS};
use super::results::{AFTER_FIRST, ALL, ESTIMATED, FLANGE, MASS, PASS, ReadFrom, VERDICT, WARNINGS};
use crate::input::Hint;
use crate::input::near::{listed, meant, nearest};
use crate::member::Seam;
use crate::prediction::{Outside, Prediction, Wanted};
use crate::shrinkage::published::METHODS;
use crate::tolerance::{Quantities, Quantity};
use crate::welding::Side;

/// One result.
#[derive(Debug, Clone)]
pub struct Collected {
    /// Its name, as in the study file; the column's name.
    pub name: String,
    /// For an axis.
    pub words: String,
    /// Unit: "mm", "mrad", "N", …; empty for pure numbers.
    pub unit: &'static str,
    read: ReadFrom,
}

impl Collected {
    /// The seam whose joint has to be solved for it, if any.
    pub const fn joint(&self) -> Option<Seam> {
        match self.read {
            ReadFrom::Joint(_, seam, ..) => Some(seam),
            _ => None,
        }
    }

    /// The seam along which an arc has to travel for it, if any.
    pub const fn travelled(&self) -> Option<Seam> {
        match self.read {
            ReadFrom::Joint(NumbersOf::Moving, seam, ..) => Some(seam),
            _ => None,
        }
    }

    /// Whether it counts warnings: the job of a case is then made through its file, which holds its legs, heats and plates
    /// against each other.
    pub fn warns(&self) -> bool {
        self.name == WARNINGS
    }

    /// Asks for what it is read from.
    pub fn ask(&self, wanted: &mut Wanted) {
        match self.read {
            ReadFrom::Bow(_) | ReadFrom::Joint(..) => {}
            ReadFrom::Plain(_) => {
                // a straight member bows where it is least sure
                wanted.spreads |= self.name.ends_with(".at_mm") || self.name.contains("_2s");
                wanted.mass |= self.name == MASS;
                wanted.build_up |= self.name == AFTER_FIRST;
                wanted.words |= self.warns();
                wanted.twist |= self.name.starts_with("twist.");
            }
            ReadFrom::Flange(..) => {
                wanted.spreads |= self.name.contains("_2s");
                wanted.flanges = true;
            }
            ReadFrom::Pass(..) => wanted.passes = true,
            ReadFrom::Ripple(_) => {
                wanted.ripple = true;
                wanted.waves |= self.name.starts_with("ripple.wave");
            }
            ReadFrom::Estimate(..) => wanted.estimates = true,
            ReadFrom::Verdict(quantity, _) => {
                wanted.spreads |= self.name.ends_with(".out");
                wanted.verdicts = quantity.map_or(Quantities::ALL, |of| wanted.verdicts.with(of));
            }
        }
    }

    /// Whether it is no number because that is outside the model.
    pub fn is_hidden_by(&self, outside: &Outside) -> bool {
        let mut words = self.name.split('.');
        let (first, second) = (words.next().unwrap_or_default(), words.next());
        let has = |word: &str| outside.fields.contains(&word);
        // the tightest of all limits is judged by every shape
        has(first) || first == "verdicts" && second.is_some_and(|of| of == "any" || has(of))
    }

    /// Its value; NaN where there is none (no such pass, no such verdict, no such joint).
    pub fn of(&self, p: Option<&Prediction>, joints: &[Option<JointNumbers>; 2]) -> f64 {
        if let ReadFrom::Joint(source, seam, after, read) = self.read {
            return joints[seam as usize].map_or(f64::NAN, |joint| joint.read(source, after, read));
        }
        let Some(p) = p else { return f64::NAN };
        let farthest = |a: f64, b: f64| if b.abs() > a.abs() || a.is_nan() { b } else { a };
        match self.read {
            ReadFrom::Bow(read) | ReadFrom::Plain(read) => read(p),
            ReadFrom::Flange(seam, read) => {
                p.flanges.iter().filter(|f| f.flange == seam).map(read).fold(f64::NAN, farthest)
            }
            ReadFrom::Pass(seam, side, read) => {
                p.passes.iter().find(|x| x.seam == seam && x.side == side).map_or(f64::NAN, read)
            }
            ReadFrom::Joint(..) => f64::NAN,
            ReadFrom::Ripple(read) => p.ripple.iter().map(read).fold(f64::NAN, farthest),
            ReadFrom::Estimate(quantity, method) => {
                let found = p.estimates.iter().find(|e| e.quantity == quantity && e.method == method);
                found.map_or(f64::NAN, |e| e.value)
            }
            ReadFrom::Verdict(quantity, read) => p
                .verdicts
                .iter()
                .filter(|v| quantity.is_none_or(|q| v.quantity == q))
                .min_by(|a, b| a.margin.total_cmp(&b.margin))
                .map_or(f64::NAN, read),
        }
    }
}

/// A name that is no result.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoResult {
    /// What would be right.
    pub wanted: String,
    /// What helps: the name probably meant.
    pub hint: Hint,
}

/// Results of that name: one, or for `estimates.…` one a method.
///
/// # Errors
/// [`NoResult`] with the nearest names.
pub fn collected(name: &str) -> Result<Vec<Collected>, NoResult> {
    if let Some((_, found)) = all().into_iter().find(|(known, _)| known == name) {
        return Ok(found);
    }
    let names = names();
    let near = nearest(name, names.iter().map(String::as_str));
    let head = name.split('.').next().unwrap_or(name);
    let family: Vec<&str> =
        names.iter().map(String::as_str).filter(|n| n.split('.').next() == Some(head)).collect();
    let wanted = match (near, family.as_slice()) {
        (Some(near), _) => format!("did you mean `{near}`? `weldbow study --results` lists all"),
        (None, []) => "a result; `weldbow study --results` lists all".to_owned(),
        (None, family) => format!("one of {}", listed(family.iter().copied())),
    };
    // a short name is what the results of that name begin with
    let short: Vec<&str> = family.iter().copied().filter(|n| n.ends_with(".max_mm") || *n == name).collect();
    let sure = match short.as_slice() {
        [one] if head == name => Some(*one),
        _ => near.filter(|near| near.starts_with(name) || meant(name, &[*near]).is_some()),
    };
    Err(NoResult { wanted, hint: sure.map_or(Hint::Nothing, |name| Hint::Value(format!("{name:?}"))) })
}

/// Every name that can be collected.
pub fn names() -> Vec<String> {
    all().into_iter().map(|(name, _)| name).collect()
}

/// Every name, with the results of that name.
fn all() -> Vec<(String, Vec<Collected>)> {
    let one =
        |name: String, words: String, unit, read| (name.clone(), vec![Collected { name, words, unit, read }]);
    let mut all: Vec<_> = ALL
        .iter()
        .map(|(name, words, unit, read)| one((*name).to_owned(), (*words).to_owned(), *unit, *read))
        .collect();
    for seam in Seam::BOTH {
        let flange = format!("{} flange", seam.name());
        all.extend(FLANGE.iter().map(|(part, words, unit, read)| {
            let name = format!("flanges.{}.{part}", seam.name());
            one(name, words_of(words, &flange), *unit, ReadFrom::Flange(seam, *read))
        }));
    }
    for (seam, side) in Seam::BOTH.into_iter().flat_map(|seam| SIDES.map(|side| (seam, side))) {
        let pass = format!("{} {} pass", seam.name(), side.name());
        all.extend(PASS.iter().map(|(part, words, unit, read)| {
            let name = format!("passes.{}.{}.{part}", seam.name(), side.name());
            one(name, words_of(words, &pass), *unit, ReadFrom::Pass(seam, side, *read))
        }));
    }
    let joints = NumbersOf::ALL.into_iter().flat_map(|source| Seam::BOTH.map(|seam| (source, seam)));
    for ((source, seam), (after, when)) in joints.flat_map(|joint| After::ALL.map(|after| (joint, after))) {
        let first = if when == After::First { ", first pass" } else { "" };
        all.extend(PARTS.iter().map(|(part, words, unit, read)| {
            let name = format!("{}.{}.{after}.{part}", source.0, seam.name());
            // what tells lines apart comes first: long labels are cut at their end
            let words = format!("{}: {words}, {} joint{first}", source.1.words(), seam.name());
            one(name, words, *unit, ReadFrom::Joint(source.1, seam, when, *read))
        }));
    }
    all.extend(ESTIMATED.map(|quantity| {
        let name = format!("estimates.{quantity}");
        let of = |method: &'static str| Collected {
            name: format!("{name}: {method}"),
            words: method.to_owned(),
            unit: "mm",
            read: ReadFrom::Estimate(quantity, method),
        };
        let each = METHODS.iter().map(|method| of(method.method)).collect();
        (name, each)
    }));
    let judged = Quantity::ALL.map(|quantity| (quantity.key(), quantity.name(), Some(quantity)));
    for (word, what, quantity) in [("any", "anything", None)].into_iter().chain(judged) {
        all.extend(VERDICT.iter().map(|(part, words, unit, read)| {
            let name = format!("verdicts.{word}.{part}");
            one(name, words.replace("{}", what), *unit, ReadFrom::Verdict(quantity, *read))
        }));
    }
    all
}

/// "tilt of the outer flange, + near half higher".
fn words_of(words: &str, of: &str) -> String {
    match words.split_once(", ") {
        Some((what, remark)) => format!("{what} of the {of}, {remark}"),
        None => format!("{words} of the {of}"),
    }
}

const SIDES: [Side; 2] = [Side::Near, Side::Far];

#[cfg(test)]
mod tests {
    use super::super::file::JointShape;
    use super::super::joint::Joints;
    use super::*;
    use crate::job::{STARTER, read_text};
    use crate::prediction::{Job, predict, predict_each, predict_only};

    #[test]
    fn every_listed_name_can_be_collected_and_most_have_a_value() {
        let job = read_text("starter.toml", STARTER).unwrap();
        let p = predict(&job);
        let joints = Joints::new([true; 2], [false; 2], &JointShape::default(), &mut Vec::new());
        let joints = joints.solve(&job).unwrap();
        for name in names() {
            let found = collected(&name).unwrap_or_else(|no| panic!("{name}: {}", no.wanted));
            let values: Vec<f64> = found.iter().map(|c| c.of(Some(&p), &joints)).collect();
            // an arc travels only where it is wanted; `tests/laws/constants.rs` has those
            let far_pass = name.contains(".far.") || name.starts_with("moving.");
            let unjudged = name.starts_with("verdicts.") && !name.starts_with("verdicts.any");
            assert!(far_pass || unjudged || values.iter().all(|v| v.is_finite()), "{name}: {values:?}");
        }
    }

    fn demo_jobs() -> Vec<(String, Job)> {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/jobs");
        let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
        let jobs = files.filter(|path| path.extension().is_some_and(|ending| ending == "toml"));
        let read = |path: std::path::PathBuf| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            let job = read_text(&name, &std::fs::read_to_string(path).unwrap()).unwrap();
            (name, job)
        };
        jobs.map(read).collect()
    }

    /// A row computes what it collects: one by one, alone and in lanes, against a prediction of everything.
    #[test]
    fn a_result_asked_for_alone_is_that_of_a_whole_prediction() {
        let apart = |a: f64, b: f64| match (a.is_nan(), b.is_nan()) {
            (false, false) => (a - b).abs() / (1e-2 + a.abs().max(b.abs())),
            (a, b) => f64::from(u8::from(a != b)),
        };
        let (mut compared, mut worst) = (0, (0.0, String::new()));
        for (title, job) in demo_jobs() {
            let whole = predict(&job);
            for name in names() {
                for result in collected(&name).unwrap().iter().filter(|c| c.joint().is_none()) {
                    let mut wanted = Wanted::default();
                    result.ask(&mut wanted);
                    let alone = predict_only(&job, &wanted);
                    let mut beside = f64::NAN;
                    predict_each(std::slice::from_ref(&job), &wanted, |_, p| {
                        beside = result.of(Some(p), &[None; 2]);
                    });
                    let [want, alone] = [&whole, &alone].map(|p| result.of(Some(p), &[None; 2]));
                    let off = apart(want, alone).max(apart(want, beside));
                    if off >= worst.0 {
                        worst = (off, format!("{title}, {}: {want}, {alone}, {beside}", result.name));
                    }
                    compared += 1;
                }
            }
        }
        println!("{compared} results, farthest apart {:.1e} at {}", worst.0, worst.1);
        assert!(worst.0 < 1e-12, "{:e} at {}", worst.0, worst.1);
    }

    #[test]
    fn a_wrong_name_gets_the_nearest() {
        let wanted = collected("camber.max").unwrap_err().wanted;
        assert!(wanted.contains("`camber.max_mm`"), "{wanted}");
    }
}
