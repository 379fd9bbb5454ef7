//! Where to measure, what to expect there, and room to write.

use super::reported::Reported;
use super::table::{As, table};
use super::verdicts::size;
use maud::Markup;
use weldbow_engine::numerics::between;
use weldbow_engine::prediction::Bow;
use weldbow_engine::tolerance::Quantity;
use weldbow_engine::units::show;

/// Stations of a bow to measure between the ends (a choice: quarters).
const QUARTERS: [f64; 3] = [0.25, 0.5, 0.75];

/// The plan.
pub(super) fn plan(of: &Reported<'_>) -> Markup {
    let columns = [
        (As::Words, "what"),
        (As::Words, "where"),
        (As::Number, "expected"),
        (As::Number, "limit"),
        (As::Field, "before welding"),
        (As::Field, "after welding"),
        (As::Field, "by"),
    ];
    table(
        "Measure cold, before any straightening: from the chord between the ends, with signs as drawn; lay the member so that its \
         weight does not bow it, or turn it over and take the mean",
        &columns,
        rows(of),
    )
}

fn rows(of: &Reported<'_>) -> Vec<Vec<String>> {
    let (p, system) = (of.prediction, of.system);
    let limit = |quantity: Quantity| {
        // from a wanted camber less and more may be allowed: one number would mislead
        if quantity == Quantity::Camber && of.job.wanted_camber.is_some() {
            return "off the wanted, see above".to_owned();
        }
        let of_it = p.verdicts.iter().filter(|v| v.quantity == quantity);
        of_it.map(|v| v.limit).min_by(f64::total_cmp).map_or_else(String::new, |mm| show::offset(mm, system))
    };
    let length = of.job.member.length_mm;
    let mut rows = vec![vec![
        "shortening".to_owned(),
        "along the middle of the web".to_owned(),
        size(p.shortening.centroid_mm, p.shortening.centroid_2s_mm, system),
        limit(Quantity::Length),
    ]];
    for (name, bow, quantity) in
        [("camber", &p.camber, Quantity::Camber), ("sweep", &p.sweep, Quantity::Sweep)]
    {
        for part in QUARTERS {
            let x = part * length;
            let (value, spread) = at(bow, x);
            let expected = size(value, spread, system);
            rows.push(vec![name.to_owned(), show::position(x, system), expected, limit(quantity)]);
        }
    }
    for f in &p.flanges {
        for (toe, mm) in [("near toe", f.near_toe_mm), ("far toe", f.far_toe_mm)] {
            rows.push(vec![
                format!("{} flange, {toe}", f.flange.name()),
                show::position(f.x_mm, system),
                size(mm, f.toe_2s_mm, system),
                limit(Quantity::FlangeToe),
            ]);
        }
    }
    let twist = &p.twist;
    let [outer, inner] = &twist.flange_profile_mm;
    let apart = |k: &usize| (inner[*k] - outer[*k]).abs();
    let farthest = (0..inner.len().min(outer.len())).max_by(|a, b| apart(a).total_cmp(&apart(b)));
    let at_mm = farthest.and_then(|k| twist.profile.get(k)).map_or(twist.at_mm, |point| point[0]);
    rows.push(vec![
        "twist: how far the inner flange sweeps nearer than the outer".to_owned(),
        show::position(at_mm, system),
        show::offset(twist.apart_mm, system),
    ]);
    let judged = p.verdicts.iter().filter(|v| v.quantity == Quantity::Twist);
    if let Some(v) = judged.min_by(|a, b| a.margin.total_cmp(&b.margin)) {
        rows.push(vec![
            "twist: turn against the start end, as the offset over the depth".to_owned(),
            show::position(v.at_mm, system),
            size(v.value, v.value_2s, system),
            limit(Quantity::Twist),
        ]);
    }
    if let Some(r) = super::verdicts::worst_ripple(p) {
        let what = "web, off a straight edge set upright".to_owned();
        rows.push(vec![what, show::position(r.x_mm, system), size(r.wave_mm, r.wave_2s_mm, system)]);
    }
    rows
}

/// Offset and spread at x, straight between stations.
fn at(bow: &Bow, x: f64) -> (f64, f64) {
    let places: Vec<f64> = bow.profile.iter().map(|point| point[0]).collect();
    let spread = |k: usize| bow.profile_2s_mm.get(k).copied().unwrap_or_default();
    (between(&places, |k| bow.profile[k][1], x), between(&places, spread, x))
}
