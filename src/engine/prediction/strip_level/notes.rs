//! What goes with a prediction of the strip level: how it came about, what the formulas say, what to beware of.

use super::stations::{NEAR_ENOUGH, Stations};
use crate::member::Seam;
use crate::prediction::result::{Prediction, StripNotes};
use crate::prediction::{Job, Warning, WarningCode};
use crate::units::{Message, Part};

/// Part of a flange's thickness from which melting is worth a warning (choice: a plate with less than a tenth left sags).
const NEARLY_THROUGH: f64 = 0.9;

/// Error of the heat balance from which a run is not trusted, relative.
const BALANCED: f64 = 1e-3;

/// The job as computed; where something learned was in it, its note says that it is left out.
pub(crate) fn without_record(job: &Job) -> Job {
    let mut bare = job.unlearned();
    let Some(recorded) = &job.recorded else { return bare };
    for note in bare.notes.iter_mut().filter(|n| n.code == WarningCode::Learned) {
        let said = format!(
            "what {} say is not applied: they say how far the formulas are off, not the strip level",
            recorded.from
        );
        *note = Warning::new(WarningCode::NotLearned, said);
    }
    bare
}

/// Adds them; `formula` is the formula level's prediction of the same job.
pub(crate) fn add(job: &Job, stations: &Stations, formula: &Prediction, prediction: &mut Prediction) {
    prediction.strip = Some(StripNotes {
        stations: stations.count,
        station_gap: stations.gap,
        energy_balance: stations.energy_balance,
        steps: stations.effort.steps,
        formula_shortening_mm: formula.shortening_mm,
        formula_camber_mm: formula.camber.max_mm,
        formula_sweep_mm: formula.sweep.max_mm,
    });
    let out = &mut prediction.warnings;
    out.push(Warning::new(
        WarningCode::LevelMixed,
        "strip level: shortening, camber, sweep and web compression are computed from first principles; cup, tilt and toes \
         are still those of the formula level, because bars know no angles",
    ));
    if job.thermally_cut_web {
        out.push(Warning::new(
            WarningCode::LevelMixed,
            "the force that hot cutting has spent in the web edges is taken off as the formula level does",
        ));
    }
    let hot = |seam| job.member.flange(seam).iter().any(|p| p.comes.edges.hot().iter().sum::<f64>() > 0.0);
    if Seam::BOTH.into_iter().any(hot) {
        out.push(Warning::new(
            WarningCode::LevelMixed,
            "what hot cutting of the flanges' edges left in their middle is reckoned in as the formula level does",
        ));
    }
    if job.passes.iter().any(|p| p.welded_fraction() < 1.0) {
        out.push(Warning::new(
            WarningCode::LevelMixed,
            "intermittent passes: the strip level computes a pass all along and takes the welded part of its force",
        ));
    }
    for (seam, [flange, web]) in Seam::BOTH.into_iter().zip(stations.melted) {
        if flange.share > NEARLY_THROUGH {
            let text = Message::of(
                "{} seam at {}: the heat melts {} of a {} flange, so it would sag or burn through, and the force there is not \
                 to be relied on; use less heat or a thicker flange",
                [
                    seam.name().into(),
                    Part::Position(flange.x_mm),
                    Part::Plate(flange.share * flange.thickness_mm),
                    Part::Plate(flange.thickness_mm),
                ],
            );
            out.push(Warning::new(WarningCode::MeltThrough, text));
        }
        if web.share > NEARLY_THROUGH {
            let text = Message::of(
                "{} seam at {}: above the fillet the heat melts the web through, so it would burn through, and the force there \
                 is not to be relied on; use less heat or a thicker web",
                [seam.name().into(), Part::Position(web.x_mm)],
            );
            out.push(Warning::new(WarningCode::MeltThrough, text));
        }
    }
    if stations.energy_balance > BALANCED {
        let text = format!(
            "the heat of a pass is balanced to {:.2} % only; the force there is not to be relied on: report this job",
            100.0 * stations.energy_balance
        );
        out.push(Warning::new(WarningCode::HeatBalance, text));
    }
    if stations.gap > NEAR_ENOUGH {
        let text = format!(
            "strip stations miss the line between their neighbours by up to {:.1} % of the force: something jumps along the \
             member that its plates do not show",
            100.0 * stations.gap
        );
        out.push(Warning::new(WarningCode::StationsFar, text));
    }
}
