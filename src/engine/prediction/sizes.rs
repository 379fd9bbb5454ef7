//! Sizes of pieces without their deviations, read from a walk of one job or of several of one layout side by side: for rows of a study, and
//! for drawn pieces, each of which is one size.

use super::Job;
use super::cross::CrossWelds;
use super::flanges::Folds;
use super::learned::Assembly;
use super::plan::WalkPlan;
use super::plates::Brought;
use super::result::{Bow, FlangeAngles, Ripple, Shortening, Twist};
use super::shapes::{self, Beside};
use super::uncertainty::Bias;
use super::unsure::shared_biases;
use super::verdicts::{JudgedShape, judges};
use super::walk::{Keep, Walk};
use super::wanted::Wanted;
use super::waves::{self, Came};
use super::{strips, twist};
use crate::numerics::{Number, Work, in_lanes};
use crate::tolerance::Quantity;

/// What sizes are asked for beside bows and shortening.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Asked {
    /// How bows run along the member.
    pub(super) profiles: bool,
    pub(super) flanges: bool,
    /// How the web is pressed, and how it waves.
    pub(super) pressed: bool,
    pub(super) waves: bool,
    pub(super) twist: bool,
}

impl Asked {
    /// By what is wanted of these jobs.
    pub(super) fn of(jobs: &[&Job], wanted: &Wanted) -> Self {
        let any =
            |quantity| wanted.verdicts.contains(quantity) && jobs.iter().any(|job| judges(job, quantity));
        let toes = [Quantity::FlangeTilt, Quantity::FlangeCup, Quantity::FlangeToe];
        Self {
            profiles: wanted.profiles
                || (any(Quantity::Camber) && jobs.iter().any(|job| job.wanted_camber.is_some())),
            flanges: wanted.flanges || toes.into_iter().any(any),
            pressed: wanted.ripple,
            waves: wanted.waves || any(Quantity::WebFlatness),
            twist: any(Quantity::Twist),
        }
    }

    /// What has to be kept of the walk for it.
    pub(super) const fn keep(&self) -> Keep {
        if self.pressed || self.waves || self.twist { Keep::Judged } else { Keep::Sums }
    }
}

/// Jobs walked, with what their sizes are read from. `C` is 1; or 2 where pieces are looked at as they are and by their welds alone, as if their
/// plates were straight and well set.
pub(super) struct Laid<'a, N: Number, const C: usize> {
    jobs: &'a [&'a Job],
    pub(super) plan: &'a WalkPlan<N>,
    pub(super) march: &'a Walk<N>,
    asked: Asked,
    folds: Option<Folds<N>>,
    /// Largest camber and sweep and where, mm, of jobs without welds across whose plates come straight.
    tops: [[(N, N); 2]; C],
    turn: [Vec<N>; C],
    waves: Vec<[N; C]>,
    /// Whether plates of any come bowed.
    bowed: bool,
}

/// One job as it is, or by its welds alone.
#[derive(Default)]
pub(super) struct Sizes {
    pub(super) shortening: Shortening,
    pub(super) camber: Bow,
    pub(super) sweep: Bow,
    twist: Twist,
    pub(super) flanges: Vec<FlangeAngles>,
    /// Place, half-height and two standard deviations of the waves of the web, mm.
    pub(super) waves: Vec<[f64; 3]>,
}

/// What plates bring to a job, or to its welds alone.
fn brings(job: &Job, bare: bool) -> Assembly {
    if bare { job.assembly } else { job.brought() }
}

/// Rise that plates and assembly add to camber and sweep, mm.
fn rise_mm(job: &Job, bare: bool) -> [f64; 2] {
    brings(job, bare).bow_mm_per_m.map(|bow| 1e-3 * job.member.length_mm * bow)
}

impl<'a, N: Number, const C: usize> Laid<'a, N, C> {
    /// Reads what jobs have in common side by side.
    pub(super) fn of(jobs: &'a [&'a Job], plan: &'a WalkPlan<N>, march: &'a Walk<N>, asked: Asked) -> Self {
        let cases: [bool; C] = std::array::from_fn(|case| case > 0);
        let bowed = jobs.iter().any(|job| job.any_plate_bowed());
        Self {
            jobs,
            plan,
            march,
            asked,
            bowed,
            folds: asked.flanges.then(|| Folds::of(jobs, plan)),
            tops: cases.map(|bare| {
                let rise_mm = [0, 1].map(|which: usize| N::of(|k| rise_mm(jobs[k], bare)[which]));
                in_lanes::<N, _>(Tops { march, rise_mm })
            }),
            turn: if asked.twist {
                in_lanes::<N, _>(Turning { jobs, plan, march, cases, bowed })
            } else {
                cases.map(|_| Vec::new())
            },
            waves: if asked.waves {
                in_lanes::<N, _>(Waves { jobs, plan, march, came: cases.map(|bare| came(jobs, bare)) })
            } else {
                Vec::new()
            },
        }
    }

    /// One job, put into `sizes`: as it is, and by its welds alone if that is looked at. Returns its welds across.
    #[inline(always)]
    pub(super) fn read(&self, k: usize, sizes: &mut [Sizes; C]) -> CrossWelds {
        let job = self.jobs[k];
        let cross = CrossWelds::of(job);
        let x_mm = || self.march.x_mm.iter().map(|x| x.nth(k)).collect::<Vec<f64>>();
        let bowed = if self.bowed { Brought::of(job, &x_mm()) } else { Brought::STRAIGHT };
        for (case, sizes) in sizes.iter_mut().enumerate() {
            let bare = case > 0;
            let brings = brings(job, bare);
            let brought = if bare { &Brought::STRAIGHT } else { &bowed };
            let beside = Beside { k, cross: &cross, brought, rise_mm: rise_mm(job, bare) };
            let bows = [&mut sizes.camber, &mut sizes.sweep];
            shapes::bows_alone(self.march, &beside, &self.tops[case], self.asked.profiles, bows);
            let cut_mm = 1e-3 * job.member.length_mm * brings.shortening_mm_per_m;
            sizes.shortening = shapes::shortening_alone(job, (self.march, k), &cross, cut_mm);
            let turned = self.march.x_mm.iter().zip(&self.turn[case]);
            sizes.twist.profile.clear();
            sizes.twist.profile.extend(turned.map(|(x, turn)| [x.nth(k), turn.nth(k)]));
            match &self.folds {
                Some(folds) => folds.stretches((job, k), self.plan, &brings, true, &mut sizes.flanges),
                None => sizes.flanges.clear(),
            }
            let waved = self.march.web.iter().zip(&self.waves);
            sizes.waves.clear();
            sizes.waves.extend(waved.map(|(part, mm)| [part.x_mm.nth(k), mm[case].nth(k), 0.0]));
        }
        cross
    }

    /// How the web of one job is pressed.
    pub(super) fn pressed(&self, k: usize) -> impl Iterator<Item = Ripple> {
        waves::pressed(self.plan, self.march).map(move |pressed| pressed.read(k))
    }
}

impl Sizes {
    /// To be judged.
    pub(super) fn judged(&self) -> JudgedShape<'_> {
        JudgedShape {
            camber: &self.camber,
            sweep: &self.sweep,
            twist: &self.twist,
            shortening: (self.shortening.centroid_mm, 0.0),
            flanges: &self.flanges,
            waves: &self.waves,
        }
    }
}

/// Waves of the webs of jobs with what they are unsure by: a prediction shows the place where a web may wave most.
pub(super) fn unsure_waves<N: Number>(
    jobs: &[&Job],
    plan: &WalkPlan<N>,
    march: &Walk<N>,
    bias: Bias,
) -> Vec<waves::Waved<N>> {
    let force = N::of(|k| {
        let [force, heat] = shared_biases(jobs[k], bias);
        force.hypot(heat)
    });
    in_lanes::<N, _>(UnsureWaves { jobs, plan, march, came: came(jobs, false), force })
}

/// With what waves the webs of jobs came.
fn came<N: Number>(jobs: &[&Job], bare: bool) -> Came<N> {
    Came { waves: N::of(|k| brings(jobs[k], bare).waves), flat: bare }
}

/// Largest bows, in wide registers.
struct Tops<'a, N> {
    march: &'a Walk<N>,
    rise_mm: [N; 2],
}

impl<N: Number> Work for Tops<'_, N> {
    type Done = [(N, N); 2];

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        shapes::tops(self.march, self.rise_mm)
    }
}

/// Turns of members, in wide registers.
struct Turning<'a, N, const C: usize> {
    jobs: &'a [&'a Job],
    plan: &'a WalkPlan<N>,
    march: &'a Walk<N>,
    /// Whether they are looked at by their welds alone.
    cases: [bool; C],
    bowed: bool,
}

impl<N: Number, const C: usize> Work for Turning<'_, N, C> {
    type Done = [Vec<N>; C];

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        let Self { jobs, plan, march, cases, bowed } = self;
        let torsion = twist::torsion(jobs[0], plan, march);
        let mut turns = cases.map(|_| Vec::new());
        for (bare, turn) in cases.into_iter().zip(&mut turns) {
            let apart = N::of(|k| brings(jobs[k], bare).apart_mm_per_m);
            let of_strips = strips::wanted(jobs, plan, march, bowed && !bare, apart);
            *turn = twist::turned(&torsion, march, plan.e_mpa, of_strips);
        }
        turns
    }
}

/// Waves of webs, in wide registers.
struct Waves<'a, N, const C: usize> {
    jobs: &'a [&'a Job],
    plan: &'a WalkPlan<N>,
    march: &'a Walk<N>,
    came: [Came<N>; C],
}

impl<N: Number, const C: usize> Work for Waves<'_, N, C> {
    type Done = Vec<[N; C]>;

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        waves::waves(self.jobs, self.plan, self.march, self.came)
    }
}

/// The same with what they are unsure by.
struct UnsureWaves<'a, N> {
    jobs: &'a [&'a Job],
    plan: &'a WalkPlan<N>,
    march: &'a Walk<N>,
    came: Came<N>,
    force: N,
}

impl<N: Number> Work for UnsureWaves<'_, N> {
    type Done = Vec<waves::Waved<N>>;

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        waves::unsure_waves(self.jobs, self.plan, self.march, self.came, self.force)
    }
}
