//! Lengths as a machine and a tape take them: decimals that keep the correction.

use weldbow_engine::units::{IN_MM, System};

/// Unit of lengths: "mm" or "in".
pub(crate) fn unit(system: System) -> &'static str {
    system.pick("mm", "in")
}

/// Decimals of a length: 0.01 mm or 0.001 in, so that what is lost is far below a tenth of a millimetre.
pub(crate) fn decimals(system: System) -> usize {
    system.pick(2, 3)
}

/// A length in its unit: sixteenths of an inch are such again, 3/16 in no hair less than 0.1875, which would be written as 0.187.
pub(crate) fn in_unit(mm: f64, system: System) -> f64 {
    system.pick(mm, (mm / IN_MM * 1e9).round() * 1e-9)
}

/// The number of a length as written, without its unit; never "-0".
pub(crate) fn number(mm: f64, system: System) -> String {
    fixed(in_unit(mm, system), decimals(system))
}

/// A length as written, with its unit.
pub(crate) fn length(mm: f64, system: System) -> String {
    format!("{} {}", number(mm, system), unit(system))
}

/// A number with so many decimals; never "-0".
pub(crate) fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "not known".to_owned();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

/// What a written length reads back as, mm.
pub(crate) fn as_written_mm(mm: f64, system: System) -> f64 {
    let scale = 10_f64.powi(i32::try_from(decimals(system)).unwrap_or_default());
    let written = (in_unit(mm, system) * scale).round() / scale;
    system.pick(written, written * IN_MM)
}

/// The step of a tape that stations are put on, mm: 1 mm or 1/8 in, both exact as written.
pub(crate) fn tape_mm(system: System) -> f64 {
    system.pick(1.0, IN_MM / 8.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_loses_less_than_a_fiftieth_of_a_millimetre() {
        for (mm, si, us) in [
            (9012.404, "9012.40", "354.819"),
            (-0.001, "0.00", "0.000"),
            (0.4, "0.40", "0.016"),
            (4.7625, "4.76", "0.188"),
        ] {
            assert_eq!((number(mm, System::Si).as_str(), number(mm, System::Us).as_str()), (si, us));
            for system in [System::Si, System::Us] {
                assert!((as_written_mm(mm, system) - mm).abs() < 0.013, "{mm}");
            }
        }
        assert_eq!(number(f64::NAN, System::Si), "not known");
    }
}
