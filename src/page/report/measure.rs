//! Where to measure, what to expect there, and room to write.

use super::Reported;
use maud::{Markup, html};
use weldbow_engine::prediction::Bow;
use weldbow_engine::tolerance::Quantity;
use weldbow_engine::units::show;

/// Stations of a bow to measure between the ends (a choice: quarters).
const QUARTERS: [f64; 3] = [0.25, 0.5, 0.75];

/// One row a measurement.
struct Row {
    what: String,
    place: String,
    expected: String,
    limit: String,
}

/// The plan.
pub fn plan(of: &Reported<'_>) -> Markup {
    html! {
        table {
            caption { "Measure cold, before any straightening: from the chord between the ends, with signs as drawn; lay the member so that its weight does not bow it, or turn it over and take the mean" }
            thead { tr { th { "what" } th { "where" } th.n { "expected" } th.n { "limit" } th.field { "before welding" } th.field { "after welding" } th.field { "by" } } }
            tbody {
                @for row in rows(of) {
                    tr { td { (row.what) } td { (row.place) } td.n { (row.expected) } td.n { (row.limit) } td.field {} td.field {} td.field {} }
                }
            }
        }
    }
}

fn rows(of: &Reported<'_>) -> Vec<Row> {
    let (p, system) = (of.prediction, of.system);
    let limit = |quantity: Quantity| {
        let of_it = p.verdicts.iter().filter(|v| v.quantity == quantity);
        of_it.map(|v| v.limit).min_by(f64::total_cmp).map_or_else(String::new, |mm| show::offset(mm, system))
    };
    let size =
        |mm: f64, spread: f64| format!("{} ± {}", show::offset(mm, system), show::offset(spread, system));
    let length = of.job.member.length_mm;
    let mut rows = vec![Row {
        what: "shortening".to_owned(),
        place: "along the middle of the web".to_owned(),
        expected: size(p.shortening.centroid_mm, p.shortening.centroid_2s_mm),
        limit: limit(Quantity::Length),
    }];
    for (name, bow, quantity) in
        [("camber", &p.camber, Quantity::Camber), ("sweep", &p.sweep, Quantity::Sweep)]
    {
        for part in QUARTERS {
            let x = part * length;
            let (value, spread) = at(bow, x);
            rows.push(Row {
                what: name.to_owned(),
                place: show::position(x, system),
                expected: size(value, spread),
                limit: limit(quantity),
            });
        }
    }
    for f in &p.flanges {
        for (toe, mm) in [("near toe", f.near_toe_mm), ("far toe", f.far_toe_mm)] {
            rows.push(Row {
                what: format!("{} flange, {toe}", f.flange.name()),
                place: show::position(f.x_mm, system),
                expected: size(mm, f.toe_2s_mm),
                limit: limit(Quantity::FlangeToe),
            });
        }
    }
    rows
}

/// Offset and spread at x, straight between stations.
fn at(bow: &Bow, x: f64) -> (f64, f64) {
    let above = bow.profile.partition_point(|point| point[0] < x).clamp(1, bow.profile.len().max(2) - 1);
    let (Some(a), Some(b)) = (bow.profile.get(above - 1), bow.profile.get(above)) else { return (0.0, 0.0) };
    let part = (x - a[0]) / (b[0] - a[0]);
    let spread = |k: usize| bow.profile_2s_mm.get(k).copied().unwrap_or_default();
    (a[1] + part * (b[1] - a[1]), spread(above - 1) + part * (spread(above) - spread(above - 1)))
}
