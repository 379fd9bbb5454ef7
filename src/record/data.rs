//! Measured pieces, as typed values.

use serde::Serialize;
use thiserror::Error;
use weldbow_engine::member::Seam;
use weldbow_engine::prediction::Job;

/// What was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Offset in the web plane from the chord, + toward the inner flange.
    Camber,
    /// Offset sideways, + toward the near side.
    Sweep,
    /// Shortening of the centroid.
    Shortening,
    /// Mean of both toes of a flange, + toward the web.
    Cup(Seam),
    /// Half of near toe less far toe of a flange.
    Tilt(Seam),
}

/// Kinds of readings that scatter alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Camber.
    Camber,
    /// Sweep.
    Sweep,
    /// Shortening.
    Shortening,
    /// Cup of either flange.
    Cup,
    /// Tilt of either flange.
    Tilt,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Camber, Self::Sweep, Self::Shortening, Self::Cup, Self::Tilt];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Camber => "camber",
            Self::Sweep => "sweep",
            Self::Shortening => "shortening",
            Self::Cup => "cup",
            Self::Tilt => "tilt",
        }
    }

    /// Whether its extra scatter grows with the length of the member.
    pub(crate) const fn grows(self) -> bool {
        matches!(self, Self::Camber | Self::Sweep | Self::Shortening)
    }
}

impl Quantity {
    /// Its kind.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Camber => Kind::Camber,
            Self::Sweep => Kind::Sweep,
            Self::Shortening => Kind::Shortening,
            Self::Cup(_) => Kind::Cup,
            Self::Tilt(_) => Kind::Tilt,
        }
    }
}

/// One reading, sag and string taken out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Reading {
    /// What.
    pub what: Quantity,
    /// Where, mm from the start end.
    pub at_mm: f64,
    /// The reading, mm.
    pub value_mm: f64,
    /// Its standard measuring uncertainty, mm.
    pub sd_mm: f64,
}

/// A member that pieces were made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// What the record calls it.
    pub name: String,
    /// Its job, as computed: nothing learned in it.
    pub job: Job,
}

/// One measured piece; numbers point into the lists of the record.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its name.
    pub name: String,
    /// Day it was welded, counted from 1970-01-01; pieces without one stand where they stand in the record.
    pub day: Option<i32>,
    /// Member.
    pub member: usize,
    /// Family.
    pub family: usize,
    /// Procedure.
    pub procedure: usize,
    /// Line.
    pub line: usize,
    /// Readings.
    pub readings: Vec<Reading>,
}

/// A shop's record.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Record {
    /// Members.
    pub members: Vec<Member>,
    /// Names of families.
    pub families: Vec<String>,
    /// Names of procedures.
    pub procedures: Vec<String>,
    /// Names of lines.
    pub lines: Vec<String>,
    /// Pieces.
    pub pieces: Vec<Piece>,
}

/// Why a record teaches nothing.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum RecordFault {
    /// No reading at all.
    #[error("a record without a reading")]
    Empty,
    /// A number that points nowhere.
    #[error("piece {piece}: {what} {index} is not in the record")]
    Index {
        /// Piece.
        piece: String,
        /// Which list.
        what: &'static str,
        /// The number.
        index: usize,
    },
    /// A reading that is no number, or is sure without end.
    #[error("piece {piece}: a reading of {value_mm} mm, sure to {sd_mm} mm")]
    Reading {
        /// Piece.
        piece: String,
        /// Value, mm.
        value_mm: f64,
        /// Uncertainty, mm.
        sd_mm: f64,
    },
    /// A job that the model says nothing of.
    #[error("the model gives no number for {member}")]
    Outside {
        /// The member.
        member: String,
    },
    /// No likeliest point: the readings contradict what the model can be.
    #[error("the readings fit no factors at all; read them again, with their units and signs")]
    NoFit,
}

impl Record {
    /// Looks whether it can be worked with.
    ///
    /// # Errors
    /// The first thing wrong with it.
    pub fn check(&self) -> Result<(), RecordFault> {
        if self.readings() == 0 {
            return Err(RecordFault::Empty);
        }
        for piece in &self.pieces {
            let lists = [
                ("member", piece.member, self.members.len()),
                ("family", piece.family, self.families.len()),
                ("procedure", piece.procedure, self.procedures.len()),
                ("line", piece.line, self.lines.len()),
            ];
            if let Some((what, index, _)) = lists.into_iter().find(|(_, index, count)| index >= count) {
                return Err(RecordFault::Index { piece: piece.name.clone(), what, index });
            }
            let sound = |r: &Reading| r.value_mm.is_finite() && r.sd_mm.is_finite() && r.sd_mm > 0.0;
            if let Some(r) = piece.readings.iter().find(|r| !sound(r)) {
                let piece = piece.name.clone();
                return Err(RecordFault::Reading { piece, value_mm: r.value_mm, sd_mm: r.sd_mm });
            }
        }
        Ok(())
    }

    /// Readings in all.
    pub fn readings(&self) -> usize {
        self.pieces.iter().map(|p| p.readings.len()).sum()
    }

    /// Whether any piece was read for it.
    pub(crate) fn reads(&self, kind: Kind) -> bool {
        self.pieces.iter().flat_map(|p| &p.readings).any(|r| r.what.kind() == kind)
    }

    /// The pieces in the order they were welded: by day where both have one, else as they stand.
    pub fn in_order(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.pieces.len()).collect();
        let mut last = i32::MIN;
        // a piece without a day belongs to the day of the one before it
        let days: Vec<i32> = self
            .pieces
            .iter()
            .map(|p| {
                last = p.day.unwrap_or(last);
                last
            })
            .collect();
        order.sort_by_key(|i| (days[*i], *i));
        order
    }
}
