//! Readings, and the shape they stand for once sag is out.

use super::columns::{Column, Measured};
use super::front::Front;
use super::questions::OddReading;
use super::{contract, keys, questions};
use crate::reading::Diagnostics;
use crate::readings::Placed;
use std::ops::Range;
use weldbow_engine::input::Problem;
use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::shop::Shop;
use weldbow_engine::straighten::decide::{Delivery, Limits};
use weldbow_engine::straighten::piece::{Measuring, Piece, goals};
use weldbow_engine::straighten::plan::Goals;
use weldbow_engine::straighten::shape::{OutOfStraight, ShapeError, Toes, own_weight_sag_mm, string_sag_mm};

/// Relative standard uncertainty of a calculated sag of the own weight: plates as rolled, places of the supports (choice).
const OWN_WEIGHT_SD: f64 = 0.05;
/// The same of a string: its weight, and above all its pull (choice).
const STRING_SD: f64 = 0.1;

impl Measured {
    /// The shape from the chord, without the sag of its own weight and of the string, and less the wanted camber; filled in
    /// between the stations.
    ///
    /// # Errors
    /// Everything for which the readings cannot be those of the member: see the contract beside this.
    pub fn shape(&self, job: &Job) -> Result<OutOfStraight, Diagnostics> {
        let wrong = contract::broken(self, job);
        if !wrong.is_empty() {
            return Err(self.complaint(wrong));
        }
        self.bare(job).map(|shape| shape.filled()).map_err(|fault| self.complaint(vec![self.fault(&fault)]))
    }

    /// The same at the stations read.
    pub(super) fn bare(&self, job: &Job) -> Result<OutOfStraight, ShapeError> {
        let member = &job.member;
        let length_mm = member.length_mm;
        let none = || vec![0.0; self.x_mm.len()];
        let camber = self.camber_mm.clone().unwrap_or_else(none);
        let sweep = self.sweep_mm.clone().unwrap_or_else(none);
        let toes = self.toes.iter().map(|t| Toes { x_mm: t.x_mm.clamp(0.0, length_mm), ..*t }).collect();
        let shape = OutOfStraight::new(length_mm, self.on_it(length_mm), camber, sweep, toes)?;
        let mut shape = self.front.bare(shape, member)?;
        if let Some(wanted) = job.wanted_camber {
            // the chord of the stations, not of the ends, is the line both are measured from
            let line: Vec<f64> = shape.x_mm.iter().map(|x| wanted.offset_mm(*x, length_mm)).collect();
            let asked = OutOfStraight::new(length_mm, shape.x_mm.clone(), line, none(), Vec::new())?;
            for (o, w) in shape.camber_mm.iter_mut().zip(asked.camber_mm) {
                *o -= w;
            }
        }
        // what was not measured is not judged, nor bent by taking sag out of it
        if self.camber_mm.is_none() {
            shape.camber_mm.fill(0.0);
        }
        if self.sweep_mm.is_none() {
            shape.sweep_mm.fill(0.0);
        }
        Ok(shape)
    }

    /// Stations, those that are read a hair beyond an end at that end.
    fn on_it(&self, length_mm: f64) -> Vec<f64> {
        let ends = -contract::BEYOND_MM..=length_mm + contract::BEYOND_MM;
        let at = |x: &f64| if ends.contains(x) { x.clamp(0.0, length_mm) } else { *x };
        self.x_mm.iter().map(at).collect()
    }

    /// The piece on the floor of that shop, with nothing known of its family.
    ///
    /// # Errors
    /// As [`Measured::shape`], and readings that are odd, unless the file says that they were checked (`# readings: checked`).
    pub fn piece(&self, job: &Job, prediction: &Prediction, shop: &Shop) -> Result<Piece, Diagnostics> {
        let judged = goals(job, &self.of_the_mean(job, shop.measuring));
        let shape = self.shape(job)?;
        let odd = self.odd(job, prediction, shop.measuring);
        if !self.front.checked && !odd.is_empty() {
            return Err(self.complaint(odd.iter().map(|odd| odd.asked(job.units)).collect()));
        }
        let mut situation = self.front.situation;
        if !self.front.delivery_stated {
            situation.delivery = Delivery::NotStated;
        }
        Ok(Piece {
            measurements: self.front.measurements,
            situation,
            keep_off_mm: self.front.keep_off_mm.clone(),
            stiffeners: self.front.stiffeners.clone(),
            ..Piece::of(job, prediction, shape, self.judged(judged.goals), &shop.tools)
        })
    }

    /// What is odd about readings that could be those of the member, to be asked about before a plan is made.
    pub fn odd(&self, job: &Job, prediction: &Prediction, shop: Measuring) -> Vec<OddReading> {
        // readings that break the contract are refused before
        self.bare(job).map_or_else(
            |_| Vec::new(),
            |shape| questions::odd(self, job, prediction, &shape, &self.of_the_mean(job, shop)),
        )
    }

    /// Problems at their places in the file.
    pub fn complaint(&self, problems: Vec<Placed>) -> Diagnostics {
        Diagnostics::placed(&self.source.file, &self.source.text, problems)
    }

    /// What the shape found wrong, in its place.
    fn fault(&self, fault: &ShapeError) -> Placed {
        let (path, word, wanted) = match fault {
            ShapeError::Supports { .. } => ("lay on", "lay on", "two places on the member of the job"),
            ShapeError::BadString { .. } => ("string", "string", "weight and pull above zero"),
            _ => ("", "x", "stations that rise along the member"),
        };
        (Problem::new(path, fault.to_string(), wanted), self.word(word))
    }

    /// Whether a line of this file gives a key.
    pub fn gives(&self, key: &str) -> bool {
        keys::place(&self.source.text, key).is_some()
    }

    /// A complaint about what a key in front says, if it stands in this file.
    pub fn complaint_at(&self, key: &str, problem: Problem) -> Option<Diagnostics> {
        let range = keys::place(&self.source.text, key)?;
        Some(self.complaint(vec![(problem, Some(range))]))
    }

    /// Where a word stands in the file.
    pub(super) fn word(&self, word: &str) -> Option<Range<usize>> {
        let at = self.source.text.find(word)?;
        Some(at..at + word.len())
    }

    /// The unit of a column and where its head stands.
    pub(super) fn head(&self, column: Column) -> Option<(&'static str, Range<usize>)> {
        self.source.heads.iter().find(|h| h.0 == column).map(|h| (h.1, h.2.clone()))
    }

    /// Where the reading of a column at a station stands.
    pub(super) fn cell(&self, column: Column, station: usize) -> Option<Range<usize>> {
        let at = self.source.heads.iter().position(|h| h.0 == column)?;
        self.source.rows.get(station)?.get(at).cloned()
    }

    /// Limits without those of what was not measured.
    pub fn judged(&self, mut goals: Goals) -> Goals {
        if self.camber_mm.is_none() {
            goals.camber = Limits::NONE;
        }
        if self.sweep_mm.is_none() {
            goals.sweep = Limits::NONE;
        }
        if self.toes.is_empty() {
            (goals.toe, goals.cup, goals.tilt) = (Limits::NONE, Limits::NONE, Limits::NONE);
        }
        goals
    }

    /// Measuring uncertainties: those of the file in place of the shop's.
    pub fn measuring(&self, shop: Measuring) -> Measuring {
        let front = &self.front;
        Measuring {
            camber_mm: front.camber_sd_mm.unwrap_or(shop.camber_mm),
            sweep_mm: front.sweep_sd_mm.unwrap_or(shop.sweep_mm),
            toe_mm: front.toe_sd_mm.unwrap_or(shop.toe_mm),
        }
    }

    /// How well the readings are known as they are judged: each is the mean of some measurements, and the sag that was taken out of
    /// them is calculated.
    pub(crate) fn of_the_mean(&self, job: &Job, shop: Measuring) -> Measuring {
        let one = self.measuring(shop);
        let mean = f64::from(self.front.measurements.max(1)).sqrt();
        let [camber, sweep] = sag_sd_mm(&self.front, job, &self.on_it(job.member.length_mm));
        Measuring {
            camber_mm: (one.camber_mm / mean).hypot(camber),
            sweep_mm: (one.sweep_mm / mean).hypot(sweep),
            toe_mm: one.toe_mm / mean,
        }
    }

    /// Largest sag of its own weight that the readings of a bow may hold, mm, the member lying on its ends; None if the file says
    /// how it lay, or if the sag is smaller than what a reading is sure to.
    pub(crate) fn own_sag_mm(&self, job: &Job) -> Option<f64> {
        let sags = contract::bows(self).filter_map(|(column, _)| questions::own_sag(self, job, column));
        sags.max_by(|a, b| a.total_cmp(b)).filter(|sag| *sag > Measuring::USUAL.sweep_mm)
    }
}

/// Standard uncertainty of the sag that is taken out of camber and of sweep read at these stations, mm.
pub(crate) fn sag_sd_mm(front: &Front, job: &Job, x_mm: &[f64]) -> [f64; 2] {
    let Some(up) = front.up else { return [0.0; 2] };
    let length_mm = job.member.length_mm;
    let own = front.lay_on_mm.and_then(|at| own_weight_sag_mm(&job.member, at, up, x_mm).ok());
    let own = own.map_or(0.0, |sag| {
        contract::from_chord(x_mm, &sag).iter().fold(0.0, |most: f64, mm| most.max(mm.abs()))
    });
    let string =
        front.string.map_or(0.0, |(weight, pull)| string_sag_mm(0.5 * length_mm, length_mm, weight, pull));
    let sd = (OWN_WEIGHT_SD * own).hypot(STRING_SD * string);
    if up.strong() { [sd, 0.0] } else { [0.0, sd] }
}

#[cfg(test)]
mod tests {
    use super::super::read_text;
    use super::Measuring;

    const USUAL: Measuring = Measuring::USUAL;

    #[test]
    fn a_piece_that_is_straight_but_for_its_own_sag_and_the_strings_reads_straight() {
        let job = crate::job::read_text("starter.toml", weldbow_engine::job::STARTER).unwrap();
        let lay = [500.0, 8500.0];
        let x = [0.0, 500.0, 3000.0, 4500.0, 6000.0, 8500.0, 9000.0];
        let up = weldbow_engine::straighten::shape::Up::Inner;
        let sag = weldbow_engine::straighten::shape::own_weight_sag_mm(&job.member, lay, up, &x).unwrap();
        let string = |x: f64| weldbow_engine::straighten::shape::string_sag_mm(x, 9000.0, 0.0151e-3, 50.0);
        // inner side up: the middle hangs toward the outer flange, and so does the string it is read from
        let rows: Vec<String> =
            x.iter().zip(&sag).map(|(x, s)| format!("{x}, {}, 0", -s + string(*x))).collect();
        let front = "# lay on: 0.5 m and 8.5 m\n# up: inner\n# string: 0.0151 N/m at 50 N\n";
        let text = format!("{front}x [mm], camber [mm], sweep [mm]\n{}\n", rows.join("\n"));
        let measured = read_text("piece.csv", &text).unwrap_or_else(|c| panic!("{c}"));
        let shape = measured.shape(&job).unwrap();
        let [camber, sweep] = shape.largest_mm();
        println!("sag {:.3} mm, string {:.3} mm, left {camber:.5} mm", sag[3], string(4500.0));
        assert!(sag[3] > 0.2 && camber.abs() < 1e-6 && sweep.abs() < 1e-12, "{camber} {sweep}");
    }

    /// The mean of n readings is surer by √n (JCGM 100:2008, 4.2.3); what a calculated sag leaves unsure comes on top by squares.
    #[test]
    fn the_mean_of_readings_is_surer_and_a_large_sag_makes_it_less_so() {
        let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/jobs/gallery_beam.toml");
        let job = crate::job::read_path(std::path::Path::new(file));
        let job = job.unwrap_or_else(|c| panic!("{c}"));
        let of = |front: &str| {
            let text =
                format!("{front}x [m], camber [mm], sweep [mm]\n0,0,0\n3,1,40\n6,1,57\n9,1,40\n12,0,0\n");
            let measured = read_text("piece.csv", &text).unwrap_or_else(|c| panic!("{c}"));
            measured.of_the_mean(&job, USUAL)
        };
        let (one, four) = (of(""), of("# measurements: 4\n"));
        assert!((one.sweep_mm - USUAL.sweep_mm).abs() < 1e-12);
        assert!(
            (four.sweep_mm - 0.5 * one.sweep_mm).abs() < 1e-12
                && (four.toe_mm - 0.5 * one.toe_mm).abs() < 1e-12
        );
        // lying flat on its ends it sags by 57.5 mm (5wL⁴/384EI by hand), known to a twentieth
        let flat = of("# lay on: 0 m and 12 m\n# up: near\n");
        let wanted = (0.05 * 57.5_f64).hypot(1.0);
        println!("{:.3} mm of sweep, {wanted:.3} by hand; camber {:.3} mm", flat.sweep_mm, flat.camber_mm);
        assert!(
            (flat.sweep_mm / wanted - 1.0).abs() < 0.02 && (flat.camber_mm - one.camber_mm).abs() < 1e-12
        );
    }
}
