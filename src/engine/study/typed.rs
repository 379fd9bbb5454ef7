//! From places of a file to typed numbers of the checked job, and which axes can take that way: then a case sets numbers in
//! a job that was checked once, instead of writing, reading and checking a file anew.

use super::axis::{Axis, Takes};
use super::bases::Base;
use super::edit;
use super::place::Target;
use crate::input::PathStep;
use crate::job::check_placed;
use crate::job::file::JobFile;
use crate::member::Seam;
use crate::prediction::{Field, Job};
use crate::scatter::draws_with;
use crate::welding::Side;
use serde_json::Value;
use std::sync::OnceLock;

/// Most jobs that are kept for axes that act on the file (a choice: some megabytes).
const MOST_KEPT: usize = 4096;

/// How an axis gets into a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum AxisRoute {
    /// By its number of the checked job.
    Typed,
    /// By its place in the file.
    File,
    /// It turns whole jobs.
    Job,
    /// It turns a setting of the study.
    Setting,
}

/// A checked job, and the numbers that each axis sets in it.
#[derive(Debug, Clone)]
pub(super) struct Ready {
    /// The job, without what only people read.
    pub job: Job,
    /// Axis by axis; nothing for axes that are in the job already.
    pub fields: Vec<Vec<Field>>,
    /// Axis by axis which field of a usual input draws for each of them.
    pub draws: Vec<Vec<usize>>,
}

/// Jobs of one base, one for each set of values of the axes that act on the file.
#[derive(Debug, Clone)]
pub(super) struct Kept {
    /// Axes that act on the file, and how many values each has.
    axes: Vec<(usize, usize)>,
    /// None if there would be too many, or if such an axis draws.
    cells: Option<Vec<OnceLock<Option<Ready>>>>,
}

/// Whether each axis can take the typed way; all bases agree.
pub(crate) fn ways(axes: &[(String, Axis)], bases: &[Base]) -> Vec<AxisRoute> {
    let mut ways: Vec<AxisRoute> =
        axes.iter().enumerate().map(|(i, (_, axis))| way(axis, i, bases)).collect();
    // what lies inside a table that is replaced as a whole is replaced with it
    let within = |outer: &Target, inner: &Target| match (outer, inner) {
        (Target::Nodes(outer), Target::Nodes(inner)) => {
            outer.iter().any(|o| inner.iter().any(|i| i.len() > o.len() && i.starts_with(o)))
        }
        (Target::Nodes(_), Target::Length) => true,
        _ => false,
    };
    for inner in 0..ways.len() {
        let replaced = (0..ways.len()).any(|outer| {
            let structure = |base: &Base| within(&base.targets[outer], &base.targets[inner]);
            ways[outer] == AxisRoute::File && bases.iter().any(structure)
        });
        if ways[inner] == AxisRoute::Typed && axes[inner].1.usual.is_none() && replaced {
            ways[inner] = AxisRoute::File;
        }
    }
    ways
}

fn way(axis: &Axis, index: usize, bases: &[Base]) -> AxisRoute {
    // a record is asked anew for every job: what is no longer like its pieces goes without it
    let typed = |base: &Base| {
        base.file.learned.is_none()
            && match &base.targets[index] {
                Target::Job | Target::Setting(_) => false,
                Target::Length => base.file.demand.is_none(),
                // any numbers will do here: where passes stand in the job is asked once it is built
                Target::Nodes(nodes) => nodes.iter().all(|node| field(node, &base.file, &[], &[]).is_some()),
            }
    };
    match &axis.takes {
        _ if matches!(bases[0].targets[index], Target::Job) => AxisRoute::Job,
        _ if matches!(bases[0].targets[index], Target::Setting(_)) => AxisRoute::Setting,
        Takes::Others(_) => AxisRoute::File,
        _ if axis.usual.is_some() || bases.iter().all(typed) => AxisRoute::Typed,
        Takes::Numbers(..) | Takes::Draws(..) => AxisRoute::File,
    }
}

/// The number of a checked job that stands at a place of its file. `places` are those of the file's passes in the job,
/// `orders` the numbers of its orders; empty where only the kind is asked for.
fn field(node: &[PathStep], file: &JobFile, places: &[usize], orders: &[u32]) -> Option<Field> {
    let mut keys = [""; 3];
    let mut items = [0; 2];
    let (mut key, mut item) = (0, 0);
    for step in node {
        match step {
            PathStep::Key(name) => {
                *keys.get_mut(key)? = name;
                key += 1;
            }
            PathStep::Item(index) => {
                *items.get_mut(item)? = *index;
                item += 1;
            }
        }
    }
    let [first, second] = items;
    let pass = || if places.is_empty() { Some(first) } else { places.get(first).copied() };
    // runs of a pass are passes of their own, and orders are numbered anew
    let one_run = || file.passes.get(first).is_some_and(|p| p.runs.unwrap_or(1) == 1);
    let in_one_run = file.passes.iter().all(|p| p.runs.unwrap_or(1) == 1);
    let wait = || {
        let number = file.orders.get(first)?.number;
        if orders.is_empty() { Some(first) } else { orders.iter().position(|n| *n == number) }
    };
    Some(match (keys, key, item) {
        (["factors", "force", _], 2, 0) => Field::Force,
        (["factors", "heat_from_leg", _], 2, 0) => Field::HeatFromLeg,
        (["factors", "outer_seam", _], 2, 0) => Field::ForceOfSeam(Seam::Outer),
        (["factors", "inner_seam", _], 2, 0) => Field::ForceOfSeam(Seam::Inner),
        (["factors", "outer_second", _], 2, 0) => Field::SecondSide(Seam::Outer),
        (["factors", "inner_second", _], 2, 0) => Field::SecondSide(Seam::Inner),
        (["factors", "arm", _], 2, 0) => Field::Arm,
        (["factors", "cross_welds", _], 2, 0) => Field::CrossWelds,
        (["factors", "cup", _], 2, 0) => Field::Cup,
        (["factors", "tilt", _], 2, 0) => Field::Tilt,
        (["factors", "near_tilt", _], 2, 0) => Field::TiltOfSide(Side::Near),
        (["factors", "far_tilt", _], 2, 0) => Field::TiltOfSide(Side::Far),
        // a leg that follows from its deposit would take that along
        (["pass", "leg", _], 2, 1) if file.passes.get(first)?.leg.is_some() && one_run() => {
            Field::Leg(pass()?)
        }
        (["pass", "heat_input", _], 2, 1) if one_run() => Field::Heat(pass()?),
        (["pass", "force_factor", _], 2, 1) if one_run() => Field::ForceOfPass(pass()?),
        (["step", "wait", _], 2, 1) if in_one_run => Field::Wait(wait()?),
        (["camber", "rise", _], 2, 0) => Field::CamberRise,
        // a gap changes legs that follow from their deposit
        (["member", "fit_up_gap", _], 2, 0) if file.passes.iter().all(|p| p.leg.is_some()) => Field::Gap,
        (["member", "depth", _], 2, 2) if second == 1 => Field::Depth(first),
        (["member", "web", "thickness"], 3, 1) => Field::Web(first),
        (["member", "outer_flange", "thickness"], 3, 1) => Field::Flange(Seam::Outer, first),
        (["member", "inner_flange", "thickness"], 3, 1) => Field::Flange(Seam::Inner, first),
        (["member", "outer_flange", "width"], 3, 1) => Field::FlangeWidth(Seam::Outer, first),
        (["member", "inner_flange", "width"], 3, 1) => Field::FlangeWidth(Seam::Inner, first),
        _ => return None,
    })
}

impl Ready {
    /// A job with the numbers of its typed axes.
    ///
    /// # Errors
    /// Nothing is said: whoever wants to know why takes the way of the file.
    pub(super) fn of(file: &JobFile, axes: &[Axis], ways: &[AxisRoute], targets: &[Target]) -> Option<Self> {
        let (job, places) = check_placed(file).ok()?;
        let orders: Vec<u32> = job.orders.iter().map(|o| o.number).collect();
        let all = axes.iter().zip(ways).zip(targets).map(|((axis, way), target)| match (way, target) {
            (AxisRoute::File | AxisRoute::Job | AxisRoute::Setting, _)
            | (_, Target::Job | Target::Setting(_)) => Vec::new(),
            (AxisRoute::Typed, Target::Length) => vec![Field::Length],
            // in the order of the file, so that every pass draws what it would draw there
            (AxisRoute::Typed, Target::Nodes(nodes)) => {
                let all = nodes.iter().filter_map(|node| field(node, file, &places, &orders));
                match axis.usual.map(|usual| (usual.fields)(&job)) {
                    Some(acts) => {
                        let placed: Vec<Field> = all.filter(|field| acts.contains(field)).collect();
                        // runs of a pass, and what follows from another number, stand in no place of the file
                        if placed.len() < acts.len() { acts } else { placed }
                    }
                    None => all.collect(),
                }
            }
        });
        let fields: Vec<Vec<Field>> = all.collect();
        let draws = axes.iter().zip(&fields).map(|(axis, fields)| match axis.usual {
            Some(_) if axis.each => draws_with(&job, fields),
            _ => Vec::new(),
        });
        let draws = draws.collect();
        let job = Job { carries: None, notes: Vec::new(), title: String::new(), ..job };
        Some(Self { job, fields, draws })
    }
}

impl Kept {
    /// Room for the jobs of one base.
    pub(super) fn new(axes: &[Axis], ways: &[AxisRoute]) -> Self {
        let by_file = axes.iter().zip(ways).enumerate().filter(|(_, (_, way))| **way == AxisRoute::File);
        let values: Vec<(usize, Option<usize>)> = by_file.map(|(i, (axis, _))| (i, axis.values())).collect();
        let count = values.iter().try_fold(1_usize, |count, (_, n)| count.checked_mul((*n)?));
        Self {
            axes: values.into_iter().map(|(i, n)| (i, n.unwrap_or(1))).collect(),
            cells: count.filter(|n| *n <= MOST_KEPT).map(|n| (0..n).map(|_| OnceLock::new()).collect()),
        }
    }

    /// The job of those values, made by `make` when it is asked for first; None if it is not kept, or cannot be made.
    pub(super) fn get(&self, values: &[usize], make: impl FnOnce() -> Option<Ready>) -> Option<&Ready> {
        let at = self.axes.iter().fold(0, |at, (axis, n)| at * n + values[*axis]);
        self.cells.as_ref()?.get(at)?.get_or_init(make).as_ref()
    }

    /// Whether jobs are kept.
    pub(crate) const fn keeps(&self) -> bool {
        self.cells.is_some()
    }
}

/// Puts the values of the axes that act on the file into a job.
pub(crate) fn by_file(base: &Base, axes: &[Axis], ways: &[AxisRoute], values: &[usize]) -> Option<JobFile> {
    let mut job: Value = base.value.clone();
    for (index, axis) in axes.iter().enumerate().filter(|(i, _)| ways[*i] == AxisRoute::File) {
        axis.values()?;
        edit::set_listed(&mut job, &base.targets[index], axis, values[index]);
    }
    serde_json::from_value(job).ok()
}
