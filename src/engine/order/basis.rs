//! From a job and its prediction to what its pieces are judged by and planned with, as a single predicted piece is.

use super::work::Basis;
use crate::prediction::{Job, Prediction};
use crate::shop::Shop;
use crate::straighten::piece::{Piece, goals};
use crate::straighten::shape::{OutOfStraight, Toes};

/// What all pieces of a job share: an ordinary building member, measured once.
pub(super) fn basis(job: &Job, prediction: &Prediction, shop: &Shop) -> Basis {
    let goals = goals(job, &shop.measuring).goals;
    let straight =
        OutOfStraight { x_mm: Vec::new(), camber_mm: Vec::new(), sweep_mm: Vec::new(), toes: Vec::new() };
    Basis { member: job.member.clone(), piece: Piece::of(job, prediction, straight, goals, &shop.tools) }
}

/// The shape of a drawn piece, webs cut straight and flanges not preset; camber is what differs from the wanted one. None if
/// there are too few stations.
pub(super) fn shape(job: &Job, drawn: &Prediction) -> Option<OutOfStraight> {
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
    use crate::prediction::{Wanted, predict, predict_only};
    use crate::straighten::piece::{Fabrication, predicted};

    /// A piece drawn at the middle of everything is the one that is planned for on its own.
    #[test]
    fn a_drawn_piece_has_the_shape_that_a_single_one_is_planned_by() {
        for text in [STARTER, STARTER_US] {
            let job = read_text("job.toml", text).unwrap();
            let single = predicted(&job, &predict(&job), Fabrication::default()).unwrap();
            assert_eq!(shape(&job, &predict_only(&job, &Wanted::SHAPE)), Some(single));
        }
    }
}
