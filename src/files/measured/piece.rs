//! Readings, and the shape they stand for once sag is out.

use super::front::Front;
use crate::form::Complaint;
use std::ops::Range;
use thiserror::Error;
use weldbow_engine::input::Problem;
use weldbow_engine::input::findings::mm;
use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::shop::Shop;
use weldbow_engine::straighten::decide::Limits;
use weldbow_engine::straighten::piece::{Measuring, Piece, goals, shop_for, thermal_bow_mm, weld_stress};
use weldbow_engine::straighten::plan::{Goals, Records};
use weldbow_engine::straighten::shape::{OutOfStraight, ShapeError, Toes};

/// What was measured, as read.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// Stations, mm.
    pub x_mm: Vec<f64>,
    /// Camber readings, mm; None if there is no such column.
    pub camber_mm: Option<Vec<f64>>,
    /// Sweep readings, mm.
    pub sweep_mm: Option<Vec<f64>>,
    /// Toes.
    pub toes: Vec<Toes>,
    /// What is known of the piece and the measurement.
    pub front: Front,
    /// Where it was read, for complaints.
    pub(super) source: Source,
}

/// The text behind the readings.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Source {
    pub file: String,
    pub text: String,
    /// Where each station stands.
    pub x: Vec<Range<usize>>,
}

/// Readings that do not fit the member.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum NotAShape {
    /// A station beyond the end.
    #[error("a station at {x_mm} mm, but the member of the job is {length_mm} mm long")]
    Beyond {
        /// Where, mm.
        x_mm: f64,
        /// Length, mm.
        length_mm: f64,
    },
    /// Anything else.
    #[error(transparent)]
    Shape(#[from] ShapeError),
}

impl Measured {
    /// The shape from the chord, without the sag of its own weight and of the string, and less the wanted camber; filled in
    /// between the stations.
    ///
    /// # Errors
    /// [`NotAShape`] if stations or supports lie off the member.
    pub fn shape(&self, job: &Job) -> Result<OutOfStraight, NotAShape> {
        let member = &job.member;
        let length_mm = member.length_mm;
        if let Some(x_mm) = self.x_mm.iter().copied().find(|x| !(0.0..=length_mm).contains(x)) {
            return Err(NotAShape::Beyond { x_mm, length_mm });
        }
        let none = || vec![0.0; self.x_mm.len()];
        let camber = self.camber_mm.clone().unwrap_or_else(none);
        let sweep = self.sweep_mm.clone().unwrap_or_else(none);
        let mut shape = OutOfStraight::new(length_mm, self.x_mm.clone(), camber, sweep, self.toes.clone())?;
        if let (Some(supports), Some(up)) = (self.front.lay_on_mm, self.front.up) {
            shape = shape.without_own_weight(member, supports, up)?;
        }
        if let (Some((weight, pull)), Some(up)) = (self.front.string, self.front.up) {
            shape = shape.without_string_sag(weight, pull, up)?;
        }
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
        Ok(shape.filled())
    }

    /// The piece on the floor of that shop, with nothing known of its family.
    ///
    /// # Errors
    /// As [`Measured::shape`].
    pub fn piece(&self, job: &Job, prediction: &Prediction, shop: &Shop) -> Result<Piece, NotAShape> {
        let judged = goals(job, &self.measuring(shop.measuring));
        Ok(Piece {
            shape: self.shape(job)?,
            measurements: self.front.measurements,
            goals: self.judged(judged.goals),
            shop: shop_for(&shop.tools, job),
            situation: self.front.situation,
            weld: weld_stress(job, prediction),
            keep_off_mm: self.front.keep_off_mm.clone(),
            records: Records::default(),
        })
    }

    /// What is wrong, at its place in the file.
    pub fn complaint(&self, fault: NotAShape, length_mm: f64) -> Complaint {
        let Source { file, text, x } = &self.source;
        let (path, word, wanted) = match fault {
            NotAShape::Beyond { x_mm, .. } => {
                let at = self.x_mm.iter().position(|s| s.to_bits() == x_mm.to_bits());
                let range = at.and_then(|i| x.get(i)).cloned();
                let problem = Problem::new("x", format!("a station at {}", mm(x_mm)), on_it(length_mm));
                return Complaint::placed(file, text, vec![(problem, range)]);
            }
            NotAShape::Shape(ShapeError::Supports { .. }) => ("lay on", "lay on", on_it(length_mm)),
            NotAShape::Shape(ShapeError::BadString { .. }) => {
                ("string", "string", "weight and pull above zero".to_owned())
            }
            NotAShape::Shape(_) => ("", "x", "stations that rise along the member".to_owned()),
        };
        Complaint::placed(file, text, vec![(Problem::new(path, fault.to_string(), wanted), self.word(word))])
    }

    /// A complaint about a stretch to be kept off, if it stands in this file.
    pub fn keep_off_complaint(&self, problem: Problem) -> Option<Complaint> {
        let range = self.word("keep off")?;
        Some(Complaint::placed(&self.source.file, &self.source.text, vec![(problem, Some(range))]))
    }

    fn word(&self, word: &str) -> Option<Range<usize>> {
        let at = self.source.text.find(word)?;
        Some(at..at + word.len())
    }

    /// Limits without those of what was not measured.
    pub fn judged(&self, goals: Goals) -> Goals {
        let mut goals = goals;
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

    /// Bow that a difference of temperature between the flanges brings, mm; None if none was noted.
    pub fn thermal_mm(&self, job: &Job) -> Option<f64> {
        let length = job.member.length_mm;
        let depth = job.member.depth.depth_mm(0.5 * length);
        self.front.warmer_k.map(|k| thermal_bow_mm(k, length, depth))
    }
}

fn on_it(length_mm: f64) -> String {
    format!("places on the member of the job, which is {} long", mm(length_mm))
}

#[cfg(test)]
mod tests {
    use super::super::read_text;

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
}
