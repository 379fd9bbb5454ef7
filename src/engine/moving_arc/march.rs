//! The arc travels: time, heat, birth of fillets and joints, slice by slice.

use super::history::{History, reach_s};
use super::link::Link;
use super::outcome::{Along, Frame, Glance, PassTravelled, TravelEffort, Travelled};
use super::question::{Foot, Grip, Travel};
use super::row::{One, Row};
use super::stations::Stations;
use crate::joint_solver::{
    COLD_C, Clock, ElementKind, Facing, Joint, Mesh, Point, RELEASE, ROOT_TIE_MM, SectionError, Sequence,
    Slice, SliceReader, Solid, Supports, halved, mises, mixed,
};
use crate::steel::molten::SOLIDUS_C;
use crate::welding::Side;

/// Times a step is halved before it is given up.
const MOST_CUTS: u32 = 5;
/// Plastic strain of metal that counts as having flowed.
const FLOWED: f64 = 0.002;

/// Lays every pass of the sequence with an arc that travels, each onto cold steel. `watch` is told the part done, and asked whether to go on.
///
/// # Errors
/// Those of [`Sequence::check`] and [`Travel::check`]; `HeatDiverged`, `NoEquilibrium` or `Linear`; `Stopped` if told so.
pub fn travel(
    sequence: &Sequence,
    joint: &Joint,
    travel: &Travel,
    watch: &mut dyn FnMut(f64) -> bool,
) -> Result<Travelled, SectionError> {
    sequence.check()?;
    travel.check()?;
    let start = Clock::start();
    let all = sequence.points();
    let mut march = March::new(sequence, joint, travel, &all)?;
    let mut passes = Vec::new();
    for number in 1..=sequence.passes.len() {
        passes.push(march.lay(number, watch)?);
    }
    let work = TravelEffort {
        corrections: march.row.iterations,
        factorisations: march.row.slices.iter().map(|one| one.factors).sum(),
        ..march.work
    };
    let across_mm = march.face.iter().map(|&n| sequence.mesh.nodes_mm[n][0]).collect();
    Ok(Travelled { passes, across_mm, work, worst_left: march.row.worst_left, took: start.elapsed() })
}

struct March<'a> {
    sequence: &'a Sequence,
    joint: &'a Joint,
    travel: &'a Travel,
    points: &'a [Point],
    stations: Stations,
    /// Nodes of the flange's face under the web, from the far edge to the near one.
    face: Vec<usize>,
    /// Elements that take part in the heat problem.
    there: Vec<bool>,
    /// Elements that are solid, slice by slice.
    alive: Vec<Vec<bool>>,
    /// Temperatures of the points, slice by slice.
    at_c: Vec<Vec<f64>>,
    row: Row<'a>,
    last_dt_s: f64,
    /// All but what the row counts.
    work: TravelEffort,
}

impl<'a> March<'a> {
    fn new(
        sequence: &'a Sequence,
        joint: &'a Joint,
        travel: &'a Travel,
        all: &'a [Point],
    ) -> Result<Self, SectionError> {
        let stations = Stations::of(joint, &sequence.mesh);
        let linear = |cause| SectionError::Linear { pass: 1, time_s: 0.0, cause };
        let link =
            Link::new(&stations, sequence.steel.e_mpa, travel.slices, travel.spacing_mm()).map_err(linear)?;
        let there = sequence.plates();
        let nothing = Supports { always: vec![], while_hot: vec![] };
        let tolerance = sequence.settings.tolerance;
        let mut alive = vec![there.clone(); travel.slices];
        let mut slices = Vec::new();
        for (s, alive) in alive.iter_mut().enumerate() {
            let tacked = |part: ElementKind| {
                travel.tacked(s) && travel.tack_sides.iter().any(|side| part == ElementKind::Fillet(*side))
            };
            sequence.mesh.elements.iter().zip(&mut *alive).for_each(|(e, alive)| *alive |= tacked(e.part));
            let mut solid =
                Solid::new(&sequence.mesh, all, sequence.steel, nothing.clone(), alive.clone(), tolerance)
                    .map_err(linear)?;
            match travel.foot {
                Foot::Apart => solid.part_faces(),
                Foot::OnePiece => solid.join_faces(|_| true),
                Foot::Touching => {}
            }
            if travel.tacked(s) {
                let nodes = &sequence.mesh.nodes_mm;
                travel.tack_sides.iter().for_each(|side| solid.join_faces(root(nodes, joint, *side)));
            }
            slices.push(One::new(solid));
        }
        let row = Row::new(slices, link, &stations, tolerance);
        let at_c = vec![vec![COLD_C; all.len()]; travel.slices];
        Ok(Self {
            sequence,
            joint,
            travel,
            points: all,
            stations,
            face: face(&sequence.mesh),
            there,
            alive,
            at_c,
            row,
            last_dt_s: 0.0,
            work: TravelEffort { unknowns: sequence.mesh.unknowns(), ..TravelEffort::default() },
        })
    }

    fn lay(
        &mut self,
        number: usize,
        watch: &mut dyn FnMut(f64) -> bool,
    ) -> Result<PassTravelled, SectionError> {
        let (sequence, travel) = (self.sequence, self.travel);
        let pass = &sequence.passes[number - 1];
        sequence.lay(pass, &mut self.there);
        let speed = travel.speed_mm_s;
        let heat = History::of(sequence, self.points, number, &self.there, speed)?;
        let reach = reach_s(pass, speed);
        let passing_s = travel.length_mm / speed + 2.0 * reach;
        let steps = (passing_s * speed / travel.step_mm).ceil().max(1.0) as usize;
        let (mut dt, mut time) = (passing_s / steps as f64, -reach);
        let end = travel.length_mm / speed + heat.ends_s();
        let (mut frames, mut step) = (Vec::new(), 0);
        self.last_dt_s = 0.0;
        while time < end {
            if step >= steps {
                dt *= travel.growth;
            }
            step += 1;
            time += dt;
            self.hold(time * speed, step >= steps);
            let to = (0..travel.slices).map(|s| heat.at(time - travel.place_mm(s) / speed)).collect();
            self.advance(to, dt, number, time)?;
            self.bear(&pass.lays, time);
            if step % travel.frame_steps.max(1) == 0 || step == steps {
                frames.push(self.frame(time, &heat));
            }
            // Cooling takes some thirty steps.
            let done = (step as f64 / (steps as f64 + 30.0)).min(0.99) + (number - 1) as f64;
            if !watch(done / sequence.passes.len() as f64) {
                return Err(SectionError::Stopped);
            }
        }
        let cold = vec![vec![COLD_C; self.points.len()]; travel.slices];
        self.last_dt_s = 0.0;
        self.advance(cold, 0.0, number, time)?;
        self.let_go(number, time)?;
        frames.push(self.frame(time, &heat));
        let along = (0..travel.slices).map(|s| self.read(s)).collect();
        Ok(PassTravelled { along, frames, seconds: time, energy_balance: heat.energy_balance })
    }

    /// What is held while the arc stands there.
    fn hold(&mut self, arc_mm: f64, gone: bool) {
        let (travel, stations) = (self.travel, &self.stations);
        let up = |station: usize| 2 * station + 1;
        let top = 2 * stations.top;
        let square = [up(stations.edges[0]), up(stations.edges[1]), top];
        let mut held: Vec<(usize, usize)> = Vec::new();
        for s in 0..travel.slices {
            match travel.grip {
                Grip::Guided => held.push((s, top)),
                Grip::Square => held.extend(square.map(|port| (s, port))),
                Grip::Rolls(half) if !gone && (travel.place_mm(s) - arc_mm).abs() <= half => {
                    held.extend(square.map(|port| (s, port)));
                    // and press it onto the web
                    held.extend([2 * stations.foot, up(stations.foot), top + 1].map(|port| (s, port)));
                }
                Grip::Free | Grip::Rolls(_) => {}
            }
        }
        let amid = travel.slices / 2;
        if travel.grip == Grip::Square {
            // else the flange slides away under a web that turns about its top
            held.push((amid, 2 * stations.foot));
        }
        if held.is_empty() || travel.grip == Grip::Guided {
            held.extend([2 * stations.foot, up(stations.foot), top].map(|port| (amid, port)));
        }
        held.sort_unstable();
        held.dedup();
        self.row.hold(&held);
    }

    /// Takes away what holds beyond the six supports, little by little.
    fn let_go(&mut self, pass: usize, time_s: f64) -> Result<(), SectionError> {
        if self.travel.grip == Grip::Free {
            return Ok(());
        }
        let reactions = self.row.reactions();
        let amid = self.travel.slices / 2;
        let supports = [2 * self.stations.foot, 2 * self.stations.foot + 1, 2 * self.stations.top];
        self.row.hold(&supports.map(|port| (amid, port)));
        for part in RELEASE {
            self.row.load(reactions.iter().map(|r| part * r).collect());
            let at = self.at_c.clone();
            self.last_dt_s = 0.0;
            self.advance(at, 0.0, pass, time_s)?;
        }
        Ok(())
    }

    fn advance(
        &mut self,
        to: Vec<Vec<f64>>,
        dt_s: f64,
        pass: usize,
        time_s: f64,
    ) -> Result<(), SectionError> {
        let lead = if self.last_dt_s > 0.0 { dt_s / self.last_dt_s } else { 0.0 };
        let from = std::mem::replace(&mut self.at_c, to);
        let amid = |from: &Vec<Vec<f64>>, to: &Vec<Vec<f64>>| {
            from.iter().zip(to).map(|(a, b)| mixed(a, b, 0.5)).collect()
        };
        let mut advance = |to: &Vec<Vec<f64>>, lead| match self.row.advance(to, lead) {
            Err(_) if lead > 0.0 => self.row.advance(to, 0.0),
            done => done,
        };
        let cuts = halved(&mut advance, amid, (&from, &self.at_c), lead, MOST_CUTS)
            .map_err(|failure| failure.of_forces(pass, time_s, MOST_CUTS))?;
        self.work.halved += cuts;
        self.work.steps += 1;
        self.last_dt_s = if cuts == 0 { dt_s } else { 0.0 };
        Ok(())
    }

    /// Fillet elements behind the arc that have solidified become solid; with the first of them the root is joined.
    fn bear(&mut self, sides: &[Side], time_s: f64) {
        for s in 0..self.travel.slices {
            if time_s < self.travel.place_mm(s) / self.travel.speed_mm_s {
                continue;
            }
            let mut born = false;
            let one = &mut self.row.slices[s];
            for e in 0..self.there.len() {
                let own = &self.at_c[s][4 * e..4 * e + 4];
                if self.there[e] && !self.alive[s][e] && own.iter().sum::<f64>() / 4.0 < SOLIDUS_C {
                    one.solid.bear(e, own);
                    self.alive[s][e] = true;
                    born = true;
                }
            }
            if born {
                let nodes = &self.sequence.mesh.nodes_mm;
                sides.iter().for_each(|side| one.solid.join_faces(root(nodes, self.joint, *side)));
                one.changed();
            }
        }
    }

    fn frame(&self, time_s: f64, heat: &History) -> Frame {
        let glance = |s: usize| {
            let shape = self.reading(s).shape(&self.row.slices[s].solid.displaced_mm().unwrap_or_default());
            let (cup, tilt) =
                shape.map_or((0.0, 0.0), |shape| (shape.cup_rad, shape.tilt_rad.unwrap_or(0.0)));
            let t_c = heat.nodes_at(time_s - self.travel.place_mm(s) / self.travel.speed_mm_s);
            Glance {
                face_c: self.face.iter().map(|&n| (10.0 * t_c[n]).round() / 10.0).collect(),
                hottest_c: t_c.into_iter().fold(f64::NEG_INFINITY, f64::max),
                near_rad: cup + tilt,
                far_rad: cup - tilt,
                narrowing_mm: shape.map_or(0.0, |shape| shape.narrowing_mm),
            }
        };
        let slices = (0..self.travel.slices).map(glance).collect();
        Frame { time_s, arc_mm: time_s * self.travel.speed_mm_s, slices }
    }

    fn reading(&self, s: usize) -> SliceReader<'_> {
        SliceReader::new(&self.sequence.mesh, self.points, &self.alive[s], self.sequence.steel.e_mpa)
    }

    fn read(&self, s: usize) -> Along {
        let solid = &self.row.slices[s].solid;
        let reading = self.reading(s);
        let there =
            || solid.stress().iter().enumerate().filter(|(p, _)| self.alive[s][p / 4]).map(|(_, s)| s);
        let flowed = solid.plastic().into_iter().zip(self.points).enumerate();
        Along {
            x_mm: self.travel.place_mm(s),
            shrinkage: reading.shrinkage(solid.stress(), solid.plane()),
            shape: solid.displaced_mm().and_then(|moved| reading.shape(&moved)),
            plastic_mm2: flowed
                .filter(|(p, (plastic, _))| self.alive[s][p / 4] && *plastic > FLOWED)
                .map(|(_, (_, point))| point.area_mm2)
                .sum(),
            tension_mpa: there().map(|s| s[0]).fold(0.0, f64::max),
            equivalent_mpa: there().map(mises).fold(0.0, f64::max),
            compression_mpa: there().map(|s| s[0]).fold(0.0, f64::min),
        }
    }
}

/// Corners of elements on the face of the flange that the web stands on, from the far edge to the near one.
fn face(mesh: &Mesh) -> Vec<usize> {
    let corners = mesh.elements.iter().filter(|e| e.part == ElementKind::Flange).flat_map(|e| &e.nodes[..4]);
    let mut face: Vec<usize> = corners.copied().filter(|&n| mesh.nodes_mm[n][1].abs() < 1e-6).collect();
    face.sort_by(|&a, &b| mesh.nodes_mm[a][0].total_cmp(&mesh.nodes_mm[b][0]).then(a.cmp(&b)));
    face.dedup();
    face
}

/// Pairs of faces that a weld on that side joins: those within [`ROOT_TIE_MM`] of the web's edge.
fn root<'n>(nodes_mm: &'n [[f64; 2]], joint: &Joint, side: Side) -> impl Fn(&Facing) -> bool + use<'n> {
    let from = joint.web_mm / 2.0 - ROOT_TIE_MM - 0.1;
    move |pair| side.sign() * nodes_mm[pair.upper][0] > from
}
