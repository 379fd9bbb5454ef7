//! A job asks its shop's record. Whoever lays other passes into a job asks anew, so that nothing learned is applied outside what it was
//! learned on.

use super::learned::{Assembly, Learned};
use super::recorded::{ANY, Recorded, Scope};
use super::{Field, Job, Warning, WarningCode};
use crate::member::Seam;
use crate::units::{Message, Part};
use std::ops::RangeInclusive;

/// Beyond what was measured by this part, a job is another kind (choice: a plate of 8 mm speaks for 7 and 10, not for 12).
const BEYOND: f64 = 0.25;
/// Days after which a record is called old (choice: a year of new wire, new people, new plate).
const OLD_DAYS: i64 = 365;

impl Job {
    /// Puts in what the record says of the job as it is now, its passes laid with these procedures, in the place of what was put in
    /// before; a note says so, or why not. Without a record nothing happens.
    pub(crate) fn reconsider(&mut self, procedures: &[&str]) {
        let Some(recorded) = self.recorded.clone() else { return };
        (self.learned, self.assembly) = (None, Assembly::default());
        self.factors = recorded.factors;
        // the heat that follows from a leg follows its factor
        let _ = Field::HeatFromLeg.set(self, recorded.factors.heat_from_leg);
        let note = match recorded.put_into(self, procedures) {
            Ok(said) => Warning::new(WarningCode::Learned, said),
            Err(why) => {
                let not = Message::from(format!("what {} say is not applied: ", recorded.from));
                Warning::new(WarningCode::NotLearned, not.then(why))
            }
        };
        self.notes.retain(|n| !matches!(n.code, WarningCode::Learned | WarningCode::NotLearned));
        self.notes.push(note);
    }

    /// What was said of the record, if there is one.
    pub fn recorded_note(&self) -> Option<&Message> {
        let of = |n: &&Warning| matches!(n.code, WarningCode::Learned | WarningCode::NotLearned);
        self.notes.iter().find(of).map(|n| &n.text)
    }
}

impl Recorded {
    fn put_into(&self, job: &mut Job, procedures: &[&str]) -> Result<Message, Message> {
        if let Some(why) = outside(&self.scope, job) {
            return Err(why);
        }
        if let Some(why) = &self.other_line {
            return Err(why.clone());
        }
        let (procedure, learned) =
            self.way(procedures).ok_or("none of them was welded with its procedures")?;
        let before = job.clone();
        if learned.clone().teach(job).is_err() {
            *job = before;
            return Err("it takes a factor beyond what the model covers".into());
        }
        let procedure = match procedure.as_str() {
            ANY => ", procedure not among them".to_owned(),
            "" => String::new(),
            name => format!(", procedure {name}"),
        };
        let old = self.days_old.filter(|days| *days > OLD_DAYS);
        let old = old.map_or(String::new(), |days| {
            format!("; the last of them is {} months old: measure a few new ones", days / 30)
        });
        Ok(format!("with what {} say{}{procedure}{old}", self.from, self.whose).into())
    }

    /// What was learned with these procedures. A job that names none is taken to be welded as the pieces, if these
    /// were all welded alike.
    fn way(&self, procedures: &[&str]) -> Option<&(String, Learned)> {
        let mut known = self.ways.iter().filter(|w| w.0 != ANY);
        let first = known.next();
        let single = first.filter(|_| known.next().is_none());
        let any = || self.ways.iter().find(|w| w.0 == ANY);
        match procedures {
            [] => single.or_else(any),
            [one, others @ ..] if others.iter().all(|o| o == one) => {
                let own = self.ways.iter().find(|w| w.0 == *one);
                own.or_else(any).or_else(|| single.filter(|w| w.0.is_empty()))
            }
            _ => any().or_else(|| single.filter(|w| w.0.is_empty())),
        }
    }
}

/// Words, how its sizes are shown, what was measured, what the job has.
type Compared = (&'static str, fn(f64) -> Part, [f64; 2], RangeInclusive<f64>);

/// What of the job lies outside what was measured.
fn outside(scope: &Scope, job: &Job) -> Option<Message> {
    let m = &job.member;
    let flanges = || Seam::BOTH.into_iter().flat_map(|seam| m.flange(seam)).map(|p| p.thickness_mm);
    let passes = |of: fn(&crate::welding::Pass) -> f64| range(job.passes.iter().map(of));
    let all: [Compared; 6] = [
        ("a length of ", Part::Position, scope.length_mm, range([m.length_mm].into_iter())),
        ("a web of ", Part::Plate, scope.web_mm, range(m.web.iter().map(|p| p.thickness_mm))),
        ("a flange of ", Part::Plate, scope.flange_mm, range(flanges())),
        ("a leg of ", Part::Plate, scope.leg_mm, passes(|p| p.leg_mm)),
        ("a net heat of ", Part::Heat, scope.heat_j_per_mm, passes(|p| p.heat_j_per_mm)),
        ("a yield strength of ", Part::Stress, scope.yield_mpa, range([m.steel.yield_mpa].into_iter())),
    ];
    for (what, part, [low, high], have) in all {
        let (least, most) = (*have.start(), *have.end());
        if least < low * (1.0 - BEYOND) || most > high * (1.0 + BEYOND) {
            let far = if most > high * (1.0 + BEYOND) { most } else { least };
            return Some(Message::of(
                "{}{} is beyond the {} to {} of the pieces",
                [what.into(), part(far), part(low), part(high)],
            ));
        }
    }
    let sides = Seam::BOTH.map(|seam| !Field::seam(job, seam, true).is_empty());
    if sides.contains(&true) && !scope.both_sides {
        return Some("no piece was welded from both sides".into());
    }
    if sides.contains(&false) && !scope.one_side {
        return Some("no piece was welded from one side".into());
    }
    let stitched = job.passes.iter().any(|p| p.welded_fraction() < 1.0);
    (stitched && !scope.stitches).then(|| "no piece was welded in stitches".into())
}

fn range(values: impl Iterator<Item = f64>) -> RangeInclusive<f64> {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(v), b.max(v)));
    low..=high
}
