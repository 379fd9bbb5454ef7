//! From a job and its prediction to what its pieces are judged by and planned with, as a single predicted piece is.

use super::work::Basis;
use crate::prediction::{Job, Prediction, ShapeAlone};
use crate::shop::Shop;
use crate::straighten::decide::Situation;
use crate::straighten::piece::{goals, shop_for, weld_stress};
use crate::straighten::shape::{OutOfStraight, Toes};

/// What all pieces of a job share: an ordinary building member, measured once.
pub(super) fn basis(job: &Job, prediction: &Prediction, shop: &Shop) -> Basis {
    Basis {
        member: job.member.clone(),
        goals: goals(job, &shop.measuring).goals,
        shop: shop_for(&shop.tools, job),
        situation: Situation::USUAL,
        weld: weld_stress(job, prediction),
        measurements: 1,
    }
}

/// The shape of a drawn piece, webs cut straight and flanges not preset; camber is what differs from the wanted one. None if
/// there are too few stations.
pub(super) fn shape(job: &Job, drawn: &ShapeAlone) -> Option<OutOfStraight> {
    let length = job.member.length_mm;
    let wanted = |x: f64| job.wanted_camber.map_or(0.0, |w| w.offset_mm(x, length));
    let toes = drawn.flanges.iter();
    OutOfStraight::new(
        length,
        drawn.camber.profile.iter().map(|p| p[0]).collect(),
        drawn.camber.profile.iter().map(|p| p[1] - wanted(p[0])).collect(),
        drawn.sweep.profile.iter().map(|p| p[1]).collect(),
        toes.map(|f| Toes { seam: f.flange, x_mm: f.x_mm, near_mm: f.near_toe_mm, far_mm: f.far_toe_mm })
            .collect(),
    )
    .ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, STARTER_US, read_text};
    use crate::prediction::{predict, predict_shape};
    use crate::straighten::piece::{Making, predicted};

    /// A piece drawn at the middle of everything is the one that is planned for on its own.
    #[test]
    fn a_drawn_piece_has_the_shape_that_a_single_one_is_planned_by() {
        for text in [STARTER, STARTER_US] {
            let job = read_text("job.toml", text).unwrap();
            let single = predicted(&job, &predict(&job), Making::default()).unwrap();
            assert_eq!(shape(&job, &predict_shape(&job)), Some(single));
        }
    }
}
