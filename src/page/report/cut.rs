//! What to cut, to what curve, and how to preset: the tables of the cutting list, and the presets.

use super::reported::Reported;
use super::table::{As, table};
use maud::{Markup, html};
use weldbow_cut::{CUT_IS, Mark, Plates, Stations, Table, cut_list, ordinates, stations};
use weldbow_engine::prediction::NOT_NEEDED;
use weldbow_engine::units::show;

/// Letters from which on a cell wants room (a choice).
const WORDY: usize = 30;

/// Plates, and the edges of the web.
pub(super) fn plates(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let plates = Plates::of(of.job, of.prediction);
    let at = stations(&plates.web, Stations::Needed, system);
    let mark = [Mark { mark: String::new(), job: String::new(), quantity: 1, plates, stations: at }];
    let plates = &mark[0].plates;
    html! {
        (listed(&format!("Cut list: {CUT_IS}"), &cut_list(&mark, system), &["mark", "quantity"], "cut"))
        @match &plates.why_straight {
            Some(why) => p.says { (why.in_units(system)) },
            None => {
                (listed(&format!("Web: {}", plates.cut_how(system)), &ordinates(&mark, system), &["mark", "on_member"], "edge"))
                p.says { "The largest ordinate is known to ± " (show::ordinate(plates.ordinate_2s_mm, system)) "." }
            }
        }
    }
}

/// A table of the cutting list with room to tick; `result` is part of the names of the columns that it is for.
fn listed(caption: &str, list: &Table, without: &[&str], result: &str) -> Markup {
    let shown = list.shown(without);
    let heads: Vec<String> =
        shown.iter().map(|i| list.head_in_words(*i)).chain(["done".to_owned()]).collect();
    let wordy = |i: usize| list.rows.iter().any(|row| list.words(&row[i]).chars().count() > WORDY);
    let set = |(k, head): (usize, &String)| match shown.get(k) {
        None => As::Field,
        Some(_) if head.contains(result) => As::Result,
        Some(i) if list.is_of_figures(*i) => As::Number,
        Some(i) if wordy(*i) => As::Long,
        Some(_) => As::Words,
    };
    let columns: Vec<(As, &str)> =
        heads.iter().enumerate().map(|(k, head)| (set((k, head)), head.as_str())).collect();
    let rows = list.rows.iter().map(|row| shown.iter().map(|i| list.said(&row[*i])).collect());
    table(caption, &columns, rows)
}

/// How to pre-bend and pre-tilt the flanges before welding.
pub(crate) fn presets(of: &Reported<'_>) -> Markup {
    let system = of.system;
    if let Some(why) = of.prediction.allowance.why_no_preset() {
        return html! { p.says { (why.in_units(system)) } };
    }
    let columns = [
        (As::Words, "flange"),
        (As::Number, "from"),
        (As::Number, "to"),
        (As::Number, "pre-bend"),
        (As::Number, "pre-tilt"),
        (As::Result, "near toe packing"),
        (As::Result, "far toe packing"),
    ];
    let rows = of.prediction.allowance.presets.iter().map(|p| {
        let place =
            [p.flange.name().to_owned(), show::position(p.from_mm, system), show::position(p.to_mm, system)];
        let set = p.in_words(system).map_or_else(|| vec![NOT_NEEDED.to_owned()], Vec::from);
        place.into_iter().chain(set).collect()
    });
    table("Flange preset: pre-bend and pre-tilt, away from the web, before welding", &columns, rows)
}
