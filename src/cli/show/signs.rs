//! The one legend of signs.

use super::report::Report;

/// What a sign means, wherever one is printed.
pub(crate) const SIGNS: &str =
    "Signs: + to inner flange (camber), near side (sweep), web (flanges), too long.";

/// The legend.
pub(super) fn signs(out: &mut Report) {
    out.plain(SIGNS)
}
