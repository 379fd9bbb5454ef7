//! The tolerance table, set by set.

use super::notes::signs;
use super::report::{Report, plain_text};
use super::shown::Shown;
use super::span::{bare, bare_chance, bare_span, from_welding_alone, if_right, unit};
use super::table::{Columns, LINE, head_table, roomy};
use crate::cli::lists::distinct;
use crate::prediction::Prediction;
use crate::tolerance::{Judgement, Quantity, Set, Trust, Verdict};
use crate::units::{System, show};
use comfy_table::{Cell, Color};
use std::borrow::Cow;

const STRAIGHT: &str = "if the web is cut straight";

/// Chance below which a limit that is held goes without a row, where its size is small or stands in another table (a choice).
const QUIET: f64 = 0.02;

/// One row a limit, under the title of its set; what is surely held and said elsewhere, or small, is named with the title unless the
/// `whole` is wanted.
pub(super) fn tolerance(of: Shown<'_>, out: &mut Report) {
    let Shown { job, prediction, system, whole } = of;
    let verdicts = &prediction.verdicts;
    if verdicts.is_empty() {
        return signs(out);
    }
    out.heading("Is it in tolerance?", "close: limit within the ±; surely held: out below 2 %");
    let roomy = roomy();
    let in_unit = |what: &str| if roomy { format!("{what}, {}", unit(system)) } else { what.to_owned() };
    let (predicted, limit) = (in_unit("predicted"), in_unit("limit"));
    let by_scatter = if roomy { "by scatter" } else { "scatter" };
    let names = ["what", "where", &predicted, &limit, "verdict", "out", by_scatter, "clause"];
    let mut table = head_table(&names[..if roomy { 8 } else { 7 }], [2, 3, 5, 6]);
    let mut rows_shown: Vec<&Verdict> = Vec::new();
    let (mut shown, mut titles): (Vec<Quantity>, Vec<String>) = (Vec::new(), Vec::new());
    for of_set in verdicts.chunk_by(|a, b| a.set == b.set) {
        let set = of_set.first().map_or("own", |v| v.set);
        let (held, rows): (Vec<&Verdict>, Vec<&Verdict>) =
            of_set.iter().partition(|v| !whole && quiet(v, &shown));
        shown.extend(rows.iter().map(|v| v.quantity));
        // what an earlier set says in the same words
        let same = |v: &&Verdict| {
            let as_before = |s: &&Verdict| {
                s.quantity == v.quantity
                    && s.place == v.place
                    && [s.value - v.value, s.limit - v.limit].iter().all(|gap| gap.abs() < 1e-9)
            };
            !roomy && !whole && rows_shown.iter().any(as_before)
        };
        let (again, rows): (Vec<&Verdict>, Vec<&Verdict>) = rows.into_iter().partition(same);
        rows_shown.extend(&rows);
        let mut title = Set::parse(set).map_or("The job's own limits", Set::title).to_owned();
        for (what, of) in [("surely held", &held), ("as above", &again)] {
            let names: Vec<&str> = of.iter().map(|v| v.quantity.name()).collect();
            if !names.is_empty() {
                title += &format!("; {what}: {}", names.join(", "));
            }
        }
        titles.push(plain_text(&title, 1));
        table.add_row([LINE]);
        for v in rows {
            let row = row(v, system, roomy);
            table.add_row(row[..if roomy { 8 } else { 7 }].to_vec());
        }
    }
    table.put_parts(&titles, out);
    if !roomy {
        let sizes = if system == System::Si { "mm" } else { "inches" };
        out.plain(format!("Sizes in {sizes}{}; clauses: --methods.", known(&rows_shown)));
    }
    if verdicts.iter().any(|v| v.likely.is_some()) {
        out.plain(format!(
            "out: chance to be beyond, model doubt included; {by_scatter}: if the model is right."
        ));
        let chances = verdicts.iter().filter_map(|v| Some((v.quantity.name(), v.likely?)));
        from_welding_alone(chances).into_iter().for_each(|said| out.plain(said));
    }
    signs(out);
    let Some(wanted) = job.wanted_camber.filter(|_| verdicts.iter().any(|v| v.place == STRAIGHT)) else {
        return;
    };
    // the sign of a deviation is not that of a bow
    let mm = |mm| show::ordinate(mm, system);
    let more = job.aimed_more_mm(0.5 * job.member.length_mm);
    let aim = if more.abs() > 0.0 {
        format!("the ordinates aim at {} more, the middle of what the limits allow", mm(more))
    } else {
        "the ordinates aim at it".to_owned()
    };
    out.plain(format!("Camber above: off the wanted {}, + more, − less; {aim}.", mm(wanted.rise_mm)))
}

/// Sign behind a limit that was not read in its standard itself, where a column has no room for the word.
const fn sign(trust: Trust) -> &'static str {
    match trust {
        Trust::Read => " ",
        Trust::SecondHand => "*",
        Trust::MemorySure => "†",
        Trust::MemoryCheck => "?",
        Trust::Inferred => "~",
        _ => "·",
    }
}

/// What the signs of limits mean: "; limits: * 2nd hand, † memory".
fn known(verdicts: &[&Verdict]) -> String {
    let trusts = verdicts.iter().map(|v| v.trust).filter(|trust| *trust != Trust::Read);
    let all = distinct(trusts.map(|trust| format!("{} {}", sign(trust), trust.mark())));
    if all.is_empty() { String::new() } else { format!("; limits: {}", all.join(", ")) }
}

/// Whether a limit is surely held, and its size small by nature or shown already.
fn quiet(v: &Verdict, shown: &[Quantity]) -> bool {
    let small = matches!(v.quantity, Quantity::Twist | Quantity::WebFlatness);
    let sure = v.likely.is_some_and(|likely| likely.chance < QUIET);
    v.verdict == Judgement::Within && sure && (small || shown.contains(&v.quantity))
}

/// The rule behind each limit, and how it is known.
pub(crate) fn rules(prediction: &Prediction, system: System, out: &mut Report) {
    out.heading("Where the limits stand", "");
    Columns::of(&prediction.verdicts)
        .left("what", |v| v.quantity.name())
        .left("standard", |v| match v.edition {
            "" => v.standard.to_owned(),
            edition => format!("{}:{edition}", v.standard),
        })
        .left("clause", |v| v.clause)
        .left("rule", |v| in_units(v.rule, system))
        .left("how known", |v| v.trust.words())
        .put(out);
    for of_set in prediction.verdicts.chunk_by(|a, b| a.set == b.set) {
        let Some(set) = of_set.first().and_then(|v| Set::parse(v.set)) else { continue };
        out.plain(format!("Not judged by {}: {}.", set.title(), set.not_covered()));
    }
}

/// A rule in the units asked for, where its standard has both: "1 mm per m (US: 1/8 in per 10 ft)".
fn in_units(rule: &str, system: System) -> Cow<'_, str> {
    let both = rule.split_once(" (US: ").and_then(|(si, rest)| Some((si, rest.split_once(')')?)));
    match (both, system) {
        (None, _) => Cow::Borrowed(rule),
        (Some((si, (_, behind))), System::Si) => Cow::Owned(format!("{si}{behind}")),
        (Some((_, (us, behind))), System::Us) => Cow::Owned(format!("{us}{behind}")),
    }
}

fn row(v: &Verdict, system: System, roomy: bool) -> [Cell; 8] {
    let (word, colour) = match v.verdict {
        Judgement::Within => ("within", Color::Green),
        Judgement::Near => ("close", Color::Yellow),
        Judgement::Out => ("OUT", Color::Red),
    };
    let place = match v.place {
        "along the member" => show::position(v.at_mm, system),
        "if plates are cut to the finished length" => "if cut to size".to_owned(),
        STRAIGHT => "if cut straight".to_owned(),
        "web" => format!("web, {}", show::position(v.at_mm, system)),
        flange => flange.to_owned(),
    };
    let limit = bare(&show::offset(v.limit, system)) + if roomy { "" } else { sign(v.trust) };
    [
        // over the depth, as `--methods` says with its rule: a longer word breaks the rows
        Cell::new(if v.quantity == Quantity::Twist { "twist" } else { v.quantity.name() }),
        Cell::new(place),
        Cell::new(bare_span(v.value, v.value_2s, system)),
        Cell::new(limit),
        Cell::new(word).fg(colour),
        Cell::new(v.likely.as_ref().map_or_else(String::new, bare_chance)),
        Cell::new(v.likely.as_ref().map_or_else(String::new, if_right)),
        Cell::new(v.trust.beside(v.clause)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_with_both_units_is_said_in_one() {
        let both = "1 mm per m (US: 1/8 in per 10 ft)";
        assert_eq!(in_units(both, System::Si), "1 mm per m");
        assert_eq!(in_units(both, System::Us), "1/8 in per 10 ft");
        assert_eq!(in_units("L/1000, at least 5 mm", System::Us), "L/1000, at least 5 mm");
    }
}
