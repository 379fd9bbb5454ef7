//! The one legend of signs.

use super::table::plain_text;
use std::io::{Result, Write};

/// What a sign means, wherever one is printed.
pub(crate) const SIGNS: &str =
    "Signs: + to inner flange (camber), near side (sweep), web (flanges), too long.";

/// The legend.
pub(super) fn signs(out: &mut dyn Write) -> Result<()> {
    writeln!(out, "{}", plain_text(SIGNS, 1))
}
