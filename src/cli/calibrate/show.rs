//! A record's answer as tables and sentences.

use super::gather::Gathered;
use super::words;
use crate::cli::show::{heading, paragraph, put, row_table};
use crate::record::Learned;
use crate::units::{System, show};
use std::io::{Result, Write};

/// Odd and checked readings shown.
const MOST: usize = 20;

/// Everything, in the order a foreman asks.
///
/// # Errors
/// Only those of `out`.
pub fn report(gathered: &Gathered, found: &Learned, system: System, out: &mut dyn Write) -> Result<()> {
    let days = gathered.days.as_ref().map_or(String::new(), |[a, b]| format!(", {a} to {b}"));
    writeln!(out, "{} pieces, {} readings{days}", found.pieces, found.readings)?;
    list("First", "", &words::doubts(found), out)?;
    let mut odd = words::odd(found, system);
    odd.extend(words::copies(gathered));
    odd.truncate(MOST);
    list("Read these again", "", &odd, out)?;
    list("What your welds do", "±: two standard deviations", &words::factors(found), out)?;
    list("From piece to piece", "", &words::scatter(found, system), out)?;
    list("Who stands off", "", &words::groups(found, system), out)?;
    list(
        "What moved",
        "by the moving average; a steady shop is accused about once in 370 pieces",
        &words::shifts(found, gathered, system),
        out,
    )?;
    members(found, system, out)?;
    checks(found, system, out)?;
    list("Next", "", &words::teaches(found).into_iter().collect::<Vec<_>>(), out)?;
    let a = &found.agreement;
    writeln!(
        out,
        "\n{} draws, worth {:.0} independent ones at least; R̂ {:.3} at most. Learned beside the formula level, as computed from \
         each job; valid for members like these.",
        a.draws, a.effective, a.r_hat
    )
}

fn list(title: &str, remark: &str, lines: &[String], out: &mut dyn Write) -> Result<()> {
    if lines.is_empty() {
        return Ok(());
    }
    heading(title, remark, out)?;
    for line in lines {
        writeln!(out, "{}", paragraph(line))?;
    }
    Ok(())
}

fn members(found: &Learned, system: System, out: &mut dyn Write) -> Result<()> {
    heading(
        "Before and after",
        "at mid-length; ±: two standard deviations of what all pieces share; as computed: of welding alone; next: nine of ten pieces",
        out,
    )?;
    let right = [2, 3, 4, 5];
    let mut table =
        row_table(&["member", "", "as computed", "with your pieces", "differ by", "next piece"], &right);
    let mm = |mm: f64| words::signed(mm, system);
    let size = |mm: f64| show::offset(mm, system);
    for n in &found.next {
        table.add_row([
            n.member.clone(),
            words::quantity(n.what),
            format!("{} ± {}", mm(n.before_mm), size(2.0 * n.before_bias_sd_mm)),
            format!("{} ± {}", mm(n.mean_mm), size(2.0 * n.bias_sd_mm)),
            size(n.scatter_sd_mm),
            format!("{} … {}", mm(n.band_mm[0]), mm(n.band_mm[1])),
        ]);
    }
    put(table, &right, out)
}

fn checks(found: &Learned, system: System, out: &mut dyn Write) -> Result<()> {
    let c = &found.checks;
    let again =
        if c.again > 0 { format!("; {} sampled again without the piece", c.again) } else { String::new() };
    let remark = format!(
        "each piece from the others: {} of {} readings inside the band that should hold nine of ten{again}",
        c.inside, c.of
    );
    heading("Checked against itself", &remark, out)?;
    let right = [2, 3, 4];
    let mut table = row_table(&["piece", "", "read", "expected", "chance of less"], &right);
    let mut worst: Vec<_> = c.readings.iter().collect();
    worst.sort_by(|a, b| (b.below - 0.5).abs().total_cmp(&(a.below - 0.5).abs()));
    for r in worst.into_iter().take(MOST / 2) {
        table.add_row([
            r.piece.clone(),
            words::quantity(r.what),
            words::signed(r.value_mm, system),
            format!("{} ± {}", words::signed(r.expected_mm, system), show::offset(2.0 * r.sd_mm, system)),
            format!("{:.0} %", 100.0 * r.below),
        ]);
    }
    put(table, &right, out)?;
    if c.readings.len() > MOST / 2 {
        writeln!(out, "  the {} farthest of {}; --json has all", MOST / 2, c.readings.len())?;
    }
    Ok(())
}
