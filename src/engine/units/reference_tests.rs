//! Every spelling against factors written out by hand from their definitions, apart from the tables.

use super::{Kind, read};

/// Rounding of a product of a few factors, relative.
const ROUNDING: f64 = 4.0 * f64::EPSILON;
/// ksi in MPa is quoted to 13 figures.
const QUOTED_KSI: f64 = 1e-12;

const DEG: f64 = 0.017_453_292_519_943_295;

/// Kind, spelling, engine units in 9 of it, relative tolerance.
const NINE: &[(Kind, &str, f64, f64)] = &[
    (Kind::Length, "mm", 9.0, 0.0),
    (Kind::Length, "cm", 90.0, 0.0),
    (Kind::Length, "m", 9000.0, 0.0),
    (Kind::Length, "in", 228.6, ROUNDING),
    (Kind::Length, "\"", 228.6, ROUNDING),
    (Kind::Length, "ft", 2743.2, ROUNDING),
    (Kind::Length, "'", 2743.2, ROUNDING),
    (Kind::Speed, "mm/s", 9.0, 0.0),
    (Kind::Speed, "mm/min", 0.15, ROUNDING),
    (Kind::Speed, "cm/min", 1.5, ROUNDING),
    (Kind::Speed, "m/min", 150.0, ROUNDING),
    (Kind::Speed, "m/s", 9000.0, 0.0),
    (Kind::Speed, "in/min", 3.81, ROUNDING),
    (Kind::Speed, "ipm", 3.81, ROUNDING),
    (Kind::Force, "N", 9.0, 0.0),
    (Kind::Force, "kN", 9000.0, 0.0),
    (Kind::Force, "kip", 40_033.994_537_344_5, ROUNDING),
    (Kind::Force, "lbf", 40.033_994_537_344_5, ROUNDING),
    (Kind::Stress, "MPa", 9.0, 0.0),
    (Kind::Stress, "N/mm2", 9.0, 0.0),
    (Kind::Stress, "N/mm²", 9.0, 0.0),
    (Kind::Stress, "GPa", 9000.0, 0.0),
    (Kind::Stress, "ksi", 9.0 * 6.894_757_293_168, QUOTED_KSI),
    (Kind::Stress, "psi", 9.0 * 0.006_894_757_293_168, QUOTED_KSI),
    (Kind::Current, "A", 9.0, 0.0),
    (Kind::Current, "kA", 9000.0, 0.0),
    (Kind::Voltage, "V", 9.0, 0.0),
    (Kind::HeatInput, "J/mm", 9.0, 0.0),
    (Kind::HeatInput, "kJ/mm", 9000.0, 0.0),
    (Kind::HeatInput, "kJ/cm", 900.0, 0.0),
    (Kind::HeatInput, "kJ/in", 9.0 * 39.370_078_740_157_48, ROUNDING),
    (Kind::HeatInput, "J/in", 9.0 * 0.039_370_078_740_157_48, ROUNDING),
    (Kind::Temperature, "°C", 9.0, 0.0),
    (Kind::Temperature, "C", 9.0, 0.0),
    (Kind::Temperature, "degC", 9.0, 0.0),
    (Kind::Temperature, "°F", -115.0 / 9.0, ROUNDING),
    (Kind::Temperature, "F", -115.0 / 9.0, ROUNDING),
    (Kind::Temperature, "degF", -115.0 / 9.0, ROUNDING),
    (Kind::Time, "s", 9.0, 0.0),
    (Kind::Time, "min", 540.0, 0.0),
    (Kind::Time, "h", 32_400.0, 0.0),
    (Kind::MassRate, "kg/h", 9.0, 0.0),
    (Kind::MassRate, "lb/h", 4.082_331_33, ROUNDING),
    (Kind::MassRate, "g/min", 0.54, ROUNDING),
    (Kind::MassRate, "g/s", 32.4, ROUNDING),
    (Kind::Angle, "rad", 9.0, 0.0),
    (Kind::Angle, "mrad", 0.009, ROUNDING),
    (Kind::Angle, "deg", 9.0 * DEG, ROUNDING),
    (Kind::Angle, "°", 9.0 * DEG, ROUNDING),
    (Kind::Moment, "N·mm", 9.0, 0.0),
    (Kind::Moment, "kN·m", 9e6, 0.0),
    (Kind::Moment, "kN m", 9e6, 0.0),
    (Kind::Moment, "kNm", 9e6, 0.0),
    (Kind::Moment, "N·m", 9000.0, 0.0),
    (Kind::Moment, "Nm", 9000.0, 0.0),
    (Kind::Moment, "kip·ft", 12_202_361.534_982_603, ROUNDING),
    (Kind::Moment, "kip ft", 12_202_361.534_982_603, ROUNDING),
    (Kind::Moment, "kip-ft", 12_202_361.534_982_603, ROUNDING),
    (Kind::Moment, "kip·in", 1_016_863.461_248_550_3, ROUNDING),
    (Kind::Moment, "kip in", 1_016_863.461_248_550_3, ROUNDING),
    (Kind::ForcePerLength, "N/mm", 9.0, 0.0),
    (Kind::ForcePerLength, "kN/m", 9.0, 0.0),
    (Kind::ForcePerLength, "kN/mm", 9000.0, 0.0),
    (Kind::ForcePerLength, "N/m", 0.009, ROUNDING),
    (Kind::ForcePerLength, "kip/ft", 131.345_126_434_857_3, ROUNDING),
    (Kind::ForcePerLength, "kip/in", 1_576.141_517_218_287_4, ROUNDING),
    (Kind::ForcePerLength, "lbf/ft", 0.131_345_126_434_857_3, ROUNDING),
    (Kind::ForcePerLength, "lbf/in", 1.576_141_517_218_287_4, ROUNDING),
    (Kind::Straightness, "mm/m", 9.0, 0.0),
    (Kind::Straightness, "in/10ft", 75.0, ROUNDING),
    (Kind::Straightness, "in/10 ft", 75.0, ROUNDING),
];

#[test]
fn nine_of_every_unit_is_what_its_definition_says() {
    for &(kind, spelling, expected, tolerance) in NINE {
        for text in [format!("9 {spelling}"), format!("9{spelling}"), format!(" 9.0  {spelling} ")] {
            let got = read(kind, &text).unwrap();
            let gap = (got - expected).abs() / expected.abs();
            assert!(gap <= tolerance, "{text}: read {got}, expected {expected}");
        }
    }
}

#[test]
fn no_accepted_spelling_lacks_a_reference() {
    for kind in Kind::ALL {
        let tabled: Vec<&str> = kind.units().iter().map(|u| u.spelling).collect();
        for spelling in &tabled {
            assert!(NINE.iter().any(|row| (row.0, row.1) == (kind, spelling)), "{kind:?} {spelling}");
        }
        let referenced = NINE.iter().filter(|row| row.0 == kind).count();
        assert_eq!(tabled.len(), referenced, "{kind:?}");
    }
}

#[test]
fn the_first_unit_of_a_kind_is_the_engines() {
    for kind in Kind::ALL {
        let first = &kind.units()[0];
        let got = first.to_engine(7.3);
        assert_eq!(got.to_bits(), 7.3_f64.to_bits(), "{kind:?}: 7.3 {} became {got}", first.spelling);
    }
}
