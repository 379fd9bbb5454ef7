//! Whether and how far the web waves: by what presses it, and by how it came.

use super::Job;
use super::divided::Divided;
use super::plan::WalkPlan;
use super::result::{Ripple, RippleVerdict};
use super::uncertainty::{PART_OF_LIMIT, SPAN};
use super::unsure::Unsure;
use super::walk::{Walk, WebPart};
use crate::bow::Plane;
use crate::bow::web_ripple::{
    K_CLAMPED, K_HINGED, amplitude_mm, buckled, critical_mean_mpa, critical_mpa, wave_amid_mm, waves_mm,
};
use crate::member::{Parts, WebPiece, properties};
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
    let row = FLATNESS.iter().find(|row| thickness_mm < row.0).map_or([5.0, 8.0], |row| row.1);
    let metres = 1e-3 * edge_mm;
    if metres < 1.0 { row[0] * metres * metres } else { row[0] + (metres - 1.0).min(1.0) * (row[1] - row[0]) }
}

/// Waves as delivered at a place, mm: mean, and standard deviation from piece to piece.
fn came_mm(piece: &WebPiece, depth_mm: f64) -> [f64; 2] {
    let usual = || PART_OF_LIMIT * allowed_mm(piece.thickness_mm, depth_mm);
    [piece.comes.waves_mm.unwrap_or(0.0), piece.comes.waves_scatter_mm.unwrap_or_else(usual)]
}

/// The web, substep by substep.
pub(crate) fn ripple(job: &Job, plan: &WalkPlan, march: &Walk, unsure: &Unsure) -> Vec<Ripple> {
    march.web.iter().map(|part| at(job, plan, part, unsure)).collect()
}

/// The same without its waves: how it is pressed.
pub(crate) fn pressed(job: &Job, plan: &WalkPlan, march: &Walk) -> Vec<Ripple> {
    march.web.iter().map(|part| pressed_at(job, plan, part)).collect()
}

fn pressed_at(job: &Job, plan: &WalkPlan, part: &WebPart) -> Ripple {
    let (web_mm, e_mpa) = (plan.spans[part.span].plates.web_mm, job.member.steel.e_mpa);
    let compression_mpa = -e_mpa * part.flat.at(0.5 * part.depth_mm);
    let [low, high] = [K_HINGED, K_CLAMPED].map(|k| critical_mpa(k, web_mm, part.depth_mm, e_mpa));
    Ripple {
        x_mm: part.x_mm,
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

fn at(job: &Job, plan: &WalkPlan, part: &WebPart, unsure: &Unsure) -> Ripple {
    let pressed = pressed_at(job, plan, part);
    let (span, e_mpa) = (&plan.spans[part.span], job.member.steel.e_mpa);
    let (web_mm, depth_mm) = (span.plates.web_mm, part.depth_mm);
    let parts = plan.turns(part.span).last().map_or(Parts::ALL, |turn| turn.parts);
    let critical = critical_mean_mpa(web_mm, depth_mm, e_mpa);
    let critical_strain = critical / e_mpa;
    // under so many times the force: working share, edge strain
    let under = |times: f64| {
        let compression_mpa = times * pressed.compression_mpa;
        let flat = (1.0, compression_mpa / e_mpa);
        if compression_mpa <= critical {
            return flat;
        }
        let section = properties(&span.plates, depth_mm, span.slope, parts);
        let plane =
            Plane { at_edge: times * part.flat.at_edge, in_plane: times * part.flat.in_plane, lateral: 0.0 };
        let buckled = buckled(&section, web_mm, depth_mm, &plane, e_mpa);
        buckled.map_or(flat, |b| (b.share, b.edge_mpa / e_mpa))
    };
    // half-height with flanges that hinge and that clamp, of a web that came so wavy
    let wavy = |(share, strain): (f64, f64), came: f64| {
        if came > 0.0 {
            waves_mm(depth_mm, critical_strain, strain, came)
        } else if share < 1.0 {
            amplitude_mm(depth_mm, strain, share)
        } else {
            [0.0; 2]
        }
    };
    let mean = |waves: [f64; 2]| 0.5 * (waves[0] + waves[1]);
    let piece = job.member.web.iter().find(|piece| part.x_mm <= piece.to_mm);
    let [usual, sd] = piece.map_or([0.0; 2], |piece| came_mm(piece, depth_mm));
    let came = if unsure.flat { 0.0 } else { (usual + unsure.waves * sd).abs() };
    let now = under(1.0);
    let waves = wavy(now, came);
    let mut wave_2s_of = Divided::default();
    if !unsure.silent {
        // a wave grows with the root of what is beyond the critical stress, so its span is looked up, not differentiated
        let force = unsure.force.hypot(unsure.heat);
        let [less, more] =
            [1.0 - SPAN * force, 1.0 + SPAN * force].map(|times| mean(wavy(under(times), came)));
        wave_2s_of.shared_mm = (0.5 * (more - less)).hypot(waves[0] - waves[1]);
        if sd > 0.0 {
            let amid = |came: f64| wave_amid_mm(depth_mm, critical_strain, now.1, came);
            let without = if came > 0.0 { amid(came) } else { mean(waves) };
            wave_2s_of.plates_mm = (amid(came + SPAN * sd) - without).max(0.0);
        }
        wave_2s_of.all_mm = wave_2s_of.shared_mm.hypot(wave_2s_of.plates_mm);
    }
    let (wave_mm, wave_2s_mm) = (mean(waves), wave_2s_of.all_mm);
    Ripple { working: now.0, wave_mm, wave_2s_mm, wave_2s_of, ..pressed }
}
