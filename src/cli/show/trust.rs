//! What the numbers rest on, and the cautions that go with them.

use super::table::{heading, wide};
use std::io::{Result, Write};

/// What is shown beyond what a shop needs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct More {
    /// Pass by pass, the rule behind each limit, and what other methods say.
    pub methods: bool,
    /// The constants that this prediction rests on.
    pub constants: bool,
}

const LINES: [&str; 3] = [
    "No measured member was there to compare with: measure your first pieces, cold, string and tape.",
    "Try allowances and presets on one piece first; keep clear of clamped, preset and hot plates.",
    "Strength, weld size, straightening: codes, qualified procedures and licensed engineers decide.",
];

/// Writes them, and what else may be asked.
pub fn trust(more: More, out: &mut dyn Write) -> Result<()> {
    heading("How far to trust it", "", out)?;
    for line in LINES {
        writeln!(out, "{}", wide(line))?;
    }
    let rest = [
        (!more.methods, "--methods: pass by pass, rules, other methods"),
        (!more.constants, "--constants: what it rests on"),
    ];
    let rest: Vec<&str> = rest.into_iter().filter(|(left, _)| *left).map(|(_, what)| what).collect();
    if rest.is_empty() { Ok(()) } else { writeln!(out, "  More with {}.", rest.join("; ")) }
}
