//! Lays the turns of a job: time, heat, birth of fillets, joining of plates.

use super::grid::{CellGrid, CellKind};
use super::melted::melted;
use super::outcome::{SeamMelted, StageOutcome, StripEffort, StripOutcome, pulls};
use super::sequence::{PlateModel, StripBead, StripJob, StripSettings, StripStage};
use crate::joint_solver::{
    Bilinear, COLD_C, Fibres, FillerState, Heat, SectionError, Slice, Tally, ThermalTable, bilinear_points,
    halved, mixed,
};
use crate::member::{Parts, Seam};
use crate::steel::molten::SOLIDUS_C;

/// Times a step is halved before it is given up.
const MOST_CUTS: u32 = 8;
/// Cooling ends at the latest after this, s.
const LONGEST_S: f64 = 1e6;
/// First step of a turn without an arc over its number of steps, s (choice).
const IDLE_S: f64 = 1.0;

/// Welds the section; the steel as heat sees it is `table`.
///
/// # Errors
/// Those of [`StripJob::check`]; `HeatDiverged`, `NoEquilibrium` or `Linear` with number of the turn, time and what was
/// left over.
pub fn weld(job: &StripJob, table: &ThermalTable) -> Result<StripOutcome, SectionError> {
    job.check()?;
    let grid = match job.settings.shape {
        PlateModel::Plates(cut) => CellGrid::of(&job.section, cut.resolving(job.narrowest()))?,
        PlateModel::Star { step_mm, .. } => CellGrid::star(&job.section, step_mm)?,
    };
    let places = grid.quads.iter().map(|quad| quad.corners.map(|corner| grid.corners_mm[corner]));
    let points: Vec<Bilinear> = places.flat_map(|places| bilinear_points(&places)).collect();
    let parts = job.turns.first().map_or(Parts::ALL, |turn| turn.joined);
    let there: Vec<bool> = grid.quads.iter().map(|quad| is_joined(quad.piece, parts)).collect();
    let StripSettings { held, prior_mpa, .. } = job.settings;
    let places = points.iter().map(|point| (point.at_mm, point.area_mm2));
    let middle_mm = job.section.depth_mm / 2.0;
    let bars = Fibres::of_section(places, job.steel, there.clone(), middle_mm, held, prior_mpa);
    let n = points.len();
    let mut march = March {
        job,
        table,
        grid: &grid,
        points: &points,
        there,
        t_c: vec![COLD_C; grid.unknowns],
        peak_c: vec![COLD_C; grid.unknowns],
        melted: Default::default(),
        state: State { bars, at_spots: vec![COLD_C; n], time_s: 0.0 },
        joined: vec![-prior_mpa / job.steel.e_mpa; n],
        cold: [0.0; 3],
        turn: 0,
        effort: StripEffort { unknowns: grid.unknowns, bars: n, ..StripEffort::default() },
    };
    let mut turns = Vec::with_capacity(job.turns.len());
    for (k, turn) in job.turns.iter().enumerate() {
        let next = job.turns.get(k + 1).map(|next| next.wait_s);
        turns.push(march.lay(k + 1, turn, next)?);
    }
    let Tally { steps, iterations, .. } = march.state.bars.tally;
    let effort = StripEffort { steps, iterations, ..march.effort };
    Ok(StripOutcome { turns, melted: march.melted, effort })
}

/// Whether a plate acts when these parts do; fillets come with their beads.
fn is_joined(piece: CellKind, parts: Parts) -> bool {
    match piece {
        CellKind::Flange(seam) => parts.contains(Parts::flange(seam)),
        CellKind::Web => true,
        CellKind::Fillet(..) => false,
    }
}

/// What goes back when a turn is taken up again after a look at how it would cool.
#[derive(Clone)]
struct State {
    bars: Fibres,
    at_spots: Vec<f64>,
    /// Since the arc of the present turn came.
    time_s: f64,
}

struct March<'a> {
    job: &'a StripJob,
    table: &'a ThermalTable,
    grid: &'a CellGrid,
    points: &'a [Bilinear],
    /// Quadrilaterals that hold heat.
    there: Vec<bool>,
    t_c: Vec<f64>,
    /// Highest of the present turn.
    peak_c: Vec<f64>,
    melted: [SeamMelted; 2],
    state: State,
    /// Strain of the section when the plate of a bar joined it.
    joined: Vec<f64>,
    /// Strain of the section once all turns so far are cold.
    cold: [f64; 3],
    turn: usize,
    /// All but what the bars took, which is with them.
    effort: StripEffort,
}

impl March<'_> {
    /// One turn; `next` is the wait until the one after it, if there is one.
    fn lay(
        &mut self,
        number: usize,
        turn: &StripStage,
        next: Option<Option<f64>>,
    ) -> Result<StageOutcome, SectionError> {
        let settings = &self.job.settings;
        (self.turn, self.state.time_s) = (number, 0.0);
        let met_c = self.range().1;
        self.peak_c.clone_from(&self.t_c);
        let warm = self.state.bars.plane();
        let joins = self.join(turn);
        let joined_warm = [0, 1, 2].map(|k: usize| if joins { warm[k] - self.cold[k] } else { 0.0 });
        self.warm(turn.preheat_c)?;
        for (quad, there) in self.grid.quads.iter().zip(&mut self.there) {
            let laid = |seam: Seam, side| turn.beads.iter().any(|b| b.seam == seam && b.side == side);
            *there |= matches!(quad.piece, CellKind::Fillet(seam, side) if laid(seam, side));
        }
        let net = self.grid.network(self.points, &self.there);
        let mut heat = Heat::of_network(net, self.table, settings.surface, &self.t_c)
            .map_err(|cause| SectionError::Linear { pass: number, time_s: 0.0, cause })?;
        let before = heat.held_j_per_mm();
        let mut end = next.flatten().unwrap_or(LONGEST_S);
        if !turn.beads.is_empty() {
            let pulse_s = self.pulse_s(turn).min(end);
            let power: Vec<f64> = self.shares(turn).into_iter().map(|q| q / pulse_s).collect();
            for _ in 0..settings.pulse_steps {
                self.step(&mut heat, pulse_s / f64::from(settings.pulse_steps), &power)?;
            }
            self.bear();
        }
        let mut dt = self.pulse_s(turn) / f64::from(settings.pulse_steps);
        let idle = vec![0.0; self.grid.unknowns];
        let waits = next.is_some_and(|wait| wait.is_some());
        let mut balance = None;
        let mut kept = None;
        let input: f64 = turn.beads.iter().map(|b| b.heat_j_per_mm).sum();
        loop {
            let done = if kept.is_none() && waits { self.state.time_s >= end - 1e-9 } else { self.cold() };
            if done || self.state.time_s >= LONGEST_S {
                let held = heat.held_j_per_mm() - before + heat.lost_j_per_mm;
                balance.get_or_insert(if input > 0.0 { held / input - 1.0 } else { 0.0 });
                if kept.is_none() && waits {
                    kept = Some((self.state.clone(), self.t_c.clone()));
                    end = LONGEST_S;
                    continue;
                }
                break;
            }
            dt *= settings.growth;
            self.step(&mut heat, dt.min(end - self.state.time_s), &idle)?;
            self.bear();
        }
        for (worst, here) in self.melted.iter_mut().zip(melted(&self.job.section, self.grid, &self.peak_c)) {
            worst.flange_mm = worst.flange_mm.max(here.flange_mm);
            worst.web_share = worst.web_share.max(here.web_share);
        }
        let seconds = kept.as_ref().map_or(self.state.time_s, |(state, _)| state.time_s);
        self.effort.heat_iterations += heat.iterations;
        self.advance(vec![COLD_C; self.points.len()])?;
        self.t_c.fill(COLD_C);
        let outcome = StageOutcome {
            pulls: pulls(&self.job.section, self.grid, self.points, &self.state.bars, &self.joined),
            plane: self.state.bars.plane(),
            joined_warm,
            energy_balance: balance.unwrap_or_default(),
            seconds,
            met_c,
        };
        self.cold = outcome.plane;
        if let Some((state, t_c)) = kept {
            let tally = self.state.bars.tally;
            (self.state, self.t_c) = (state, t_c);
            self.state.bars.tally = tally;
        }
        Ok(outcome)
    }

    /// Plates that join take the section as it is. Whether any does.
    fn join(&mut self, turn: &StripStage) -> bool {
        let mut joins = false;
        for (quad, there) in self.there.iter_mut().enumerate() {
            if *there || !is_joined(self.grid.quads[quad].piece, turn.joined) {
                continue;
            }
            (*there, joins) = (true, true);
            let State { bars, at_spots, .. } = &mut self.state;
            let strain = bars.join(quad, &at_spots[4 * quad..4 * quad + 4], !turn.follows);
            self.joined[4 * quad..4 * quad + 4].copy_from_slice(&strain);
        }
        joins
    }

    /// Brings all that is there to at least this temperature.
    fn warm(&mut self, to_c: f64) -> Result<(), SectionError> {
        if to_c <= COLD_C {
            return Ok(());
        }
        for (quad, _) in self.grid.quads.iter().zip(&self.there).filter(|(_, there)| **there) {
            for corner in quad.corners {
                let t = &mut self.t_c[self.grid.unknown[corner]];
                *t = t.max(to_c);
            }
        }
        let to = self.at_spots();
        self.advance(to)
    }

    /// How long the arcs of a turn heat the section, s.
    fn pulse_s(&self, turn: &StripStage) -> f64 {
        let passing = |b: &StripBead| b.source(self.job.section.web_mm).passing_s(b.travel_speed_mm_s);
        let longest = turn.beads.iter().map(passing).reduce(f64::max);
        self.job.settings.pulse_s.or(longest).unwrap_or(IDLE_S)
    }

    /// Heat of each unknown, J/mm.
    fn shares(&self, turn: &StripStage) -> Vec<f64> {
        let mut all = vec![0.0; self.grid.unknowns];
        for bead in &turn.beads {
            let molten = self.molten(bead, &mut all);
            let mut own = vec![0.0; self.grid.unknowns];
            for (quad, _) in self.grid.quads.iter().enumerate().filter(|(q, _)| self.there[*q]) {
                let Some(corners) = self.takes(quad, bead.seam) else { continue };
                let web = self.grid.quads[quad].piece == CellKind::Web;
                for point in &self.points[4 * quad..4 * quad + 4] {
                    let density = bead.density(&self.job.section, &self.job.settings.shape, point.at_mm, web);
                    for (share, unknown) in point.shares.iter().zip(corners) {
                        own[unknown] += share * density * point.area_mm2;
                    }
                }
            }
            let whole: f64 = own.iter().sum();
            let scale = if whole > 0.0 { (bead.heat_j_per_mm - molten) / whole } else { 0.0 };
            all.iter_mut().zip(own).for_each(|(sum, share)| *sum += share * scale);
        }
        all
    }

    /// Adds what a molten deposit brings with it, even over its fillet; returns how much of the heat that is, J/mm.
    fn molten(&self, bead: &StripBead, all: &mut [f64]) -> f64 {
        let fillet = |quad: &usize| self.grid.quads[*quad].piece == CellKind::Fillet(bead.seam, bead.side);
        let points = |quad: usize| &self.points[4 * quad..4 * quad + 4];
        let quads: Vec<usize> = (0..self.grid.quads.len()).filter(fillet).collect();
        let area_mm2: f64 = quads.iter().flat_map(|quad| points(*quad)).map(|point| point.area_mm2).sum();
        if self.job.settings.deposit == FillerState::Cold || area_mm2 <= 0.0 {
            return 0.0;
        }
        let molten = bead.source(self.job.section.web_mm).molten_j_per_mm(bead.area_mm2().min(area_mm2));
        for quad in quads {
            for point in points(quad) {
                for (share, corner) in point.shares.iter().zip(self.grid.quads[quad].corners) {
                    all[self.grid.unknown[corner]] += molten * share * point.area_mm2 / area_mm2;
                }
            }
        }
        molten
    }

    /// The unknowns of a quadrilateral, if the heat of that seam can reach it.
    fn takes(&self, quad: usize, at: Seam) -> Option<[usize; 4]> {
        let quad = &self.grid.quads[quad];
        let own = match quad.piece {
            CellKind::Flange(seam) | CellKind::Fillet(seam, _) => seam == at,
            CellKind::Web => true,
        };
        own.then(|| quad.corners.map(|c| self.grid.unknown[c]))
    }

    fn step(&mut self, heat: &mut Heat, dt_s: f64, power: &[f64]) -> Result<(), SectionError> {
        // Latent heat given back all at once can throw a long step off; parts of it are exact.
        let mut done = 0.0;
        let mut advance = |part: &f64, _| heat.step((part - done) * dt_s, power).map(|()| done = *part);
        let cuts = halved(&mut advance, |a, b| f64::midpoint(*a, *b), (&0.0, &1.0), 0.0, MOST_CUTS)
            .map_err(|failure| failure.of_heat(self.turn, self.state.time_s, heat.iterations))?;
        self.effort.cuts += cuts;
        self.state.time_s += dt_s;
        heat.temperatures(&mut self.t_c);
        self.peak_c.iter_mut().zip(&self.t_c).for_each(|(peak, t)| *peak = peak.max(*t));
        let to = self.at_spots();
        self.advance(to)
    }

    fn advance(&mut self, to: Vec<f64>) -> Result<(), SectionError> {
        let from = std::mem::replace(&mut self.state.at_spots, to);
        let State { bars, at_spots: to, time_s } = &mut self.state;
        let mut advance = |to: &Vec<f64>, lead| bars.advance(to, lead);
        let cuts = halved(&mut advance, |a, b| mixed(a, b, 0.5), (&from, to), 0.0, MOST_CUTS)
            .map_err(|failure| failure.of_forces(self.turn, *time_s, MOST_CUTS))?;
        self.effort.cuts += cuts;
        Ok(())
    }

    /// Fillets that have solidified bear.
    fn bear(&mut self) {
        let State { bars, at_spots, .. } = &mut self.state;
        for (quad, t_c) in at_spots.chunks_exact(4).enumerate() {
            if self.there[quad] && !bars.bears(quad) && t_c.iter().sum::<f64>() / 4.0 < SOLIDUS_C {
                bars.bear(quad, t_c);
            }
        }
    }

    fn at_spots(&self) -> Vec<f64> {
        let of = |(k, point): (usize, &Bilinear)| {
            let corners = &self.grid.quads[k / 4].corners;
            point.shares.iter().zip(corners).map(|(share, &c)| share * self.t_c[self.grid.unknown[c]]).sum()
        };
        self.points.iter().enumerate().map(of).collect()
    }

    /// Coldest and hottest of all that is there, °C.
    fn range(&self) -> (f64, f64) {
        let present = self.grid.quads.iter().zip(&self.there).filter(|(_, there)| **there);
        present
            .flat_map(|(quad, _)| quad.corners)
            .map(|c| self.t_c[self.grid.unknown[c]])
            .fold((f64::INFINITY, f64::NEG_INFINITY), |r, t| (r.0.min(t), r.1.max(t)))
    }

    fn cold(&self) -> bool {
        let (coldest, hottest) = self.range();
        let least = self.job.settings.cold_k;
        hottest - self.job.settings.surface.ambient_c < least || hottest - coldest < least
    }
}
