//! Which numbers of a job differ from piece to piece together: those of one bead, and the thickness of one rolled plate, in
//! however many stretches they are written down.

use crate::prediction::uncertainty::beads;
use crate::prediction::{Field, Job};

/// For each field the place in the list of the one that draws for it: the first of the same bead or plate.
///
/// A bead is all that is laid on one side of one seam in one order with one leg and heat. Plates of one part that have one
/// thickness, and one width if they are flanges, are taken to be cut from one rolled plate (choice).
pub(crate) fn draws_with(job: &Job, fields: &[Field]) -> Vec<usize> {
    let beads = beads(&job.passes);
    let bead = |i: usize| beads.get(i).copied().unwrap_or(i);
    let first = |field: Field| match field {
        Field::Leg(i) => Field::Leg(bead(i)),
        Field::ForceOfPass(i) => Field::ForceOfPass(bead(i)),
        Field::Web(i) => {
            let t = |k: usize| job.member.web.get(k).map(|p| p.thickness_mm.to_bits());
            Field::Web((0..i).find(|k| t(*k) == t(i)).unwrap_or(i))
        }
        Field::Flange(seam, i) => {
            let plates = job.member.flange(seam);
            let size = |k: usize| plates.get(k).map(|p| [p.thickness_mm, p.width_mm].map(f64::to_bits));
            Field::Flange(seam, (0..i).find(|k| size(*k) == size(i)).unwrap_or(i))
        }
        other => other,
    };
    let firsts: Vec<Field> = fields.iter().map(|field| first(*field)).collect();
    let place = |(i, first)| firsts.iter().position(|other| other == first).unwrap_or(i);
    firsts.iter().enumerate().map(place).collect()
}
