//! What a record says, in plain words: the only place that turns it into sentences.

use super::gather::Gathered;
use crate::cli::lists::counted;
use crate::record::watch::{Change, Chart, Shift};
use crate::record::{CheckedReading, Group, Input, Kind, Learned, Next, Quantity};
use crate::units::{IN_MM, System, show};

/// Fewest pieces that say something of the scatter (choice).
const THIN: usize = 8;
/// What is left of a doubt from which on the readings say something (choice).
const SURER: f64 = 0.8;
/// Share of odd readings above which they widen the scatter (choice: twice the share that is taken to be usual).
const MANY_ODD: f64 = 0.1;
/// Share of a 90 % band below which a record contradicts itself (choice).
const CONTRADICTS: f64 = 0.75;

/// Whether a mean is away from nothing by two deviations, and by enough to speak of.
fn clear(mean: f64, sd: f64, least: f64) -> bool {
    mean.abs() > 2.0 * sd && mean.abs() > least
}

fn percent(part: f64) -> String {
    format!("{:.0} %", 100.0 * part.abs())
}

/// "12 % ± 4 % less than the formula".
fn beside(input: &Input) -> String {
    let off = input.mean - 1.0;
    let toward = if off < 0.0 { "less" } else { "more" };
    format!("{} ± {} {toward} than the formula", percent(off), percent(2.0 * input.sd))
}

/// What was learned of the factors, one sentence each; what the readings do not tell is said together.
pub(super) fn factors(found: &Learned) -> Vec<String> {
    let mut said = Vec::new();
    let mut silent = Vec::new();
    let words = [
        ("force", "your seams pull", "pull of the seams"),
        ("arm", "they pull sideways at a lever arm that is", "lever arm sideways"),
        ("cup", "your flanges cup", "cup"),
        ("tilt", "flanges welded on one side tilt", "tilt"),
        ("heat_from_leg", "where the heat follows from the leg it is", "heat from the leg"),
        ("seam_both_sides", "seams welded from both sides pull, beside the others,", "second side"),
    ];
    for (name, words, short) in words {
        let Some(input) = found.inputs.iter().find(|i| i.input == name) else { continue };
        if input.sd < SURER * input.before_sd {
            said.push(format!("{words} {} (before: ± {})", beside(input), percent(2.0 * input.before_sd)));
        } else {
            silent.push(short);
        }
    }
    let moment = &found.moment;
    if moment.sd < SURER * moment.before_sd {
        said.insert(
            0,
            format!(
                "what bows a member sideways, pull times arm, is {} (before: ± {})",
                beside(moment),
                percent(2.0 * moment.before_sd)
            ),
        );
    }
    if !silent.is_empty() {
        said.push(format!("the readings say nothing, or hardly anything, of: {}", silent.join(", ")));
    }
    said
}

/// What quantities of each member do from piece to piece.
pub(super) fn scatter(found: &Learned, system: System) -> Vec<String> {
    let bows = found.next.iter().filter(|n| matches!(n.what, Quantity::Camber | Quantity::Sweep));
    let read = |n: &&Next| {
        let name = format!("{}_each_piece", n.what.kind().name());
        found.inputs.iter().any(|i| i.input == name)
    };
    let mm = |mm: f64| show::offset(mm, system);
    let one = |n: &Next| {
        let (all, welding) = (mm(n.scatter_sd_mm), mm(n.welding_sd_mm));
        format!(
            "{}: {} differs from piece to piece by {all} (one standard deviation), of which welding explains {welding}",
            n.member,
            n.what.kind().name()
        )
    };
    bows.filter(read).map(one).collect()
}

/// Which families, procedures and lines stand off.
pub(crate) fn groups(found: &Learned, system: System) -> Vec<String> {
    let one = |g: &Group| {
        let is = format!("{} {}", g.of, g.name);
        match g.what {
            "force" => clear(g.mean, g.sd, 0.03).then(|| {
                let toward = if g.mean < 0.0 { "less" } else { "more" };
                format!(
                    "{is} pulls {} ± {} {toward} than the others ({} pieces)",
                    percent(g.mean),
                    percent(2.0 * g.sd),
                    g.pieces
                )
            }),
            what => clear(g.mean, g.sd, 0.5).then(|| {
                let toward = match (what, g.mean < 0.0) {
                    ("camber", true) => "outer flange",
                    ("camber", false) => "inner flange",
                    (_, true) => "far side",
                    (_, false) => "near side",
                };
                format!(
                    "{is} lies {} ± {} off to the {toward}, which welding does not explain ({} pieces): look at its clamps, \
                     at how it lay when it was measured, and at how its plates come",
                    show::offset(g.mean.abs(), system),
                    show::offset(2.0 * g.sd, system),
                    g.pieces
                )
            }),
        }
    };
    found.groups.iter().filter_map(one).collect()
}

/// Readings that look odd, with what they may be.
pub(crate) fn odd(found: &Learned, system: System) -> Vec<String> {
    let mm = |mm: f64| show::offset(mm, system);
    let one = |r: &CheckedReading| {
        let near = |value: f64| (value - r.expected_mm).abs() < 1.5 * r.sd_mm;
        let told = (2.0 * r.value_mm).abs() > 3.0 * r.sd_mm;
        let may = if told && near(-r.value_mm) {
            "; with the other sign it would fit"
        } else if near(IN_MM * r.value_mm) && (IN_MM * r.value_mm - r.value_mm).abs() > 3.0 * r.sd_mm {
            "; as inches it would fit"
        } else if near(10.0 * r.value_mm) && (9.0 * r.value_mm).abs() > 3.0 * r.sd_mm {
            "; as centimetres it would fit"
        } else {
            ""
        };
        format!(
            "{}: {} of {}, where the other pieces expect {} ± {}{may}. Read it again; it counts for little here.",
            r.piece,
            quantity(r.what),
            mm(r.value_mm),
            mm(r.expected_mm),
            mm(2.0 * r.sd_mm),
        )
    };
    found.checks.readings.iter().filter(|r| r.is_odd()).map(one).collect()
}

/// Pieces that have the same readings, all of them: one of them is probably a copy.
pub(crate) fn copies(gathered: &Gathered) -> Vec<String> {
    let pieces = &gathered.record.pieces;
    let alike = |a: &crate::record::Piece, b: &crate::record::Piece| {
        let values =
            |p: &crate::record::Piece| p.readings.iter().map(|r| r.value_mm.to_bits()).collect::<Vec<_>>();
        a.member == b.member && a.readings.len() > 1 && values(a) == values(b)
    };
    let mut said = Vec::new();
    for (i, a) in pieces.iter().enumerate() {
        if let Some(b) = pieces[i + 1..].iter().find(|b| alike(a, b)) {
            said.push(format!(
                "{} and {} have the same readings: is one a copy of the other?",
                a.name, b.name
            ));
        }
    }
    said
}

/// Largest size that was thought likely before the record, its 95 % point by a lognormal law.
fn largest_usual(input: &Input) -> f64 {
    let log_sd = (input.before_sd / input.before).powi(2).ln_1p().sqrt();
    input.before * (1.645 * log_sd - 0.5 * log_sd * log_sd).exp()
}

/// Where the shop moved and what is learned is of both before and after: "sweep at piece R2-21".
pub(super) fn averaged(found: &Learned) -> Vec<String> {
    let moved = found.watch.iter().filter_map(|c| Some((c, c.shift.as_ref().filter(|s| s.is_averaged())?)));
    moved.map(|(chart, shift)| format!("{} at piece {}", chart.kind.name(), shift.piece)).collect()
}

/// What stands in the way of trusting it.
pub(crate) fn doubts(found: &Learned) -> Vec<String> {
    let mut said = Vec::new();
    let moved = averaged(found);
    if !moved.is_empty() {
        said.push(format!(
            "the shop moved while these were welded ({}), and what is learned lies between what it did before and what it does now. Leave the \
             pieces before that out of the record and calibrate again, or give both ways of welding a `procedure`, which are told apart.",
            moved.join(", ")
        ));
    }
    if found.pieces < THIN {
        said.push(format!(
            "{} few: what all share is a little surer, what differs from piece to piece is still mostly what was \
             taken to be so before. Ten sweeps tell most.",
            if found.pieces == 1 { "1 piece is".to_owned() } else { format!("{} pieces are", found.pieces) }
        ));
    }
    let checks = &found.checks;
    let share = checks.inside as f64 / checks.of.max(1) as f64;
    if checks.of >= 10 && share < CONTRADICTS {
        said.push(format!(
            "the record contradicts itself: only {} of {} readings lie where nine of ten should. Look for a unit, a sign, or \
             members under one name that were made in two ways.",
            checks.inside, checks.of
        ));
    }
    for input in found.inputs.iter().filter(|i| i.class == "scatter" && i.band[0] > largest_usual(i)) {
        let what = input.input.trim_end_matches("_each_piece");
        said.push(format!(
            "the record contradicts itself, or your {what} does: it differs from piece to piece by far more than plates and fit-up \
             usually bring. Look for a sign or a unit that changes within the record, or members under one name that were made in \
             two ways."
        ));
    }
    for kind in Kind::ALL {
        let own = || checks.readings.iter().filter(|r| r.what.kind() == kind);
        let (odd, of, what) = (own().filter(|r| r.is_odd()).count(), own().count(), kind.name());
        if odd as f64 > MANY_ODD * of as f64 {
            said.push(format!(
                "of {of} readings of {what} {odd} {} odd: how much {what} differs from piece to piece rests on {} too, and is probably \
                 less than is said here. Read again what is listed, and calibrate again.",
                if odd == 1 { "is" } else { "are" },
                if odd == 1 { "it" } else { "them" }
            ));
        }
    }
    if !found.agreement.holds() {
        said.push(format!(
            "the calculation did not settle (R̂ {:.2}): do not use these numbers; look at the readings called odd",
            found.agreement.r_hat
        ));
    }
    if checks.untrusted > 0 {
        said.push(format!(
            "{} pieces move the result so much that they could not be checked",
            checks.untrusted
        ));
    }
    said
}

/// What to read next.
pub(crate) fn teaches(found: &Learned) -> Option<String> {
    let best = found.teaches.first().filter(|t| t.share > 0.01)?;
    let how = match best.kind {
        Kind::Camber => "the camber, at mid-length with the web flat",
        Kind::Sweep => "the sweep, at mid-length with the web upright",
        Kind::Shortening => "the length before and after welding",
        Kind::Cup | Kind::Tilt => "both toes of each flange at mid-length",
    };
    Some(format!(
        "ten more pieces with {how} would teach most: about {} of the doubt that is left would go",
        percent(best.share)
    ))
}

/// Where the shop moved.
pub(crate) fn shifts(found: &Learned, gathered: &Gathered, system: System) -> Vec<String> {
    let one = |chart: &Chart, shift: &Shift| {
        let day = gathered.record.pieces[shift.at].day;
        let day = day.map_or(String::new(), |d| format!(" of {}", crate::input::day_text(d)));
        let line = if chart.line.is_empty() { String::new() } else { format!(" on line {}", chart.line) };
        let change = |c: &Change| {
            format!(
                "{} changed from {} to {} at piece {}",
                c.what,
                named(&c.before),
                named(&c.after),
                c.piece
            )
        };
        let with: Vec<String> = shift.with.iter().map(change).collect();
        let with = if with.is_empty() {
            "Nothing in the record changed about then: ask what did (wire, flux, clamps, plate, people)"
                .to_owned()
        } else {
            format!("About then the {}", with.join(", the "))
        };
        let name = chart.kind.name();
        let (by, unsure) = (signed(shift.by_mm, system), show::offset(shift.by_2s_mm, system));
        let told = match shift.told_after - 1 {
            0 => "told at once".to_owned(),
            later => format!("told {} later", counted(later, "piece")),
        };
        if !shift.is_clear() {
            return format!(
                "{name}{line} seemed to move at piece {}{day}, {told}; all welded since lies {by} ± {unsure} from what was before, no more than \
                 pieces differ by: a false alarm, or a move that passed.",
                shift.piece
            );
        }
        let averaged =
            if shift.is_averaged() { " Above, what is learned averages over before and after." } else { "" };
        format!(
            "{name}{line} moved by {by} ± {unsure} from piece {}{day} on, {told}. {with}.{averaged}",
            shift.piece
        )
    };
    found.watch.iter().filter_map(|c| c.shift.as_ref().map(|s| one(c, s))).collect()
}

fn named(name: &str) -> &str {
    if name.is_empty() { "(none)" } else { name }
}

/// A quantity in words.
pub(super) fn quantity(what: Quantity) -> String {
    match what {
        Quantity::Cup(seam) => format!("{} cup", seam.name()),
        Quantity::Tilt(seam) => format!("{} tilt", seam.name()),
        other => other.kind().name().to_owned(),
    }
}

/// An offset with its sign.
pub(crate) fn signed(mm: f64, system: System) -> String {
    let shown = show::offset(mm, system);
    let zero = shown.trim_start_matches(['−', '-']).starts_with("0.0 ");
    if mm > 0.0 && !zero { format!("+{shown}") } else { shown }
}
