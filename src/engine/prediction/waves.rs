//! Whether and how far the web waves: by what presses it, and by how it came.

use super::Job;
use super::divided::Divided;
use super::plan::WalkPlan;
use super::result::{Ripple, RippleVerdict};
use super::uncertainty::{PART_OF_LIMIT, SPAN};
use super::walk::{Walk, WebPart};
use crate::bow::Plane;
use crate::bow::web_ripple::{K_CLAMPED, K_HINGED, amplitude_mm, buckled, critical_mean_mpa, critical_mpa};
use crate::bow::web_waves::{waves_amid_mm, waves_mm};
use crate::member::{Parts, WebPiece, inclined};
use crate::numerics::{LANES, Number};
use crate::sources::{Constant, Trust};

/// What may stand off a straightedge of 1 m and of 2 m, mm, by thickness below so many mm: EN 10029 normal flatness (N), steels to
/// 460 MPa that are not quenched (memory, check). Shops that level coil do better; it is what a web may come with.
const FLATNESS: [(f64, [f64; 2]); 6] = [
    (5.0, [9.0, 14.0]),
    (8.0, [8.0, 12.0]),
    (15.0, [7.0, 11.0]),
    (25.0, [7.0, 10.0]),
    (40.0, [6.0, 9.0]),
    (f64::INFINITY, [5.0, 8.0]),
];
/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[Constant::new(
    "waves allowed to plate of 5 to 8 mm on 1 m",
    "prediction::waves::FLATNESS",
    FLATNESS[1].1[0],
    "mm",
    "EN 10029 normal flatness, class N; 9 mm below, 7 to 5 mm above; a third, as a bow over the depth, is one standard deviation",
    Trust::MemoryCheck,
)];

/// Allowed to plate of that thickness on a straightedge of that length, mm; on less than a metre a bow of the same curvature (choice: what mills
/// leave is long, so that the 1 % which the standard allows there is not used up).
fn allowed_mm(thickness_mm: f64, edge_mm: f64) -> f64 {
    let row = FLATNESS[FLATNESS.partition_point(|row| row.0 <= thickness_mm).min(FLATNESS.len() - 1)].1;
    let metres = 1e-3 * edge_mm;
    if metres < 1.0 { row[0] * metres * metres } else { row[0] + (metres - 1.0).min(1.0) * (row[1] - row[0]) }
}

/// Waves as delivered at a place, mm: mean, and standard deviation from piece to piece.
fn came_mm(piece: &WebPiece, depth_mm: f64) -> [f64; 2] {
    let usual = || PART_OF_LIMIT * allowed_mm(piece.thickness_mm, depth_mm);
    [piece.comes.waves_mm.unwrap_or(0.0), piece.comes.waves_scatter_mm.unwrap_or_else(usual)]
}

/// The web of jobs side by side in one substep: how it is pressed, and what that leaves of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pressed<N = f64> {
    x_mm: N,
    depth_mm: N,
    compression_mpa: N,
    /// Critical stress with hinged and with clamped edges, and half-way, MPa.
    critical_mpa: [N; 3],
    e_mpa: N,
}

/// The same where its waves are asked for.
struct Web<'a, N> {
    pressed: Pressed<N>,
    plan: &'a WalkPlan<N>,
    part: &'a WebPart<N>,
    /// Waves as delivered: mean, and standard deviation from piece to piece, mm.
    came_mm: [N; 2],
}

/// What waves are read for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Came<N = f64> {
    /// Waves of these very pieces, in standard deviations.
    pub(super) waves: N,
    /// Whether webs are taken as flat, however they come.
    pub(super) flat: bool,
}

/// The web, substep by substep, without its waves.
pub(super) fn pressed<N: Number>(plan: &WalkPlan<N>, march: &Walk<N>) -> impl Iterator<Item = Pressed<N>> {
    march.web.iter().map(|part| Pressed::of(plan, part))
}

/// Half-height of its waves, substep by substep, mm, of all that `came` asks for.
#[cfg_attr(wide, inline(always))]
pub(super) fn waves<N: Number, const C: usize>(
    jobs: &[&Job],
    plan: &WalkPlan<N>,
    march: &Walk<N>,
    came: [Came<N>; C],
) -> Vec<[N; C]> {
    let mut all: Vec<[N; C]> = Vec::with_capacity(march.web.len());
    for (index, part) in march.web.iter().enumerate() {
        if index > 0 && goes_on(&march.web[index - 1], part) {
            all.push(all[index - 1]);
            continue;
        }
        let web = Web::of(jobs, plan, part);
        let now = web.under(N::all(1.0));
        let mut half_mm = [N::default(); C];
        for (mm, came) in half_mm.iter_mut().zip(&came) {
            *mm = mean(web.wave(now, web.came(came)));
        }
        all.push(half_mm);
    }
    all
}

/// The web with its waves and what they are unsure by, substep by substep; `force` is the bias of all that presses it.
#[cfg_attr(wide, inline(always))]
pub(super) fn unsure_waves<N: Number>(
    jobs: &[&Job],
    plan: &WalkPlan<N>,
    march: &Walk<N>,
    came: Came<N>,
    force: N,
) -> Vec<Waved<N>> {
    let mut all: Vec<Waved<N>> = Vec::with_capacity(march.web.len());
    for (index, part) in march.web.iter().enumerate() {
        if index > 0 && goes_on(&march.web[index - 1], part) {
            let before = all[index - 1];
            all.push(Waved { pressed: Pressed { x_mm: part.x_mm, ..before.pressed }, ..before });
        } else {
            all.push(Web::of(jobs, plan, part).unsure(&came, force));
        }
    }
    all
}

/// Whether a web goes on as it was in the substep before.
#[cfg_attr(wide, inline(always))]
fn goes_on<N: Number>(before: &WebPart<N>, part: &WebPart<N>) -> bool {
    (before.span, before.depth_mm, before.flat) == (part.span, part.depth_mm, part.flat)
}

/// Of hinged and clamped edges.
#[cfg_attr(wide, inline(always))]
fn mean<N: Number>(waves: [N; 2]) -> N {
    (waves[0] + waves[1]) * 0.5
}

impl<N: Number> Pressed<N> {
    #[cfg_attr(wide, inline(always))]
    fn of(plan: &WalkPlan<N>, part: &WebPart<N>) -> Self {
        let (web_mm, depth_mm, e_mpa) = (plan.spans[part.span].plates.web_mm, part.depth_mm, plan.e_mpa);
        let critical = |k: f64| critical_mpa(k, web_mm, depth_mm, e_mpa);
        Self {
            x_mm: part.x_mm,
            depth_mm,
            compression_mpa: -e_mpa * part.flat.at(depth_mm * 0.5),
            critical_mpa: [
                critical(K_HINGED),
                critical(K_CLAMPED),
                critical_mean_mpa(web_mm, depth_mm, e_mpa),
            ],
            e_mpa,
        }
    }

    /// That of one job.
    pub(super) fn read(&self, k: usize) -> Ripple {
        let [low, high, _] = self.critical_mpa.map(|mpa| mpa.nth(k));
        let compression_mpa = self.compression_mpa.nth(k);
        Ripple {
            x_mm: self.x_mm.nth(k),
            compression_mpa,
            critical_low_mpa: low,
            critical_high_mpa: high,
            verdict: match compression_mpa {
                c if c <= low => RippleVerdict::Flat,
                c if c <= high => RippleVerdict::Possible,
                _ => RippleVerdict::Likely,
            },
            working: 1.0,
            wave_mm: 0.0,
            wave_2s_mm: 0.0,
            wave_2s_of: Divided::default(),
        }
    }
}

impl<'a, N: Number> Web<'a, N> {
    #[cfg_attr(wide, inline(always))]
    fn of(jobs: &[&Job], plan: &'a WalkPlan<N>, part: &'a WebPart<N>) -> Self {
        let came = |k: usize| {
            let x_mm = part.x_mm.nth(k);
            let piece = jobs[k].member.web.iter().find(|piece| x_mm <= piece.to_mm);
            piece.map_or([0.0; 2], |piece| came_mm(piece, part.depth_mm.nth(k)))
        };
        let mut each = [[0.0; 2]; LANES];
        for (k, each) in each.iter_mut().enumerate().take(N::COUNT) {
            *each = came(k);
        }
        let came_mm = [N::of(|k| each[k][0]), N::of(|k| each[k][1])];
        Self { pressed: Pressed::of(plan, part), plan, part, came_mm }
    }

    /// Under so many times the force: working share, strain of the edges.
    #[cfg_attr(wide, inline(always))]
    fn under(&self, times: N) -> (N, N) {
        let Self { plan, part, pressed: Pressed { depth_mm, e_mpa, .. }, .. } = *self;
        let span = &plan.spans[part.span];
        let parts = plan.turns(part.span).last().map_or(Parts::ALL, |turn| turn.parts);
        let (at_edge, in_plane) = (part.flat.at_edge * times, part.flat.in_plane * times);
        let plane = Plane { at_edge, in_plane, lateral: N::default() };
        let flat = (N::all(1.0), self.pressed.compression_mpa * times / e_mpa);
        let beyond = self.pressed.compression_mpa * times - self.pressed.critical_mpa[2];
        if !beyond.any(|beyond| beyond > 0.0) {
            return flat;
        }
        let section = inclined(&span.plates, depth_mm, span.cosine(), parts);
        // a web that stays flat beside others that buckle works whole
        match buckled(&section, span.plates.web_mm, depth_mm, &plane, e_mpa) {
            Some(buckled) => (buckled.share, buckled.edge_mpa / e_mpa),
            None => flat,
        }
    }

    /// Waves as delivered, mm.
    #[cfg_attr(wide, inline(always))]
    fn came(&self, came: &Came<N>) -> N {
        let [usual, sd] = self.came_mm;
        if came.flat { N::default() } else { (usual + came.waves * sd).abs() }
    }

    /// Half-height with flanges that hinge and that clamp, of a web that came so wavy.
    #[cfg_attr(wide, inline(always))]
    fn wave(&self, (share, strain): (N, N), came: N) -> [N; 2] {
        let (depth_mm, critical_strain) = (self.pressed.depth_mm, self.critical_strain());
        let flat = if came.any(|came| came <= 0.0) {
            amplitude_mm(depth_mm, strain, share)
        } else {
            [N::default(); 2]
        };
        if !came.any(|came| came > 0.0) {
            return flat;
        }
        let wavy = waves_mm(depth_mm, critical_strain, strain, came);
        let waved = |held: usize| came.above(N::default(), wavy[held], flat[held]);
        [waved(0), waved(1)]
    }

    #[cfg_attr(wide, inline(always))]
    fn critical_strain(&self) -> N {
        self.pressed.critical_mpa[2] / self.pressed.e_mpa
    }
}

impl<N: Number> Web<'_, N> {
    /// Its waves with two standard deviations: what all pieces share, and what plates bring.
    #[cfg_attr(wide, inline(always))]
    fn unsure(&self, came: &Came<N>, force: N) -> Waved<N> {
        let (nothing, came) = (N::default(), self.came(came));
        // a wave grows with the root of what is beyond the critical stress, so its span is looked up, not differentiated
        let mut waves = [[nothing; 2]; 3];
        let mut now = Default::default();
        for (times, waves) in [-force * SPAN + 1.0, force * SPAN + 1.0, N::all(1.0)].iter().zip(&mut waves) {
            now = self.under(*times);
            *waves = self.wave(now, came);
        }
        let [less, more, waves] = waves;
        let shared = ((mean(more) - mean(less)) * 0.5).beside(waves[0] - waves[1]);
        let (wave_mm, sd) = (mean(waves), self.came_mm[1]);
        let mut plates = nothing;
        if sd.any(|sd| sd > 0.0) {
            let both = [came, came + sd * SPAN];
            let amid = waves_amid_mm(self.pressed.depth_mm, self.critical_strain(), now.1, both);
            let without = came.above(nothing, amid[0], wave_mm);
            plates = sd.above(nothing, (amid[1] - without).max(nothing), nothing);
        }
        Waved { pressed: self.pressed, working: now.0, wave_mm, two_s_mm: [shared, plates] }
    }
}

/// The web with its waves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Waved<N = f64> {
    pressed: Pressed<N>,
    working: N,
    wave_mm: N,
    two_s_mm: [N; 2],
}

impl<N: Number> Waved<N> {
    /// Place, half-height and two standard deviations of the waves of one job, mm.
    pub(super) fn size(&self, k: usize) -> [f64; 3] {
        let [shared_mm, plates_mm] = self.two_s_mm.map(|mm| mm.nth(k));
        [self.pressed.x_mm.nth(k), self.wave_mm.nth(k), shared_mm.beside(plates_mm)]
    }

    /// That of one job.
    pub(super) fn read(&self, k: usize) -> Ripple {
        let [shared_mm, plates_mm] = self.two_s_mm.map(|mm| mm.nth(k));
        let all_mm = shared_mm.beside(plates_mm);
        let wave_2s_of = Divided { all_mm, shared_mm, plates_mm, welding_mm: 0.0 };
        let (working, wave_mm) = (self.working.nth(k), self.wave_mm.nth(k));
        Ripple { working, wave_mm, wave_2s_mm: all_mm, wave_2s_of, ..self.pressed.read(k) }
    }
}
