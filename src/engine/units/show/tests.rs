use super::*;
use crate::units::{Kind, read};
use proptest::prelude::*;

type Shown = fn(f64, System) -> String;
/// Function, the kind its text reads back as, and its largest rounding in SI and in US, engine units.
const ALL: [(&str, Shown, Option<Kind>, f64, f64); 13] = [
    ("offset", offset, Some(Kind::Length), 0.05, 0.005 * 25.4),
    ("plate", plate, Some(Kind::Length), 0.05, SAME_PLATE_MM),
    ("position", position, Some(Kind::Length), 5.0, 12.7),
    ("cut", cut, Some(Kind::Length), 0.05, 25.4 / 32.0),
    ("force", force, Some(Kind::Force), 500.0, 2224.2),
    ("stress", stress, Some(Kind::Stress), 0.5, 0.3448),
    ("flow", flow, Some(Kind::ForcePerLength), 0.5, 0.8757),
    ("moment", moment, Some(Kind::Moment), 500_000.0, 677_909.0),
    ("heat_input", heat_input, Some(Kind::HeatInput), 5.0, 1.969),
    ("speed", speed, Some(Kind::Speed), 0.0834, 0.2117),
    ("mass", mass, None, 0.0, 0.0),
    ("angle", angle, Some(Kind::Angle), 8.73e-4, 8.73e-4),
    ("temperature", temperature, Some(Kind::Temperature), 0.5, 0.278),
];

#[test]
fn what_is_not_finite_shows_as_not_known() {
    for (name, show, ..) in ALL {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            for system in [System::Si, System::Us] {
                assert_eq!(show(value, system), "not known", "{name}");
            }
        }
    }
    assert_eq!(shop_fraction(f64::NAN), "not known");
}

#[test]
fn nothing_small_shows_as_minus_zero() {
    for (name, show, ..) in ALL.iter().filter(|row| row.0 != "temperature") {
        for system in [System::Si, System::Us] {
            let (zero, tiny) = (show(0.0, system), show(-1e-9, system));
            assert_eq!(zero, tiny, "{name}");
            assert_eq!(zero, show(-0.0, system), "{name}");
        }
    }
    assert_eq!(temperature(-0.3, System::Si), "0 °C");
    assert_eq!(shop_fraction(-0.2), "0 in");
}

#[test]
fn inches_carry_into_feet_and_sixteenths_into_inches() {
    for (mm, text) in [
        (304.79, "1 ft 0 in"),
        (0.0, "0 in"),
        (1.5875, "1/16 in"),
        (25.39, "1 in"),
        (-3657.6, "−12 ft 0 in"),
        (317.5, "1 ft 1/2 in"),
        (12.7, "1/2 in"),
    ] {
        assert_eq!(cut(mm, System::Us), text, "{mm} mm");
    }
    assert_eq!(position(3657.0, System::Us), "12 ft 0 in");
}

#[test]
fn a_plate_takes_the_name_of_a_sixteenth_only_when_it_is_one() {
    for (mm, text) in [
        (6.35, "1/4 in"),
        (6.49, "1/4 in"),
        (6.51, "0.256 in"),
        (0.1, "0.004 in"),
        (0.0, "0 in"),
        (300.0, "11-13/16 in"),
        (457.2, "18 in"),
    ] {
        assert_eq!(plate(mm, System::Us), text, "{mm} mm");
    }
    assert_eq!(plate(7.96, System::Si), "8 mm");
    assert_eq!(plate(300.0, System::Si), "300 mm");
}

#[test]
fn figures_follow_the_size_of_the_number() {
    for (n, text) in [
        (1_234_567.0, "1235 kN"),
        (99_960.0, "100 kN"),
        (99_900.0, "99.9 kN"),
        (9_996.0, "10.0 kN"),
        (400.0, "0.40 kN"),
        (-148_200.0, "−148 kN"),
    ] {
        assert_eq!(force(n, System::Si), text, "{n} N");
    }
}

proptest! {
    #[test]
    fn what_is_shown_reads_back_within_its_rounding(value in -1e5..1e5_f64) {
        for (name, show, kind, si, us) in ALL {
            for (system, rounding) in [(System::Si, si), (System::Us, us)] {
                let text = show(value, system);
                let Some(kind) = kind else { continue };
                let back = read(kind, &text).unwrap();
                let gap = (back - value).abs();
                prop_assert!(gap <= rounding * (1.0 + 1e-6), "{name}: {value} as {text} is {back}");
            }
        }
    }

    #[test]
    fn any_float_at_all_can_be_shown(value in proptest::num::f64::ANY) {
        for (name, show, ..) in ALL {
            for system in [System::Si, System::Us] {
                let text = show(value, system);
                prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{name}: {text}");
            }
        }
    }
}
