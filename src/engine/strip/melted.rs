//! How deep the plates melt.

use super::grid::{CellGrid, CellKind};
use super::layout::StripSection;
use super::outcome::SeamMelted;
use crate::joint_solver::SAME_POINT_MM;
use crate::member::Seam;
use crate::steel::molten::SOLIDUS_C;

/// Reads the highest temperatures of one turn, °C.
pub(crate) fn melted(section: &StripSection, grid: &CellGrid, peak_c: &[f64]) -> [SeamMelted; 2] {
    let mut melted = [SeamMelted::default(); 2];
    let leg = |seam| section.legs_mm(seam).into_iter().flatten().fold(0.0, f64::max);
    let hot = |corner: usize| peak_c[grid.unknown[corner]] > SOLIDUS_C;
    let mut levels: [Vec<[f64; 2]>; 2] = [vec![], vec![]];
    for quad in &grid.quads {
        for corner in quad.corners.into_iter().filter(|c| hot(*c)) {
            let [z, y] = grid.corners_mm[corner];
            match quad.piece {
                CellKind::Flange(seam) => {
                    let depth = section.y_mm(seam, 0.0) - y;
                    let into = if seam == Seam::Outer { depth } else { -depth };
                    let deepest = &mut melted[seam as usize].flange_mm;
                    *deepest = deepest.max(into);
                }
                CellKind::Web => {
                    let seam = section.seam_at(y);
                    let up = (y - section.y_mm(seam, 0.0)).abs();
                    // Between the fillets the web is meant to melt.
                    if up > leg(seam) + SAME_POINT_MM {
                        levels[seam as usize].push([y, z]);
                    }
                }
                CellKind::Fillet(..) => {}
            }
        }
    }
    for (level, melted) in levels.iter_mut().zip(&mut melted) {
        level.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
        for row in level.chunk_by(|a, b| (a[0] - b[0]).abs() < SAME_POINT_MM) {
            if let (Some(first), Some(last)) = (row.first(), row.last()) {
                melted.web_share = melted.web_share.max((last[1] - first[1]) / section.web_mm);
            }
        }
    }
    melted
}
