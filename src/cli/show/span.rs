//! Numbers as tables show them: sizes with their span, and chances.

use crate::cli::lists::grouped;
use crate::tolerance::Likely;
use crate::units::{IN_MM, System, show};

/// "2.5 ± 0.8 mm".
pub(crate) fn with_span(value_mm: f64, span_mm: f64, system: System) -> String {
    let value = show::offset(value_mm, system);
    let span = show::offset(span_mm, system);
    match value.split_once(' ') {
        Some((number, _)) => format!("{number} ± {span}"),
        None => value,
    }
}

/// "2.5 ± 0.8", for a column that names its unit.
pub(crate) fn bare_span(value_mm: f64, span_mm: f64, system: System) -> String {
    let whole = with_span(value_mm, span_mm, system);
    whole.strip_suffix(unit(system)).map_or(whole.clone(), |number| number.trim_end().to_owned())
}

/// The number of a shown quantity, its unit in the head of the column.
pub(crate) fn bare(shown: &str) -> String {
    shown.split(' ').next().unwrap_or_default().to_owned()
}

/// Unit of an offset.
pub(crate) fn unit(system: System) -> &'static str {
    system.pick("mm", "in")
}

/// A small length with decimals that show it, without its unit.
pub(crate) fn fine(mm: f64, system: System) -> String {
    let (decimals, unit_mm) = system.pick((2, 1.0), (3, IN_MM));
    format!("{:.decimals$}", mm / unit_mm)
}

/// "3.2 %", finer where it is small, and where it is nearly all: "100 %" is all.
pub(crate) fn percent(share: f64) -> String {
    let hundred = 100.0 * share;
    let decimals = match (hundred, 100.0 - hundred) {
        (h, left) if h <= 0.0 || left <= 0.0 => 0,
        (h, left) if h < 0.095 || left < 0.095 => 2,
        (h, left) if h < 9.95 || left < 0.5 => 1,
        _ => 0,
    };
    format!("{hundred:.decimals$} %")
}

/// "62 % ± 6 %"; "under 7.2 %" if no drawn piece was out, "over 93 %" if all were.
pub(crate) fn chance(likely: &Likely) -> String {
    match likely.at_most {
        Some(most) if likely.chance > 0.5 => format!("over {}", percent(1.0 - most)),
        Some(most) => format!("under {}", percent(most)),
        None => format!("{} ± {}", percent(likely.chance), percent(likely.standard_error)),
    }
}

/// The same without its standard error.
pub(crate) fn bare_chance(likely: &Likely) -> String {
    match likely.at_most {
        Some(most) if likely.chance > 0.5 => format!("> {}", percent(1.0 - most)),
        Some(most) => format!("< {}", percent(most)),
        None => counted(likely.chance, likely.standard_error),
    }
}

/// A chance counted from draws: what is less than two of its errors is not known from nothing.
fn counted(chance: f64, error: f64) -> String {
    if chance < 2.0 * error { format!("< {}", percent(chance + 2.0 * error)) } else { percent(chance) }
}

/// What the chance is if the model is right; a dash if that was not asked.
pub(crate) fn if_right(likely: &Likely) -> String {
    match likely.if_model_right {
        Some(right) if right > 0.0 && right < 1.0 => {
            counted(right, likely.if_model_right_error.unwrap_or_default())
        }
        Some(right) if right > 0.5 => "all".to_owned(),
        Some(_) => "none".to_owned(),
        None => "–".to_owned(),
    }
}

/// Chances that differ by less are the same to a shop (choice: a piece in a hundred).
const TOLD: f64 = 0.01;

/// The chances from welding alone, name by name where plates and assembly change them; None if they do nowhere. Of several of a
/// name the likeliest counts.
pub(crate) fn from_welding_alone<'n>(all: impl IntoIterator<Item = (&'n str, Likely)>) -> Option<String> {
    let known = all.into_iter().filter_map(|(name, of)| Some((name, (of.chance, of.from_welding_alone?))));
    let worst =
        |all: Vec<(f64, f64)>| all.into_iter().reduce(|most, one| if one.0 > most.0 { one } else { most });
    let worst = grouped(known).into_iter().filter_map(|(name, all)| Some((name, worst(all)?)));
    let told = worst.filter(|(_, (all, alone))| (all - alone).abs() >= TOLD);
    let said: Vec<String> = told.map(|(name, (_, alone))| format!("{name} {}", percent(alone))).collect();
    (!said.is_empty()).then(|| format!("From welding alone: {}.", said.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chance_is_never_nothing_give_or_take_nothing() {
        // one piece of 25 000, and none but one of them: 500 draws of the bias tell 3/500 from nothing (rule of three)
        let of = |out, of| Likely::of(&crate::scatter::Chance { out, of, failed: 0 }).map(|l| chance(&l));
        assert_eq!(of(0, 500).as_deref(), Some("under 0.6 %"));
        assert_eq!(of(500, 500).as_deref(), Some("over 99 %"));
        assert_eq!(of(4000, 4000).as_deref(), Some("over 99.93 %"));
        assert_eq!(of(1, 25_000).as_deref(), Some("under 0.01 %"));
        assert_eq!(of(25, 500).as_deref(), Some("5.0 % ± 1.0 %"));
        assert_eq!(
            (percent(1.0), percent(0.9997), percent(0.994), percent(0.0)),
            ("100 %".into(), "99.97 %".into(), "99 %".into(), "0 %".into())
        );
    }
}
