//! What the numbers rest on, and the cautions that go with them.

use super::table::{heading, wrapped};
use std::io::{Result, Write};

const LINES: [&str; 4] = [
    "No measured set of member distortion was available to compare with: the ± is judgement from the spread of methods \
     and model choices. Measure your first pieces and compare.",
    "Measure cold, camber with the web flat and sweep with the web upright, or take off the sag of its own weight.",
    "Allowances and presets change what is cut and clamped: try them on one piece first, and keep clear of clamped, preset \
     and hot plates.",
    "Strength, weld size and straightening are for the applicable codes, qualified procedures and licensed engineers to decide.",
];

/// Writes them.
pub fn trust(out: &mut dyn Write) -> Result<()> {
    heading("How far to trust it", "", out)?;
    for line in LINES {
        writeln!(out, "{}", wrapped(line))?;
    }
    Ok(())
}
