//! What one slice of the joint goes through: its temperatures over the time since the arc was there.
//!
//! Every slice is heated alike, one after the other, as long as the arc travels fast against the heat that spreads ahead of it
//! (v a/2α is 3 and more from 6 mm/s on). So heat is solved once, in the section, and each slice reads it at its own time.

use crate::joint_solver::{Point, SectionError, SectionPass, Sequence, at_points, mixed};

/// Half the time over which an arc is felt, in times that it takes to travel its radius: exp(−3 · 1.7²) is 2e-4.
const REACH: f64 = 1.7;
/// Steps while the arc passes.
const PASSING_STEPS: u32 = 24;
/// The slice is cold when no point is this far above its surroundings, K.
const COLD_K: f64 = 5.0;
/// Cooling ends at the latest after this, s.
const LONGEST_S: f64 = 1e5;

/// Temperatures of a slice in one pass.
pub(super) struct History {
    /// Time since the arc stood over the slice, s; rising.
    pub(crate) times_s: Vec<f64>,
    /// Temperature of each node then, °C.
    nodes_c: Vec<Vec<f64>>,
    /// Temperature of each point then, °C.
    points_c: Vec<Vec<f64>>,
    /// Heat held and lost over the heat given, less 1.
    pub(crate) energy_balance: f64,
}

/// Half the time over which the arc of a pass is felt in a slice, s.
pub(super) fn reach_s(pass: &SectionPass, speed_mm_s: f64) -> f64 {
    let radius = pass.sources.iter().map(|s| s.radius_mm).fold(0.0, f64::max);
    REACH * radius / speed_mm_s
}

impl History {
    /// Heats a cold slice with a pass whose arc travels at that speed; `there` are the elements that take part.
    ///
    /// # Errors
    /// `HeatDiverged` or `Linear`.
    pub(crate) fn of(
        sequence: &Sequence,
        points: &[Point],
        number: usize,
        there: &[bool],
        speed_mm_s: f64,
    ) -> Result<Self, SectionError> {
        let (pass, settings) = (&sequence.passes[number - 1], &sequence.settings);
        let linear = |cause| SectionError::Linear { pass: number, time_s: 0.0, cause };
        let mut t_c = vec![settings.start_c; sequence.mesh.nodes_mm.len()];
        let mut heat = sequence.heat(points, there, &t_c).map_err(linear)?;
        let before = heat.held_j_per_mm();
        let shares = heat.gathered(&sequence.shares(pass, points, there));
        let reach = reach_s(pass, speed_mm_s);
        let mut out = Self {
            times_s: vec![-reach],
            points_c: vec![at_points(&sequence.mesh, points, &t_c)],
            nodes_c: vec![t_c.clone()],
            energy_balance: 0.0,
        };
        let mut dt = 2.0 * reach / f64::from(PASSING_STEPS);
        let parts: Vec<f64> =
            (0..PASSING_STEPS).map(|k| bell((f64::from(k) + 0.5) / f64::from(PASSING_STEPS))).collect();
        let whole: f64 = parts.iter().sum();
        let mut step = |dt: f64, power: &[f64], out: &mut Self| {
            let time_s = out.times_s.last().copied().unwrap_or_default();
            heat.step(dt, power).map_err(|failure| failure.of_heat(number, time_s, heat.iterations))?;
            heat.temperatures(&mut t_c);
            out.times_s.push(time_s + dt);
            out.points_c.push(at_points(&sequence.mesh, points, &t_c));
            out.nodes_c.push(t_c.clone());
            Ok::<f64, SectionError>(t_c.iter().copied().fold(f64::NEG_INFINITY, f64::max))
        };
        for part in parts {
            let power: Vec<f64> = shares.iter().map(|q| q * part / whole / dt).collect();
            step(dt, &power, &mut out)?;
        }
        let idle = vec![0.0; shares.len()];
        loop {
            dt *= settings.growth.min(1.12);
            let hottest = step(dt, &idle, &mut out)?;
            if hottest - settings.surface.ambient_c < COLD_K
                || out.times_s.last().is_some_and(|t| *t > LONGEST_S)
            {
                break;
            }
        }
        let input: f64 = pass.sources.iter().map(|s| s.heat_j_per_mm).sum();
        out.energy_balance = (heat.held_j_per_mm() - before + heat.lost_j_per_mm) / input - 1.0;
        Ok(out)
    }

    /// Temperature of each point at a time since the arc stood over the slice, °C.
    pub(crate) fn at(&self, time_s: f64) -> Vec<f64> {
        let (k, part) = self.between(time_s);
        mixed(&self.points_c[k], &self.points_c[k + 1], part)
    }

    /// Temperature of each node, °C.
    pub(crate) fn nodes_at(&self, time_s: f64) -> Vec<f64> {
        let (k, part) = self.between(time_s);
        mixed(&self.nodes_c[k], &self.nodes_c[k + 1], part)
    }

    /// The step that holds a time, and the part of it gone by.
    fn between(&self, time_s: f64) -> (usize, f64) {
        let k = self.times_s.partition_point(|t| *t <= time_s).clamp(1, self.times_s.len() - 1) - 1;
        let (from, to) = (self.times_s[k], self.times_s[k + 1]);
        (k, ((time_s - from) / (to - from)).clamp(0.0, 1.0))
    }

    /// When the slice is cold, s since the arc.
    pub(crate) fn ends_s(&self) -> f64 {
        self.times_s.last().copied().unwrap_or_default()
    }
}

/// Strength of the arc at a part of the time over which it is felt.
fn bell(part: f64) -> f64 {
    let away = REACH * (2.0 * part - 1.0);
    (-3.0 * away * away).exp()
}
