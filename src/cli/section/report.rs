//! Everything about one case, in the order its questions come.

use super::super::show::{heading, row_table, say};
use super::asked::Asked;
use super::words::{angle, fine, held, mesh, percent, plates, sides};
use crate::prediction::Job;
use crate::units::{System, show};
use crate::verification::{
    Bracketed, HotHold, LayerNumbers, Options, PATTERNS, Solved, SolvedPass, Verified,
};
use crate::welding::Side;
use std::io::{Result, Write};
use std::time::Duration;

/// The report of one case; `took` is the time of the whole command.
///
/// # Errors
/// Only those of `out`.
pub(super) fn report(
    Asked { job, options, system }: Asked<'_>,
    solved: &Solved,
    took: Duration,
    out: &mut dyn Write,
) -> Result<()> {
    let result = &solved.result;
    writeln!(out, "{}", job.title)?;
    writeln!(
        out,
        "{} seam at {} from the start, solved from first principles",
        result.seam.name(),
        show::position(result.x_mm, system)
    )?;
    asked(job, result, system, out)?;
    numbers(result, system, out)?;
    stress(result, system, out)?;
    melted(result, system, out)?;
    effort(solved, options, took, out)?;
    trust(result, out)
}

fn asked(job: &Job, result: &Verified, system: System, out: &mut dyn Write) -> Result<()> {
    heading("What was solved", "", out)?;
    writeln!(
        out,
        "  {}, {}, yield {}",
        plates(result, system),
        job.member.steel.name,
        show::stress(result.yield_mpa, system)
    )?;
    writeln!(out, "  {}, {}", held(result.hold, result.lengthwise, system), mesh(result.mesh))?;
    let mut table = row_table(&["step", "side", "leg", "net heat", "comes", "cooled for", "then at"], [2, 3]);
    for (k, laid) in result.passes.iter().enumerate() {
        let comes = match (k, laid.wait_s) {
            (0, _) => format!("on plates at {}", show::temperature(result.start_c, system)),
            (_, None) => "when all is cold".to_owned(),
            (_, Some(s)) => format!("{s:.0} s after the pass before"),
        };
        for (n, bead) in laid.beads.iter().enumerate() {
            let once = |text: String| if n == 0 { text } else { String::new() };
            table.add_row([
                once(laid.order.to_string()),
                bead.side.name().to_owned(),
                show::plate(bead.leg_mm, system),
                show::heat_input(bead.heat_j_per_mm, system),
                once(comes.clone()),
                once(minutes(laid.seconds)),
                once(show::temperature(laid.hottest_c, system)),
            ]);
        }
    }
    table.put(out)
}

fn minutes(seconds: f64) -> String {
    if seconds < 120.0 { format!("{seconds:.0} s") } else { format!("{:.0} min", seconds / 60.0) }
}

/// One quantity of a layer by every way of computing it: its name, its number, how that is shown, what the formula is off by.
type Row = (&'static str, Quantity, fn(f64, System) -> String, fn(&SolvedPass) -> Option<String>);
type Quantity = fn(&LayerNumbers) -> Option<f64>;

const ROWS: [Row; 6] = [
    ("force", |n| Some(n.force_n), show::force, |l| l.difference.force.map(percent)),
    ("acts, across", |n| n.across_mm, show::offset, |_| None),
    ("acts, up", |n| n.up_mm, show::offset, |_| None),
    ("cup", |n| n.cup_rad, |rad, _| angle(rad), |l| l.difference.cup.map(percent)),
    ("tilt", |n| n.tilt_rad, |rad, _| angle(rad), tilt_off),
    ("flange narrows", |n| n.narrowing_mm, fine, |l| l.difference.narrowing.map(percent)),
];

/// In degrees: what is left of a tilt is too small to divide by.
fn tilt_off(laid: &SolvedPass) -> Option<String> {
    let off = laid.formula.tilt_rad? - laid.section.tilt_rad?;
    Some(if off > 0.0 { format!("+{}", angle(off)) } else { angle(off) })
}

fn numbers(result: &Verified, system: System, out: &mut dyn Write) -> Result<()> {
    let remark = "all passes so far; cup + toward the web, tilt + near half higher; force acts across from the web plane, + near";
    heading("What it comes to", remark, out)?;
    let wider = |b: &&Bracketed| (b.setup.source - 1.0).abs() > 1e-9;
    let held = result.bracket.iter().any(|b| wider(&b));
    let free = result.bracket.iter().any(|b| b.setup.hold == HotHold::None);
    let range = "arc two thirds … four thirds as wide".to_owned();
    let mut names = vec!["after", "", "section"];
    names.extend(held.then_some(range.as_str()));
    names.extend(free.then_some("never held"));
    names.extend(["formula", "formula is off by"]);
    let mut table = row_table(&names, 2..names.len());
    for (k, laid) in result.passes.iter().enumerate() {
        let all: Vec<Side> = laid.beads.iter().map(|bead| bead.side).collect();
        for (n, (name, of, shown, off)) in ROWS.into_iter().enumerate() {
            let value =
                |numbers: &LayerNumbers| of(numbers).map_or_else(|| "none".to_owned(), |v| shown(v, system));
            let after = match n {
                0 => format!("step {}", laid.order),
                1 => sides(&all),
                _ => String::new(),
            };
            let mut cells = vec![after, name.to_owned(), value(&laid.section)];
            if held {
                let others = result.bracket.iter().filter(wider);
                let all = others.filter_map(|b| b.passes.get(k)).chain([&laid.section]);
                let all: Vec<f64> = all.filter_map(of).collect();
                cells.push(span(&all, shown, system));
            }
            if free {
                let never = result.bracket.iter().find(|b| b.setup.hold == HotHold::None);
                cells.push(never.and_then(|b| b.passes.get(k)).map_or_else(String::new, value));
            }
            cells.push(value(&laid.formula));
            cells.push(off(laid).unwrap_or_default());
            table.add_row(cells);
        }
    }
    table.put(out)?;
    writeln!(
        out,
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
    let bare = least.split(' ').next().unwrap_or(&least).trim_end_matches('°');
    format!("{bare} … {most}")
}

fn stress(result: &Verified, system: System, out: &mut dyn Write) -> Result<()> {
    heading("Residual stress", "along the member, + tension; over yield in brackets", out)?;
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
    table.put(out)?;
    match residual.out_of_balance {
        Some(left) => writeln!(out, "  Force and moments of it cancel to {left:.0e} of their parts."),
        None => writeln!(out, "  Read while held lengthwise: it adds up to the force above."),
    }?;
    if residual.peak_mpa.max(residual.weld_metal_peak_mpa) > ABOVE_YIELD * result.yield_mpa {
        let why = "Above yield along the member, in places: there the steel is pulled across and up as well, and yielding follows \
                   the differences (Mises). Values of single points.";
        say(out, why)?;
    }
    Ok(())
}

/// Stress over yield from which it needs explaining: hardening alone gives less.
const ABOVE_YIELD: f64 = 1.1;

/// "−0.28".
fn decimals(value: f64) -> String {
    let text = format!("{:.2}", value.abs());
    if value < 0.0 && text != "0.00" { format!("\u{2212}{text}") } else { text }
}

fn melted(result: &Verified, system: System, out: &mut dyn Write) -> Result<()> {
    let remark = "depths follow from the assumed width of the source: no measured penetration, no dilution";
    heading("What it melts", remark, out)?;
    let mut table =
        row_table(&["step", "side", "into the flange", "into the web", "of its fillet", ""], 2..5);
    for laid in &result.passes {
        let all: Vec<Side> = laid.beads.iter().map(|bead| bead.side).collect();
        let into = |mm: f64, share: f64| format!("{}, {:.0} %", show::offset(mm, system), 100.0 * share);
        table.add_row([
            laid.order.to_string(),
            sides(&all),
            into(laid.melted.flange_mm, laid.melted.flange_share),
            into(laid.melted.web_mm, laid.melted.web_share),
            format!("{:.0} %", 100.0 * laid.melted.fillet_share),
            if laid.melted.through { "MELTS THROUGH".to_owned() } else { String::new() },
        ]);
    }
    table.put(out)
}

fn effort(solved: &Solved, options: &Options, took: Duration, out: &mut dyn Write) -> Result<()> {
    heading("What it took", "", out)?;
    let size = &solved.result.size;
    let worst = solved.result.passes.iter().map(|p| p.energy_balance.abs()).fold(0.0, f64::max);
    writeln!(
        out,
        "  {} elements, {} unknowns of displacement and {} of heat; {} time steps, {} corrections, {} factorisations, \
         {} halved steps.",
        size.elements,
        size.unknowns,
        size.heat_unknowns,
        size.steps,
        size.corrections,
        size.factorisations,
        size.halved_steps
    )?;
    writeln!(
        out,
        "  Heat balances to {worst:.0e} of what came in; forces of each step to {:.0e} of what acts.",
        size.worst_left
    )?;
    let Some(own) = solved.efforts.first() else { return Ok(()) };
    let (whole, solver) = (own.whole.as_secs_f64(), own.solver);
    let (factor, solve) = (solver.factorising.as_secs_f64(), solver.solving.as_secs_f64());
    writeln!(
        out,
        "  {whole:.2} s, {:.2} s a pass; {:.0} % in factorising, {:.0} % in solving: {:.1} times its factorisations and solves.",
        whole / solved.result.passes.len().max(1) as f64,
        100.0 * factor / whole,
        100.0 * solve / whole,
        whole / (factor + solve).max(1e-9)
    )?;
    if !options.quick {
        writeln!(
            out,
            "  {:.2} s for the {} runs of the bracket together.",
            took.as_secs_f64(),
            solved.efforts.len()
        )?;
    }
    Ok(())
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

pub(super) fn trust(result: &Verified, out: &mut dyn Write) -> Result<()> {
    if !result.cautions.is_empty() {
        heading("Cautions", "", out)?;
        for caution in &result.cautions {
            say(out, caution)?;
        }
    }
    heading("How far to trust it", "", out)?;
    for line in LINES {
        say(out, line)?;
    }
    Ok(())
}
