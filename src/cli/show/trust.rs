//! What the numbers rest on, and the cautions that go with them.

use super::report::Report;

/// What is shown beyond what a shop needs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct More {
    /// Pass by pass, the rule behind each limit, and what other methods say.
    pub methods: bool,
    /// The constants that this prediction rests on.
    pub constants: bool,
}

const LINES: [&str; 3] = [
    "Not compared with a measured member: measure your first pieces, cold.",
    "Try on one piece first; keep clear of clamped, preset and hot plates.",
    "Strength, welds, straightening: codes and licensed engineers decide.",
];

/// Writes them, and what else may be asked.
pub(super) fn trust(more: More, out: &mut Report) {
    let rest = [(!more.methods, "--methods"), (!more.constants, "--constants")];
    let rest: Vec<&str> = rest.into_iter().filter(|(left, _)| *left).map(|(_, what)| what).collect();
    let remark = if rest.is_empty() { String::new() } else { format!("more: {}", rest.join(", ")) };
    out.heading("How far to trust it", &remark);
    LINES.iter().for_each(|line| out.wide(line))
}
