//! The one legend of signs.

use super::table::plain_text;
use std::io::{Result, Write};

/// What a sign means, wherever one is printed.
pub const SIGNS: &str = "Signs: + toward inner flange (camber), near side (sweep), web (cup, tilt, flange toes); length: too long.";

/// The legend; a camber judged against a wanted one has a meaning of its own.
pub fn signs(wanted_camber: bool, out: &mut dyn Write) -> Result<()> {
    let own = if wanted_camber { " Camber in the table: + more than wanted, − less." } else { "" };
    writeln!(out, "{}", plain_text(&format!("{SIGNS}{own}"), 1))
}
