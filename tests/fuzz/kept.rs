//! Jobs kept here: what every job that was read holds to, and that those of the tree read without a remark and survive being written.

use super::families::JOBS;
use weldbow::job::{check, file_of_text, read_text};
use weldbow::prediction::Job;
use weldbow::welding::fillet::leg_of_deposit_mm;

/// Whether sizes are positive and finite, and pieces lie end to end.
pub(crate) fn sound_job(job: &Job) -> Result<(), String> {
    let m = &job.member;
    let mut sizes =
        vec![m.length_mm, m.steel.yield_mpa, m.steel.tensile_mpa, m.steel.e_mpa, job.head_limit_deg];
    sizes.extend(m.depth.points().iter().map(|p| p.1));
    sizes.extend(m.web.iter().flat_map(|p| [p.thickness_mm, p.to_mm - p.from_mm]));
    for p in m.outer_flange.iter().chain(&m.inner_flange) {
        sizes.extend([p.thickness_mm, p.width_mm, p.to_mm - p.from_mm]);
    }
    for p in &job.passes {
        sizes.extend([p.to_mm - p.from_mm, p.leg_mm, p.heat_j_per_mm, p.deposit_mm2, p.welded_fraction()]);
    }
    sizes.extend(job.own_limits.iter().map(|l| l.limit_mm));
    if !sizes.iter().all(|v| v.is_finite() && *v > 0.0) {
        return Err(format!("sizes of {sizes:?}"));
    }
    let others = job.passes.iter().map(|p| p.preheat_k).chain([job.fit_up_gap_mm]);
    if !others.into_iter().all(|v| v.is_finite() && v >= 0.0) {
        return Err("a preheat or gap that is none".to_owned());
    }
    for pieces in [&m.outer_flange, &m.inner_flange] {
        let joined = pieces.windows(2).all(|p| p[0].to_mm.total_cmp(&p[1].from_mm).is_eq());
        let ends = (pieces[0].from_mm, pieces[pieces.len() - 1].to_mm);
        if !joined || ends.0.abs() > 1e-12 || (ends.1 - m.length_mm).abs() > 1e-12 {
            return Err(format!("a gap, or pieces from {} to {} mm", ends.0, ends.1));
        }
    }
    Ok(())
}

#[test]
fn every_job_kept_here_reads_without_a_remark_and_survives_being_written_again() {
    for text in JOBS {
        let job = read_text("kept.toml", text).unwrap_or_else(|complaint| panic!("{complaint}"));
        sound_job(&job).unwrap();
        assert_eq!(job.notes, [], "{}", job.title);
        let file = file_of_text("kept.toml", text).unwrap();
        let again = toml::to_string(&file).unwrap();
        let reread =
            file_of_text("again.toml", &again).unwrap_or_else(|complaint| panic!("{complaint}\n{again}"));
        assert_eq!(check(&reread).unwrap(), job, "{again}");
    }
}

#[test]
fn every_procedure_kept_here_fills_the_leg_its_passes_name_within_15_percent() {
    for text in JOBS {
        let job = read_text("kept.toml", text).unwrap();
        for pass in &job.passes {
            let filled = leg_of_deposit_mm(pass.deposit_mm2);
            let ratio = filled / pass.leg_mm;
            assert!(
                (0.85..=1.15).contains(&ratio),
                "{}: {filled:.2} mm for {:.2} mm",
                job.title,
                pass.leg_mm
            );
        }
    }
}
