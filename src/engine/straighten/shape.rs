//! How far the piece is from straight: measured or predicted offsets, with the lie of the piece and the sag of the string
//! taken out.

use crate::bow::BowShape;
use crate::member::{Member, Parts, Seam, properties, spans};
use crate::numerics::{between, largest};
use crate::steel::DENSITY_KG_PER_MM3;
use serde::Serialize;
use thiserror::Error;

/// Gravity, N/kg (standard value).
const GRAVITY: f64 = 9.806_65;
/// Fewest stations: both ends and one between.
const FEWEST: usize = 3;
/// Distance of the first and last station from the ends over the length, at most: readings of a part are no shape of the
/// member, whose limits are those of the whole (choice).
pub const REACH: f64 = 0.02;
/// Largest offset over the length: beyond it the chord is no axis any more (choice, as the largest wanted camber).
pub const LARGEST_OFFSET: f64 = 1.0 / 20.0;
/// Shortest distance of two supports over the length (choice).
pub const SUPPORTS_APART: f64 = 0.1;
/// Longest step of the sag integration over the length.
const STEPS: f64 = 64.0;

/// Toe offsets of one flange at one place, mm from the square line, + toward the web.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Toes {
    /// Which flange.
    pub seam: Seam,
    /// Where, mm from the start end.
    pub x_mm: f64,
    /// Near toe, mm.
    pub near_mm: f64,
    /// Far toe, mm.
    pub far_mm: f64,
}

impl Toes {
    /// Angle between both halves of a flange of that width, rad, + toward the web: twice the cup.
    pub(crate) fn angle_rad(&self, width_mm: f64) -> f64 {
        (self.near_mm + self.far_mm) / (0.5 * width_mm)
    }
}

/// Offsets of a member from its chord, mm; camber + toward the inner flange, sweep + toward the near side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OutOfStraight {
    /// Stations, mm from the start end, rising.
    pub x_mm: Vec<f64>,
    /// Camber offsets, mm.
    pub camber_mm: Vec<f64>,
    /// Sweep offsets, mm.
    pub sweep_mm: Vec<f64>,
    /// Toe offsets, if measured.
    pub toes: Vec<Toes>,
}

/// What is wrong with a list of readings.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum ShapeError {
    /// Too few stations.
    #[error("{found} stations are too few; give both ends and at least one between")]
    TooFew {
        /// Stations given.
        found: usize,
    },
    /// Lists of different length.
    #[error("{x} stations, {camber} camber and {sweep} sweep readings: give as many of each")]
    Uneven {
        /// Stations.
        x: usize,
        /// Camber readings.
        camber: usize,
        /// Sweep readings.
        sweep: usize,
    },
    /// A station not beyond the one before it.
    #[error("station {index} at {x_mm} mm is not beyond the one before it")]
    NotRising {
        /// Its place in the list.
        index: usize,
        /// Where, mm.
        x_mm: f64,
    },
    /// A station or toe reading off the member.
    #[error("a reading at {x_mm} mm lies off a member of {length_mm} mm")]
    OffMember {
        /// Where, mm.
        x_mm: f64,
        /// Length, mm.
        length_mm: f64,
    },
    /// Stations that leave an end unread.
    #[error("stations from {from_mm} to {to_mm} mm leave an end of a member of {length_mm} mm unread")]
    NotCovered {
        /// First station, mm.
        from_mm: f64,
        /// Last station, mm.
        to_mm: f64,
        /// Length, mm.
        length_mm: f64,
    },
    /// A reading that is no number.
    #[error("reading {index} is not a finite number")]
    NotFinite {
        /// Its place in the list.
        index: usize,
    },
    /// Supports that carry nothing.
    #[error("supports at {from_mm} and {to_mm} mm do not carry a member of {length_mm} mm")]
    Supports {
        /// First, mm.
        from_mm: f64,
        /// Second, mm.
        to_mm: f64,
        /// Length, mm.
        length_mm: f64,
    },
    /// A string without weight or pull.
    #[error("a string of {weight_n_per_mm} N/mm pulled with {tension_n} N does not hang")]
    BadString {
        /// Weight, N/mm.
        weight_n_per_mm: f64,
        /// Pull, N.
        tension_n: f64,
    },
}

/// Which way is up while measuring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Up {
    /// The inner flange is on top: gravity acts on camber.
    Inner,
    /// The outer flange is on top.
    Outer,
    /// The near side is on top: gravity acts on sweep.
    Near,
    /// The far side is on top.
    Far,
}

impl Up {
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Inner | Self::Near => 1.0,
            Self::Outer | Self::Far => -1.0,
        }
    }

    /// Whether gravity bends it about the strong axis then: the sag is in its camber.
    pub const fn strong(self) -> bool {
        matches!(self, Self::Inner | Self::Outer)
    }
}

impl OutOfStraight {
    /// Readings from any straight line, brought to the chord through the first and the last station.
    ///
    /// # Errors
    /// [`ShapeError`] on the first thing wrong with the lists.
    ///
    /// ```
    /// use weldbow_engine::straighten::shape::OutOfStraight;
    /// // from a line that runs 2 mm away over the length
    /// let s = OutOfStraight::new(9e3, vec![0.0, 4500.0, 9e3], vec![0.0, 6.0, 2.0], vec![0.0; 3], vec![])?;
    /// assert!((s.camber_mm[1] - 5.0).abs() < 1e-12 && s.camber_mm[2].abs() < 1e-12);
    /// # Ok::<(), weldbow_engine::straighten::shape::ShapeError>(())
    /// ```
    pub fn new(
        length_mm: f64,
        x_mm: Vec<f64>,
        camber_mm: Vec<f64>,
        sweep_mm: Vec<f64>,
        toes: Vec<Toes>,
    ) -> Result<Self, ShapeError> {
        let (x, camber, sweep) = (x_mm.len(), camber_mm.len(), sweep_mm.len());
        if x != camber || x != sweep {
            return Err(ShapeError::Uneven { x, camber, sweep });
        }
        if x < FEWEST {
            return Err(ShapeError::TooFew { found: x });
        }
        let finite = |i: &usize| [x_mm[*i], camber_mm[*i], sweep_mm[*i]].iter().all(|v| v.is_finite());
        if let Some(index) = (0..x).find(|i| !finite(i)) {
            return Err(ShapeError::NotFinite { index });
        }
        let toe_finite = |t: &Toes| [t.x_mm, t.near_mm, t.far_mm].iter().all(|v| v.is_finite());
        if let Some(index) = toes.iter().position(|t| !toe_finite(t)) {
            return Err(ShapeError::NotFinite { index });
        }
        if let Some(i) = (1..x).find(|i| x_mm[*i] <= x_mm[i - 1]) {
            return Err(ShapeError::NotRising { index: i, x_mm: x_mm[i] });
        }
        let off = |x: &&f64| !(0.0..=length_mm).contains(*x);
        if let Some(&x_mm) = x_mm.iter().chain(toes.iter().map(|t| &t.x_mm)).find(off) {
            return Err(ShapeError::OffMember { x_mm, length_mm });
        }
        let (from_mm, to_mm) = (x_mm[0], x_mm[x - 1]);
        let reach = REACH * length_mm;
        // no number is near an end either
        if !(from_mm <= reach && to_mm >= length_mm - reach) {
            return Err(ShapeError::NotCovered { from_mm, to_mm, length_mm });
        }
        let mut shape = Self { x_mm, camber_mm, sweep_mm, toes };
        chord(&shape.x_mm, &mut shape.camber_mm);
        chord(&shape.x_mm, &mut shape.sweep_mm);
        Ok(shape)
    }

    /// The same with no other camber, sweep and toes than those that are kept.
    #[must_use]
    pub(crate) fn only(&self, camber: bool, sweep: bool, toes: impl Fn(&Toes) -> bool) -> Self {
        let kept =
            |is: bool, offsets: &Vec<f64>| if is { offsets.clone() } else { vec![0.0; self.x_mm.len()] };
        Self {
            x_mm: self.x_mm.clone(),
            camber_mm: kept(camber, &self.camber_mm),
            sweep_mm: kept(sweep, &self.sweep_mm),
            toes: self.toes.iter().filter(|t| toes(t)).copied().collect(),
        }
    }

    /// Largest camber and sweep by size, with sign, mm.
    pub fn largest_mm(&self) -> [f64; 2] {
        [&self.camber_mm, &self.sweep_mm].map(|offsets| largest(offsets.iter().copied()))
    }

    /// The same without the sag of its own weight, as it lay on two supports (mm from the start end) with that side up.
    /// With more supports their levels decide: measure with the gravity sideways, or turn the member over and take half the
    /// difference.
    ///
    /// # Errors
    /// [`ShapeError::Supports`] unless the supports lie on the member, apart, with its weight between or beyond them.
    pub fn without_own_weight(
        mut self,
        member: &Member,
        supports_mm: [f64; 2],
        up: Up,
    ) -> Result<Self, ShapeError> {
        let sag = own_weight_sag_mm(member, supports_mm, up, &self.x_mm)?;
        let offsets = if up.strong() { &mut self.camber_mm } else { &mut self.sweep_mm };
        for (o, s) in offsets.iter_mut().zip(sag) {
            *o += up.sign() * s;
        }
        chord(&self.x_mm, offsets);
        Ok(self)
    }

    /// The same without the sag of a string stretched along the member between the first and last station, with that side up.
    ///
    /// # Errors
    /// [`ShapeError::BadString`] unless weight and pull are positive.
    pub fn without_string_sag(
        mut self,
        weight_n_per_mm: f64,
        tension_n: f64,
        up: Up,
    ) -> Result<Self, ShapeError> {
        if !(weight_n_per_mm > 0.0 && tension_n > 0.0 && (weight_n_per_mm / tension_n).is_finite()) {
            return Err(ShapeError::BadString { weight_n_per_mm, tension_n });
        }
        let (Some(&from), Some(&to)) = (self.x_mm.first(), self.x_mm.last()) else { return Ok(self) };
        let offsets = if up.strong() { &mut self.camber_mm } else { &mut self.sweep_mm };
        for (x, o) in self.x_mm.iter().zip(offsets) {
            *o -= up.sign() * string_sag_mm(x - from, to - from, weight_n_per_mm, tension_n);
        }
        Ok(self)
    }
}

/// Offsets (mm) of an even bow of that rise (mm) at stations x: a parabola between the first and the last.
///
/// ```
/// let bow = weldbow_engine::straighten::shape::even_bow(&[0.0, 2e3, 4e3, 8e3], 20.0);
/// assert!(bow.iter().zip([0.0, 15.0, 20.0, 0.0]).all(|(found, wanted)| (found - wanted).abs() < 1e-12));
/// ```
pub fn even_bow(x_mm: &[f64], rise_mm: f64) -> Vec<f64> {
    let (from, to) = (x_mm.first().copied().unwrap_or(0.0), x_mm.last().copied().unwrap_or(1.0));
    let at = |x: &f64| {
        let s = (x - from) / (to - from);
        rise_mm * 4.0 * s * (1.0 - s)
    };
    x_mm.iter().map(at).collect()
}

/// Adds an even bow to offsets at stations (mm), mm at the middle.
pub(crate) fn add_bow(x_mm: &[f64], offset_mm: &mut [f64], rise_mm: f64) {
    offset_mm.iter_mut().zip(even_bow(x_mm, rise_mm)).for_each(|(offset, more)| *offset += more);
}

/// Offset at x of a member of length L (mm) that is bent by a curvature of 1/mm between two places (mm), mm: the moment of an even load
/// there on a beam of that length. L²/8 at the middle if it is bent all along.
pub(crate) fn bow_of(length_mm: f64, [from, to]: [f64; 2], x_mm: f64) -> f64 {
    let left = (x_mm.clamp(from, to).powi(2) - from * from) * (length_mm - x_mm);
    let right = ((length_mm - x_mm.clamp(from, to)).powi(2) - (length_mm - to).powi(2)) * x_mm;
    0.5 * (left + right) / length_mm
}

/// Adds to offsets at stations (mm) the bow of a stretch that is bent evenly from–to (mm), mm at the middle of the member.
pub(crate) fn add_bow_of(x_mm: &[f64], offset_mm: &mut [f64], stretch_mm: [f64; 2], middle_mm: f64) {
    let (Some(&first), Some(&last)) = (x_mm.first(), x_mm.last()) else { return };
    let length = last - first;
    let ends = stretch_mm.map(|end| (end - first).clamp(0.0, length));
    let middle = bow_of(length, ends, 0.5 * length);
    if middle > 0.0 {
        let at = |x: f64| middle_mm * bow_of(length, ends, x - first) / middle;
        offset_mm.iter_mut().zip(x_mm).for_each(|(offset, x)| *offset += at(*x));
    }
}

/// Sag of a stretched string at x from its end, mm: w·x·(L − x)/(2T).
///
/// 0.5 mm steel wire, 0.0151 N/m over 12 m: 5.4 mm at 50 N.
/// ```
/// let s = weldbow_engine::straighten::shape::string_sag_mm(6e3, 12e3, 0.0151e-3, 50.0);
/// assert!((s - 5.4).abs() < 0.05);
/// ```
pub fn string_sag_mm(x_mm: f64, length_mm: f64, weight_n_per_mm: f64, tension_n: f64) -> f64 {
    weight_n_per_mm * x_mm * (length_mm - x_mm) / (2.0 * tension_n)
}

/// Sag of a member under its own weight on two supports, mm, + down, from the line through both supports, at stations x.
///
/// # Errors
/// [`ShapeError::Supports`] unless they lie on the member, a tenth of its length apart.
pub fn own_weight_sag_mm(
    member: &Member,
    supports_mm: [f64; 2],
    up: Up,
    x_mm: &[f64],
) -> Result<Vec<f64>, ShapeError> {
    let [from_mm, to_mm] = supports_mm;
    let length_mm = member.length_mm;
    if !(from_mm >= 0.0 && to_mm <= length_mm && to_mm - from_mm >= SUPPORTS_APART * length_mm) {
        return Err(ShapeError::Supports { from_mm, to_mm, length_mm });
    }
    let pieces = spans(member, supports_mm.into_iter().chain(x_mm.iter().copied()));
    let section = |s: &crate::member::Span, x: f64| properties(&s.plates, s.depth_mm(x), s.slope, Parts::ALL);
    let weight = |s: &crate::member::Span, x: f64| {
        let cos = 1.0 / s.slope.hypot(1.0);
        // real mass: the inclined flange is longer, while its stiffness counts less
        let (p, d) = (&s.plates, s.depth_mm(x));
        let area = p.web_mm * d + p.outer_mm.0 * p.outer_mm.1 + p.inner_mm.0 * p.inner_mm.1 / cos;
        GRAVITY * DENSITY_KG_PER_MM3 * area
    };
    let longest = length_mm / STEPS;
    // shear and moment of the weight left of x, as a shape whose second derivative is the weight
    let load = BowShape::integrate(&pieces, longest, weight);
    let raw = |x: f64| between(&load.x_mm, |i| load.offset_mm[i], x);
    // Shape gives the moment line between both ends; take away the line that makes it vanish at the free ends' supports
    let whole = |x: f64| raw(x) - load.slope.first().map_or(0.0, |s| s * x);
    let total = load.slope.last().copied().unwrap_or(0.0) - load.slope.first().copied().unwrap_or(0.0);
    let left_of_end = whole(length_mm);
    // moments about the first support give the reaction of the second
    let second = (total * (length_mm - from_mm) - left_of_end) / (to_mm - from_mm);
    let first = total - second;
    let moment = |x: f64| first * (x - from_mm).max(0.0) + second * (x - to_mm).max(0.0) - whole(x);
    let e = member.steel.e_mpa;
    let bent = BowShape::integrate(&pieces, longest, |s, x| {
        let found = section(s, x);
        moment(x) / (e * if up.strong() { found.i_z_mm4 } else { found.i_y_mm4 })
    });
    let down = |x: f64| -between(&bent.x_mm, |i| bent.offset_mm[i], x);
    let (at_first, at_second) = (down(from_mm), down(to_mm));
    let line = |x: f64| at_first + (at_second - at_first) * (x - from_mm) / (to_mm - from_mm);
    Ok(x_mm.iter().map(|x| down(*x) - line(*x)).collect())
}

/// Takes the chord between the ends off.
pub(super) fn chord(x_mm: &[f64], offset_mm: &mut [f64]) {
    let (Some(&x0), Some(&x1)) = (x_mm.first(), x_mm.last()) else { return };
    let (Some(&o0), Some(&o1)) = (offset_mm.first(), offset_mm.last()) else { return };
    for (x, o) in x_mm.iter().zip(offset_mm) {
        *o -= o0 + (o1 - o0) * (x - x0) / (x1 - x0);
    }
}

#[cfg(test)]
mod tests {
    use super::bow_of;

    #[test]
    fn stretches_bow_a_member_together_as_the_whole_does() {
        // a curvature of 1/mm all along 9 m: 9000²/8 at the middle, x(L − x)/2 elsewhere
        assert!((bow_of(9e3, [0.0, 9e3], 4.5e3) - 81e6 / 8.0).abs() < 1e-3);
        for x in [0.0, 1e3, 3e3, 4.5e3, 7e3, 9e3] {
            let parts = bow_of(9e3, [0.0, 3e3], x) + bow_of(9e3, [3e3, 9e3], x);
            assert!((parts - 0.5 * x * (9e3 - x)).abs() < 1e-3, "at {x}: {parts}");
        }
        // bent in the last third alone: at mid-length as by a kink of 3000 in the middle of that third, 4500·1500/9000 each
        let one = bow_of(9e3, [6e3, 9e3], 4.5e3);
        assert!((one - 3e3 * 4.5e3 * 1.5e3 / 9e3).abs() < 1e-3, "{one}");
    }
}
