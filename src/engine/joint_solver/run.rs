//! Lays the passes of a sequence: time, heat, birth of fillets, restraint.

use super::clock::Clock;
use super::error::within;
use super::fibres::Fibres;
use super::heat::Heat;
use super::outcome::{Outcome, PassOutcome, SliceReader, Snapshot, SolveEffort};
use super::sequence::{Lengthwise, SectionPass, Sequence, StressModel};
use super::shape::Point;
use super::slice::{COLD_C, Slice, SliceHold, halved, mixed};
use super::solid::Solid;
use super::solve::SolverTime;
use super::{Mesh, SectionError};
use crate::steel::molten::SOLIDUS_C;
use std::time::Duration;

/// Times a step is halved before it is given up.
const MOST_CUTS: u32 = 6;
/// The section is cold when no point is this far above its surroundings, or from any other, K.
const COLD_K: f64 = 5.0;
/// Cooling ends at the latest after this, s.
const LONGEST_S: f64 = 1e6;

/// Welds the section.
///
/// # Errors
/// Those of [`Sequence::check`]; `HeatDiverged`, `NoEquilibrium` or `Linear` with pass, time and what was left over.
pub fn run(sequence: &Sequence) -> Result<Outcome, SectionError> {
    run_watched(sequence, &[])
}

/// The same, with temperatures kept at these times after the start of each pass, s; a pass keeps none beyond its end.
///
/// # Errors
/// As [`run`]; `OutOfRange` for a time that is negative, too late or not a number.
pub(crate) fn run_watched(sequence: &Sequence, times_s: &[f64]) -> Result<Outcome, SectionError> {
    sequence.check()?;
    for &time in times_s {
        within("time to keep temperatures at, s", time, 0.0, LONGEST_S)?;
    }
    let start = Clock::start();
    let (points, there) = (sequence.points(), sequence.plates());
    let Sequence { mesh, steel, supports, settings, .. } = sequence;
    let linear = |cause| SectionError::Linear { pass: 1, time_s: 0.0, cause };
    let mut slice: Box<dyn Slice> = match settings.model {
        StressModel::Fibres => Box::new(Fibres::new(&points, *steel, there.clone())),
        StressModel::Solid => {
            let (supports, alive) = (supports.clone(), there.clone());
            let solid = Solid::new(mesh, &points, *steel, supports, alive, settings.tolerance);
            Box::new(solid.map_err(linear)?)
        }
    };
    let mut t_c = vec![COLD_C; mesh.nodes_mm.len()];
    for (element, _) in mesh.elements.iter().zip(&there).filter(|(_, there)| **there) {
        element.nodes.into_iter().for_each(|n| t_c[n] = settings.start_c);
    }
    let mut march = March {
        sequence,
        points: &points,
        slice: slice.as_mut(),
        alive: there.clone(),
        there,
        times_s,
        snapshots: Vec::new(),
        peak_c: t_c.clone(),
        t_c,
        at_points: vec![COLD_C; points.len()],
        held: false,
        pass: 0,
        time_s: 0.0,
        last_dt_s: 0.0,
        cuts: 0,
        heat_unknowns: 0,
        heat_iterations: 0,
        solver: SolverTime::default(),
    };
    march.preheat()?;
    let mut passes = Vec::new();
    for (k, pass) in sequence.passes.iter().enumerate() {
        let next = sequence.passes.get(k + 1).and_then(|next| next.wait_s);
        passes.push(march.lay(k + 1, pass, next)?);
    }
    let mut outcome = march.outcome(passes);
    outcome.effort.whole = start.elapsed();
    Ok(outcome)
}

struct March<'a> {
    sequence: &'a Sequence,
    points: &'a [Point],
    slice: &'a mut dyn Slice,
    /// Elements that take part in the heat problem.
    there: Vec<bool>,
    /// Elements that are solid.
    alive: Vec<bool>,
    t_c: Vec<f64>,
    at_points: Vec<f64>,
    /// Highest temperatures of the present pass.
    peak_c: Vec<f64>,
    /// Times since the arc at which temperatures are kept.
    times_s: &'a [f64],
    snapshots: Vec<Snapshot>,
    held: bool,
    pass: usize,
    time_s: f64,
    /// Length of the last step if the next may go on in its direction, else 0.
    last_dt_s: f64,
    cuts: usize,
    heat_unknowns: usize,
    heat_iterations: usize,
    solver: SolverTime,
}

impl March<'_> {
    /// One pass, until the next arc comes or all is cold.
    fn lay(
        &mut self,
        number: usize,
        pass: &SectionPass,
        next_s: Option<f64>,
    ) -> Result<PassOutcome, SectionError> {
        let sequence = self.sequence;
        let settings = &sequence.settings;
        (self.pass, self.time_s) = (number, 0.0);
        sequence.lay(pass, &mut self.there);
        let linear = |cause| SectionError::Linear { pass: number, time_s: 0.0, cause };
        let mut heat = sequence.heat(self.points, &self.there, &self.t_c).map_err(linear)?;
        let before = heat.held_j_per_mm();
        let shares = sequence.shares(pass, self.points, &self.there);
        let input: f64 = pass.sources.iter().map(|s| s.heat_j_per_mm).sum();
        let power: Vec<f64> = heat.gathered(&shares).iter().map(|q| q / pass.pulse_s).collect();
        self.hold();
        self.peak_c.clone_from(&self.t_c);
        let mut dt = pass.pulse_s / f64::from(settings.pulse_steps);
        for _ in 0..settings.pulse_steps {
            self.step(&mut heat, dt, &power)?;
        }
        self.bear();
        let idle = vec![0.0; power.len()];
        let end = next_s.unwrap_or(LONGEST_S);
        while self.time_s < end - 1e-9 && (next_s.is_some() || !self.cold()) {
            dt *= settings.growth;
            self.step(&mut heat, dt.min(end - self.time_s), &idle)?;
            self.bear();
        }
        let balance = (heat.held_j_per_mm() - before + heat.lost_j_per_mm) / input - 1.0;
        let (seconds, hottest_c) = (self.time_s, self.hottest());
        self.heat_unknowns = heat.unknowns();
        self.heat_iterations += heat.iterations;
        self.solver = self.solver + heat.time();
        if next_s.is_none() {
            self.chill()?;
        }
        let reading = SliceReader::new(&sequence.mesh, self.points, &self.alive, sequence.steel.e_mpa);
        let (plane, moved) = (self.slice.plane(), self.slice.displaced_mm());
        let shrinkage = reading.shrinkage(self.slice.stress(), plane);
        let shape = moved.and_then(|moved| reading.shape(&moved));
        let peak_c = self.peak_c.clone();
        Ok(PassOutcome { shrinkage, shape, seconds, hottest_c, energy_balance: balance, peak_c })
    }

    fn step(&mut self, heat: &mut Heat, dt_s: f64, power: &[f64]) -> Result<(), SectionError> {
        heat.step(dt_s, power).map_err(|failure| failure.of_heat(self.pass, self.time_s, heat.iterations))?;
        let before = self.hottest();
        let passed = |time: &&f64| **time > self.time_s && **time <= self.time_s + dt_s;
        let watched: Vec<f64> = self.times_s.iter().filter(passed).copied().collect();
        let from = if watched.is_empty() { Vec::new() } else { self.t_c.clone() };
        heat.temperatures(&mut self.t_c);
        amid_edges(self.sequence, &self.there, &mut self.t_c);
        let kept: Vec<(f64, Vec<f64>)> = watched
            .into_iter()
            .map(|time_s| (time_s, mixed(&from, &self.t_c, (time_s - self.time_s) / dt_s)))
            .collect();
        self.time_s += dt_s;
        self.peak_c.iter_mut().zip(&self.t_c).for_each(|(peak, t)| *peak = peak.max(*t));
        let to = self.temperatures_at_points();
        let release = self.sequence.settings.release_c.filter(|_| self.held);
        let after = self.hottest();
        if let Some(release_c) = release.filter(|release| after < *release && power.iter().all(|p| *p <= 0.0))
        {
            // The instant of release decides the angles, so it is met exactly.
            let part = ((before - release_c) / (before - after)).clamp(0.0, 1.0);
            let amid = mixed(&self.at_points, &to, if part.is_finite() { part } else { 0.0 });
            self.advance(amid, dt_s * part)?;
            self.release()?;
            self.last_dt_s = 0.0;
        }
        self.advance(to, dt_s)?;
        self.keep(kept);
        Ok(())
    }

    /// Keeps the present state beside the temperatures of these times.
    fn keep(&mut self, times: Vec<(f64, Vec<f64>)>) {
        for (time_s, t_c) in times {
            self.snapshots.push(Snapshot {
                pass: self.pass,
                time_s,
                t_c,
                displaced_mm: self.slice.displaced_mm().unwrap_or_default(),
                along_mpa: self.slice.stress().iter().map(|s| s[0]).collect(),
                plastic: self.slice.plastic(),
            });
        }
    }

    fn advance(&mut self, to: Vec<f64>, dt_s: f64) -> Result<(), SectionError> {
        let lead = if self.last_dt_s > 0.0 { dt_s / self.last_dt_s } else { 0.0 };
        let from = std::mem::replace(&mut self.at_points, to);
        let (pass, time_s) = (self.pass, self.time_s);
        let slice = &mut *self.slice;
        let mut tried = |to: &Vec<f64>, lead| slice.advance(to, lead).or_else(|_| slice.advance(to, 0.0));
        let cuts = halved(&mut tried, |a, b| mixed(a, b, 0.5), (&from, &self.at_points), lead, MOST_CUTS)
            .map_err(|failure| failure.of_forces(pass, time_s, MOST_CUTS))?;
        self.cuts += cuts;
        self.last_dt_s = if cuts == 0 { dt_s } else { 0.0 };
        Ok(())
    }

    fn hold(&mut self) {
        let settings = &self.sequence.settings;
        self.held = settings.release_c.is_some() || settings.lengthwise == Lengthwise::HeldWhileHot;
        self.last_dt_s = 0.0;
        self.slice.hold(SliceHold {
            lengthwise: settings.lengthwise != Lengthwise::Free,
            in_plane: settings.release_c.is_some(),
        });
    }

    fn release(&mut self) -> Result<(), SectionError> {
        self.held = false;
        let hold =
            SliceHold { lengthwise: self.sequence.settings.lengthwise == Lengthwise::Held, in_plane: false };
        let (pass, time_s) = (self.pass, self.time_s);
        self.slice.release(hold, &self.at_points).map_err(|failure| failure.of_forces(pass, time_s, 0))
    }

    /// Fillet elements that have solidified become solid.
    fn bear(&mut self) {
        for e in 0..self.alive.len() {
            let own = &self.at_points[4 * e..4 * e + 4];
            if self.there[e] && !self.alive[e] && own.iter().sum::<f64>() / 4.0 < SOLIDUS_C {
                self.slice.bear(e, own);
                self.alive[e] = true;
                self.last_dt_s = 0.0;
            }
        }
    }

    /// All goes to the starting temperature.
    fn chill(&mut self) -> Result<(), SectionError> {
        if self.held {
            self.release()?;
        }
        self.t_c.fill(COLD_C);
        self.last_dt_s = 0.0;
        self.advance(vec![COLD_C; self.points.len()], 0.0)?;
        let (pass, time_s) = (self.pass, self.time_s);
        self.slice.polish().map_err(|failure| failure.of_forces(pass, time_s, 0))
    }

    /// The plates go to their first temperature, free to grow.
    fn preheat(&mut self) -> Result<(), SectionError> {
        self.slice.hold(SliceHold { lengthwise: false, in_plane: false });
        let to = self.temperatures_at_points();
        self.advance(to, 0.0)
    }

    fn hottest(&self) -> f64 {
        self.t_c.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    fn cold(&self) -> bool {
        let present = self.sequence.mesh.elements.iter().zip(&self.there).filter(|(_, there)| **there);
        let coldest = present.flat_map(|(e, _)| e.nodes).map(|n| self.t_c[n]).fold(f64::INFINITY, f64::min);
        let hottest = self.hottest();
        hottest - self.sequence.settings.surface.ambient_c < COLD_K || hottest - coldest < COLD_K
    }

    fn temperatures_at_points(&self) -> Vec<f64> {
        at_points(&self.sequence.mesh, self.points, &self.t_c)
    }

    fn outcome(self, passes: Vec<PassOutcome>) -> Outcome {
        let mut tally = self.slice.tally();
        let solver = self.solver + self.slice.solver_time();
        tally.cuts = self.cuts;
        let along: Vec<f64> = self.slice.stress().iter().map(|s| s[0]).collect();
        let mut peak_c = vec![COLD_C; self.t_c.len()];
        for pass in &passes {
            peak_c.iter_mut().zip(&pass.peak_c).for_each(|(peak, t)| *peak = peak.max(*t));
        }
        let nodes_mm = &self.sequence.mesh.nodes_mm;
        let moved = self.slice.displaced_mm();
        let displaced_mm = moved.unwrap_or_else(|| vec![[0.0; 2]; nodes_mm.len()]);
        Outcome {
            passes,
            mesh: self.sequence.mesh.clone(),
            solid: self.alive,
            peak_c,
            snapshots: self.snapshots,
            displaced_mm,
            points_mm: self.points.iter().map(|p| p.at_mm).collect(),
            along_mpa: along,
            plastic: self.slice.plastic(),
            unknowns: self.sequence.mesh.unknowns(),
            heat_unknowns: self.heat_unknowns,
            heat_iterations: self.heat_iterations,
            tally,
            effort: SolveEffort { whole: Duration::ZERO, solver },
        }
    }
}

/// Temperature of each point, °C, from those of the nodes.
pub(crate) fn at_points(mesh: &Mesh, points: &[Point], t_c: &[f64]) -> Vec<f64> {
    let of = |(k, point): (usize, &Point)| {
        let nodes = &mesh.elements[k / 4].nodes;
        point.corners.iter().zip(nodes).map(|(share, &n)| share * t_c[n]).sum()
    };
    points.iter().enumerate().map(of).collect()
}

/// Nodes amid edges have no unknown of heat: they take the mean of their ends.
fn amid_edges(sequence: &Sequence, there: &[bool], t_c: &mut [f64]) {
    for (element, _) in sequence.mesh.elements.iter().zip(there).filter(|(_, there)| **there) {
        for (k, [a, b]) in super::mesh::EDGES.into_iter().enumerate() {
            t_c[element.nodes[4 + k]] = (t_c[element.nodes[a]] + t_c[element.nodes[b]]) / 2.0;
        }
    }
}

#[cfg(test)]
#[path = "run_tests.rs"]
mod tests;
