//! What a joint solved from first principles says: one alone in full, several in a table.

use super::super::show::{Columns, Report, bare, row_table, unit};
use super::asked::Asked;
use super::words::{above_yield, angle, fine, held, mesh, percent, plates, sides};
use crate::cli::lists::counted;
use crate::prediction::Job;
use crate::units::{IN_MM, System, show};
use crate::verification::{
    Bracketed, HotHold, LayerNumbers, Options, PATTERNS, Solved, SolvedPass, Verified,
};
use std::path::Path;
use std::time::Duration;

/// The report of one case; `took` is the time of the whole command.
pub(super) fn report(
    Asked { job, options, system }: Asked<'_>,
    solved: &Solved,
    took: Duration,
    out: &mut Report,
) {
    let result = &solved.result;
    out.line(&job.title);
    out.line(format!(
        "{} seam at {} from the start, solved from first principles",
        result.seam.name(),
        show::position(result.x_mm, system)
    ));
    asked(job, result, system, out);
    numbers(result, system, out);
    stress(result, system, out);
    melted(result, system, out);
    effort(solved, options, took, out);
    trust(result, out)
}

fn asked(job: &Job, result: &Verified, system: System, out: &mut Report) {
    out.heading("What was solved", "");
    out.line(format!(
        "  {}, {}, yield {}",
        plates(result, system),
        job.member.steel.name,
        show::stress(result.yield_mpa, system)
    ));
    out.line(format!("  {}, {}", held(result.hold, result.lengthwise, system), mesh(result.mesh)));
    let comes = |k: usize, laid: &SolvedPass| match (k, laid.wait_s) {
        (0, _) => format!("on plates at {}", show::temperature(result.start_c, system)),
        (_, None) => "when all is cold".to_owned(),
        (_, Some(s)) => format!("{s:.0} s after the pass before"),
    };
    // what is said of a pass stands beside its first bead
    let passes = result.passes.iter().enumerate();
    let beads = passes.flat_map(|(k, laid)| {
        laid.beads.iter().enumerate().map(move |(n, bead)| (bead, (n == 0).then_some((k, laid))))
    });
    Columns::of(beads)
        .left("step", |(_, pass)| pass.map_or_else(String::new, |(_, laid)| laid.order.to_string()))
        .left("side", |(bead, _)| bead.side.name())
        .right("leg", |(bead, _)| show::plate(bead.leg_mm, system))
        .right("net heat", |(bead, _)| show::heat_input(bead.heat_j_per_mm, system))
        .left("comes", |(_, pass)| pass.map_or_else(String::new, |(k, laid)| comes(k, laid)))
        .left("cooled for", |(_, pass)| pass.map_or_else(String::new, |(_, laid)| minutes(laid.seconds)))
        .left("then at", |(_, pass)| {
            pass.map_or_else(String::new, |(_, laid)| show::temperature(laid.hottest_c, system))
        })
        .put(out)
}

fn minutes(seconds: f64) -> String {
    if seconds < 120.0 { format!("{seconds:.0} s") } else { format!("{:.0} min", seconds / 60.0) }
}

/// One quantity of a layer by every way of computing it: its name, its number, how that is shown, what the formula is off by.
type Row = (&'static str, Quantity, fn(f64, System) -> String, fn(&SolvedPass) -> Option<String>);
type Quantity = fn(&LayerNumbers) -> Option<f64>;

/// Hotter than this a joint has yet to shrink by a millimetre a metre and more: nothing to hold formulas of cold joints against (choice), °C.
const STILL_HOT_C: f64 = 100.0;

const ROWS: [Row; 6] = [
    ("force", |n| Some(n.force_n), show::force, |l| l.difference.force.map(percent)),
    ("acts, across", |n| n.across_mm, show::offset, |_| None),
    ("acts, up", |n| n.up_mm, show::offset, |_| None),
    ("cup", |n| n.cup_rad, show::turn, |l| l.difference.cup.map(percent)),
    ("tilt", |n| n.tilt_rad, show::turn, tilt_off),
    ("flange narrows", |n| n.narrowing_mm, fine, |l| l.difference.narrowing.map(percent)),
];

/// In degrees: what is left of a tilt is too small to divide by.
fn tilt_off(laid: &SolvedPass) -> Option<String> {
    let off = laid.formula.tilt_rad? - laid.section.tilt_rad?;
    Some(if off > 0.0 { format!("+{}", angle(off)) } else { angle(off) })
}

fn numbers(result: &Verified, system: System, out: &mut Report) {
    let remark = "all passes so far; cup + toward the web, tilt + near half higher; force acts across from the web plane, + near";
    out.heading("What it comes to", remark);
    let value = |(_, of, shown, _): Row, numbers: &LayerNumbers| {
        of(numbers).map_or_else(|| "none".to_owned(), |value| shown(value, system))
    };
    let passes = result.passes.iter().enumerate();
    let lines = passes.flat_map(|(k, laid)| (0..).zip(ROWS).map(move |(n, row)| (k, laid, n, row)));
    let wider = |b: &&Bracketed| (b.setup.source - 1.0).abs() > 1e-9;
    let held: Vec<&Bracketed> = result.bracket.iter().filter(wider).collect();
    let range = |(k, laid, _, (_, of, shown, _)): &(usize, &SolvedPass, u32, Row)| {
        let all = held.iter().filter_map(|b| b.passes.get(*k)).chain([&laid.section]);
        span(&all.filter_map(of).collect::<Vec<f64>>(), *shown, system)
    };
    let free = result.bracket.iter().find(|b| b.setup.hold == HotHold::None);
    Columns::of(lines)
        .left("after", |(_, laid, n, _)| match n {
            0 => format!("step {}", laid.order),
            1 => sides(laid).to_owned(),
            _ => String::new(),
        })
        .left("", |(.., row)| row.0)
        .right("section", |(_, laid, _, row)| value(*row, &laid.section))
        .right_if(!held.is_empty(), "arc two thirds … four thirds as wide", range)
        .right_if(free.is_some(), "never held", |(k, .., row)| {
            free.and_then(|f| f.passes.get(*k)).map_or_else(String::new, |numbers| value(*row, numbers))
        })
        .right("formula", |(_, laid, _, row)| value(*row, &laid.formula))
        .right("formula is off by", |(_, laid, n, row)| match (laid.hottest_c > STILL_HOT_C, n) {
            (false, _) => row.3(laid).unwrap_or_default(),
            (true, 0) => "still hot".to_owned(),
            (true, _) => String::new(),
        })
        .put(out);
    out.line(
        "  The formulas are asked for this joint alone; in the member a larger section frees less, and another seam may have \
         left stress."
    )
}

/// "0.31 … 0.37°": the unit once.
fn span(values: &[f64], shown: fn(f64, System) -> String, system: System) -> String {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if !least.is_finite() || !most.is_finite() {
        return String::new();
    }
    let (least, most) = (shown(least, system), shown(most, system));
    if least == most {
        return most;
    }
    format!("{} … {most}", bare(&least).trim_end_matches('°'))
}

fn stress(result: &Verified, system: System, out: &mut Report) {
    out.heading("Residual stress", "along the member, + tension; over yield in brackets");
    let residual = &result.residual;
    let mpa =
        |value: f64| format!("{} ({})", show::stress(value, system), decimals(value / result.yield_mpa));
    let place = |[across, up]: [f64; 2]| {
        format!("{} across, {} up", show::offset(across, system), show::offset(up, system))
    };
    let mut table = row_table(&["", "section", ""], [1]);
    table.add_row(["largest in the plates".to_owned(), mpa(residual.peak_mpa), place(residual.peak_at_mm)]);
    table.add_row([
        "smallest in the plates".to_owned(),
        mpa(residual.lowest_mpa),
        place(residual.lowest_at_mm),
    ]);
    table.add_row(["largest in the weld metal".to_owned(), mpa(residual.weld_metal_peak_mpa), String::new()]);
    // a section held lengthwise has its weld's pull and none of what answers it: the patterns are of free members
    let free = residual.out_of_balance.is_some();
    let edges = PATTERNS.map(|p| match p.edge {
        _ if !free => String::new(),
        [low, high] if (low - high).abs() < 1e-9 => format!("{} {}", decimals(low), p.source),
        [low, high] => format!("{} … {} {}", decimals(low), decimals(high), p.source),
    });
    table.add_row(["near flange edge".to_owned(), mpa(residual.near_edge_mpa), edges[0].clone()]);
    table.add_row(["far flange edge".to_owned(), mpa(residual.far_edge_mpa), edges[1].clone()]);
    let weld = PATTERNS.iter().find_map(|p| p.weld.map(|w| format!("{} {}", decimals(w), p.source)));
    let weld = weld.filter(|_| free);
    let middle = residual.at_weld_over_yield * result.yield_mpa;
    table.add_row(["flange under the web".to_owned(), mpa(middle), weld.unwrap_or_default()]);
    table.put(out);
    match residual.out_of_balance {
        Some(left) => out.line(format!("  Force and moments of it cancel to {left:.0e} of their parts.")),
        None => out.line("  Read while held lengthwise: it adds up to the force above."),
    }
    out.say_all(above_yield(residual.peak_mpa.max(residual.weld_metal_peak_mpa), result.yield_mpa))
}

/// "−0.28".
fn decimals(value: f64) -> String {
    let text = format!("{:.2}", value.abs());
    if value < 0.0 && text != "0.00" { format!("\u{2212}{text}") } else { text }
}

fn melted(result: &Verified, system: System, out: &mut Report) {
    let remark = "depths follow from the assumed width of the source: no measured penetration, no dilution";
    out.heading("What it melts", remark);
    let into = |mm: f64, share: f64| format!("{}, {:.0} %", show::offset(mm, system), 100.0 * share);
    Columns::of(&result.passes)
        .left("step", |laid| laid.order.to_string())
        .left("side", |laid| sides(laid))
        .right("into the flange", |laid| into(laid.melted.flange_mm, laid.melted.flange_share))
        .right("into the web", |laid| into(laid.melted.web_mm, laid.melted.web_share))
        .right("of its fillet", |laid| format!("{:.0} %", 100.0 * laid.melted.fillet_share))
        .left("", |laid| if laid.melted.through { "MELTS THROUGH" } else { "" })
        .put(out)
}

fn effort(solved: &Solved, options: &Options, took: Duration, out: &mut Report) {
    out.heading("What it took", "");
    let size = &solved.result.size;
    let worst = solved.result.passes.iter().map(|p| p.energy_balance.abs()).fold(0.0, f64::max);
    out.line(format!(
        "  {} elements, {} unknowns of displacement and {} of heat; {} time steps, {} corrections, {} factorisations, \
         {} halved steps.",
        size.elements,
        size.unknowns,
        size.heat_unknowns,
        size.steps,
        size.corrections,
        size.factorisations,
        size.halved_steps
    ));
    out.line(format!(
        "  Heat balances to {worst:.0e} of what came in; forces of each step to {:.0e} of what acts.",
        size.worst_left
    ));
    let Some(own) = solved.efforts.first() else { return };
    let (whole, solver) = (own.whole.as_secs_f64(), own.solver);
    let (factor, solve) = (solver.factorising.as_secs_f64(), solver.solving.as_secs_f64());
    out.line(format!(
        "  {whole:.2} s, {:.2} s a pass; {:.0} % in factorising, {:.0} % in solving: {:.1} times its factorisations and solves.",
        whole / solved.result.passes.len().max(1) as f64,
        100.0 * factor / whole,
        100.0 * solve / whole,
        whole / (factor + solve).max(1e-9)
    ));
    if !options.quick {
        out.line(format!(
            "  {:.2} s for the {} runs of the bracket together.",
            took.as_secs_f64(),
            solved.efforts.len()
        ));
    }
}

const LINES: [&str; 5] = [
    "Force and residual stress deserve about 10 % (the yield curve of hot steel alone moves the force by up to 18 %); cups of a slice \
     held until the weld is solid about 15 % of a moving arc calculated in three dimensions, half as much again of the truth; \
     angles never held none: a moving arc is held by the plate ahead of it and behind it.",
    "The tilt of one fillet is a lower estimate: flange and web turn against each other as whole plates, ahead of the arc and \
     behind it, and no slice shows it. In three dimensions a free joint tilts 1.1 to 2 times as much; the formula beside it is that \
     free joint, tacks, rolls and clamps left out.",
    "The one measured fillet angle at hand closed the weld side by 1.25 to 1.68° (six one-sided tacked joints, about 1.2 kJ/mm, 2021; \
     plate thickness not given): the calculated free joints lie above it.",
    "Not in it: the moving arc itself, phase change, stress of rolling and cutting, buckling, gravity, tacks. No measured member was \
     available to compare with.",
    "Heat, leg, preheat and any change of procedure are for the applicable codes, qualified procedures and licensed engineers to \
     decide.",
];

pub(super) fn trust(result: &Verified, out: &mut Report) {
    if !result.cautions.is_empty() {
        out.heading("Cautions", "");
        out.say_all(&result.cautions);
    }
    out.heading("How far to trust it", "");
    out.say_all(LINES)
}

/// One row a case, after its last pass.
pub(super) fn table(
    Asked { job, options, system }: Asked<'_>,
    file: &Path,
    solved: &[Solved],
    took: Duration,
    out: &mut Report,
) {
    out.line(&job.title);
    let remark = format!("{}, {}", held(options.hold, options.lengthwise, system), mesh(options.meshing));
    out.heading(&format!("{} joints after their last pass", solved.len()), &remark);
    Columns::of(solved)
        .left("seam", |one| one.result.seam.name())
        .left("at", |one| show::position(one.result.x_mm, system))
        .left(format!("flange, web, {}", unit(system)), |one| plates_once(one, solved, system))
        .right("passes", |one| one.result.passes.len().to_string())
        .right("force", |one| last(one, |l| Some(l.section.force_n), |n| show::force(n, system)))
        .right("off by", |one| last(one, |l| l.difference.force, percent))
        .right("cup", |one| last(one, |l| l.section.cup_rad, angle))
        .right("off by", |one| last(one, |l| l.difference.cup, percent))
        .right("tilt", |one| last(one, |l| l.section.tilt_rad, angle))
        .right("formula", |one| last(one, |l| l.formula.tilt_rad, angle))
        .left("edges", |one| show::stress(one.result.residual.edge_over_yield * one.result.yield_mpa, system))
        .put(out);
    let distinct = solved.iter().enumerate().filter(|(k, one)| first_of(solved, one) == *k).count();
    let runs: usize = distinct * options.setups().len();
    let differ =
        if distinct == 1 { "All are alike".to_owned() } else { format!("{distinct} of them differ") };
    let runs = counted(runs, "run");
    out.line("  off by: formula over section; edges: residual stress at the flange edges.");
    out.line(format!("  {differ}; {runs}, {:.2} s.{}", took.as_secs_f64(), never_held(solved)));
    let mut cautions: Vec<&String> = solved.iter().flat_map(|one| &one.result.cautions).collect();
    cautions.dedup();
    out.say_all(cautions);
    let x_mm = solved[0].result.x_mm;
    out.line(format!(
        "\nOne joint alone gives the full report: weldbow section {} --at {} --seam {}",
        crate::input::text::path(file),
        system.pick(format!("{x_mm:.0}mm"), format!("{:.0}in", x_mm / IN_MM)),
        solved[0].result.seam.name()
    ))
}

fn first_of(all: &[Solved], one: &Solved) -> usize {
    all.iter().position(|other| other.same_as == one.same_as).unwrap_or_default()
}

fn plates_once(one: &Solved, all: &[Solved], system: System) -> String {
    let first = &all[first_of(all, one)];
    if !std::ptr::eq(first, one) {
        let seam = if first.result.seam == one.result.seam { "" } else { first.result.seam.name() };
        return format!("as {seam} at {}", show::position(first.result.x_mm, system)).replace("  ", " ");
    }
    let joint = &one.result.joint;
    let [width, flange, web] =
        [joint.flange_width_mm, joint.flange_mm, joint.web_mm].map(|mm| bare(&show::plate(mm, system)));
    format!("{width} × {flange}, {web}")
}

/// A number after the last pass; nothing where there is none.
fn last(one: &Solved, of: fn(&SolvedPass) -> Option<f64>, shown: impl Fn(f64) -> String) -> String {
    one.result.passes.last().and_then(of).map_or_else(String::new, shown)
}

fn never_held(solved: &[Solved]) -> String {
    let never = |one: &Solved| {
        let free = one.result.bracket.iter().find(|b| b.setup.hold == HotHold::None)?;
        free.passes.last()?.cup_rad
    };
    let cups: Vec<f64> = solved.iter().filter_map(never).collect();
    let least = cups.iter().copied().fold(f64::INFINITY, f64::min);
    let most = cups.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if cups.is_empty() {
        return String::new();
    }
    format!(
        " Never held, the cups are {} to {}: how the plates are held decides them.",
        angle(least),
        angle(most)
    )
}
