//! Engine units to what a shop reads. For people: rounded, U+2212 for minus, never "-0"; a value that is not
//! finite shows as "not known". Exact text is what the newtypes serialise to.

mod figures;
mod inches;

use super::System;
use super::unit::{FT_MM, IN_MM, LB_KG, LBF_N};
use figures::{fixed, minus, three_figures, trimmed, unknown};
use inches::feet_and_inches;
pub(super) use inches::inches;

/// How far a plate may be from a sixteenth of an inch and still be called by it, mm. Our choice: 8 mm and
/// 5/16 in (0.06 mm apart) are one plate, 10 mm and 3/8 in (0.48 mm apart) are two.
const SAME_PLATE_MM: f64 = 0.15;

/// A value of either system, to so many decimals, with its unit.
fn decimals(system: System, si: (f64, usize, &str), us: (f64, usize, &str)) -> String {
    let (value, decimals, unit) = system.pick(si, us);
    fixed(value, decimals, unit)
}

/// A value of either system, to three figures, with its unit.
fn figures(system: System, si: (f64, &str), us: (f64, &str)) -> String {
    let (value, unit) = system.pick(si, us);
    three_figures(value, unit)
}

/// A deflection or other offset.
///
/// ```
/// use weldbow_engine::units::{System, show::offset};
/// assert_eq!(offset(8.31, System::Si), "8.3 mm");
/// assert_eq!(offset(-8.31, System::Us), "−0.33 in");
/// ```
pub fn offset(mm: f64, system: System) -> String {
    decimals(system, (mm, 1, "mm"), (mm / IN_MM, 2, "in"))
}

/// An ordinate to cut to, with the decimals that a correction needs.
///
/// ```
/// use weldbow_engine::units::{System, show::ordinate};
/// assert_eq!(ordinate(0.4, System::Us), "0.016 in");
/// assert_eq!(ordinate(0.4, System::Si), "0.4 mm");
/// ```
pub fn ordinate(mm: f64, system: System) -> String {
    match system {
        System::Si => offset(mm, system),
        System::Us => thousandths(mm),
    }
}

/// Inches to the thousandth: an ordinate to cut to, of which hundredths would lose the correction.
///
/// ```
/// use weldbow_engine::units::show::thousandths;
/// assert_eq!(thousandths(0.4), "0.016 in");
/// ```
pub fn thousandths(mm: f64) -> String {
    fixed(mm / IN_MM, 3, "in")
}

/// The size of a plate or a leg: in US units as the sixteenth of an inch it is sold by, if it is within
/// 0.15 mm of one, else in decimals.
///
/// ```
/// use weldbow_engine::units::{System, show::plate};
/// assert_eq!(plate(8.0, System::Si), "8 mm");
/// assert_eq!(plate(8.0, System::Us), "5/16 in");
/// assert_eq!(plate(31.75, System::Us), "1-1/4 in");
/// assert_eq!(plate(10.0, System::Us), "0.394 in");
/// ```
pub fn plate(mm: f64, system: System) -> String {
    match system {
        System::Si => trimmed(mm, 1, "mm"),
        System::Us => {
            let sixteenths = (mm / IN_MM * 16.0).round();
            let near = (sixteenths / 16.0 * IN_MM - mm).abs() <= SAME_PLATE_MM;
            if near && sixteenths.abs() > 0.0 { shop_fraction(mm) } else { trimmed(mm / IN_MM, 3, "in") }
        }
    }
}

/// A place along the member.
///
/// ```
/// use weldbow_engine::units::{System, show::position};
/// assert_eq!(position(4250.0, System::Si), "4.25 m");
/// assert_eq!(position(4250.0, System::Us), "13 ft 11 in");
/// ```
pub fn position(mm: f64, system: System) -> String {
    match system {
        System::Si => fixed(mm / 1000.0, 2, "m"),
        System::Us => feet_and_inches((mm / IN_MM).round() * 16.0),
    }
}

/// A length to cut.
///
/// ```
/// use weldbow_engine::units::{System, show::cut};
/// assert_eq!(cut(9012.4, System::Si), "9012.4 mm");
/// assert_eq!(cut(9012.4, System::Us), "29 ft 6-13/16 in");
/// ```
pub fn cut(mm: f64, system: System) -> String {
    match system {
        System::Si => fixed(mm, 1, "mm"),
        System::Us => feet_and_inches((mm / IN_MM * 16.0).round()),
    }
}

/// Inches to the nearest sixteenth, in lowest terms.
///
/// ```
/// use weldbow_engine::units::show::shop_fraction;
/// assert_eq!(shop_fraction(9.525), "3/8 in");
/// assert_eq!(shop_fraction(31.75), "1-1/4 in");
/// assert_eq!(shop_fraction(0.2), "0 in");
/// ```
pub fn shop_fraction(mm: f64) -> String {
    let sixteenths = (mm / IN_MM * 16.0).round();
    if sixteenths.is_finite() {
        format!("{}{} in", minus(sixteenths), inches(sixteenths.abs(), 16.0))
    } else {
        unknown()
    }
}

/// A force.
///
/// ```
/// use weldbow_engine::units::{System, show::force};
/// assert_eq!(force(148_000.0, System::Si), "148 kN");
/// assert_eq!(force(148_000.0, System::Us), "33.3 kip");
/// ```
pub fn force(n: f64, system: System) -> String {
    figures(system, (n / 1000.0, "kN"), (n / (1000.0 * LBF_N), "kip"))
}

/// Heat of a joint over the square of its flange's thickness.
///
/// ```
/// use weldbow_engine::units::{System, show::heat_density};
/// assert_eq!(heat_density(10.0, System::Si), "10.0 J/mm³");
/// assert_eq!(heat_density(10.0, System::Us), "164 kJ/in³");
/// ```
pub fn heat_density(j_per_mm3: f64, system: System) -> String {
    figures(system, (j_per_mm3, "J/mm³"), (j_per_mm3 * IN_MM * IN_MM * IN_MM / 1000.0, "kJ/in³"))
}

/// An energy that a loaded press holds.
///
/// ```
/// use weldbow_engine::units::{System, show::energy};
/// assert_eq!(energy(6373.0, System::Si), "6.4 kJ");
/// assert_eq!(energy(6373.0, System::Us), "4700 ft·lbf");
/// ```
pub fn energy(j: f64, system: System) -> String {
    const FT_LBF_J: f64 = 12.0 * IN_MM * LBF_N / 1000.0;
    decimals(system, (j / 1000.0, 1, "kJ"), ((j / FT_LBF_J / 10.0).round() * 10.0, 0, "ft·lbf"))
}

/// A stress.
///
/// ```
/// use weldbow_engine::units::{System, show::stress};
/// assert_eq!(stress(36.0, System::Si), "36 MPa");
/// assert_eq!(stress(36.0, System::Us), "5.2 ksi");
/// ```
pub fn stress(mpa: f64, system: System) -> String {
    decimals(system, (mpa, 0, "MPa"), (mpa * IN_MM * IN_MM / (1000.0 * LBF_N), 1, "ksi"))
}

/// An area of a section.
///
/// ```
/// use weldbow_engine::units::{System, show::area};
/// assert_eq!(area(50.4, System::Si), "50 mm²");
/// assert_eq!(area(50.4, System::Us), "0.078 in²");
/// ```
pub fn area(mm2: f64, system: System) -> String {
    decimals(system, (mm2, 0, "mm²"), (mm2 / (IN_MM * IN_MM), 3, "in²"))
}

/// A shear flow: force per length of seam.
///
/// ```
/// use weldbow_engine::units::{System, show::flow};
/// assert_eq!(flow(102.92, System::Si), "103 N/mm");
/// assert_eq!(flow(102.92, System::Us), "0.59 kip/in");
/// ```
pub fn flow(n_per_mm: f64, system: System) -> String {
    decimals(system, (n_per_mm, 0, "N/mm"), (n_per_mm * IN_MM / (1000.0 * LBF_N), 2, "kip/in"))
}

/// A bending moment.
///
/// ```
/// use weldbow_engine::units::{System, show::moment};
/// assert_eq!(moment(450e6, System::Si), "450 kN·m");
/// assert_eq!(moment(450e6, System::Us), "332 kip·ft");
/// ```
pub fn moment(n_mm: f64, system: System) -> String {
    figures(system, (n_mm / 1e6, "kN·m"), (n_mm / (1000.0 * LBF_N * FT_MM), "kip·ft"))
}

/// A heat input.
///
/// ```
/// use weldbow_engine::units::{System, show::heat_input};
/// assert_eq!(heat_input(1116.0, System::Si), "1.12 kJ/mm");
/// assert_eq!(heat_input(1116.0, System::Us), "28.3 kJ/in");
/// ```
pub fn heat_input(j_per_mm: f64, system: System) -> String {
    decimals(system, (j_per_mm / 1000.0, 2, "kJ/mm"), (j_per_mm * IN_MM / 1000.0, 1, "kJ/in"))
}

/// A travel speed.
///
/// ```
/// use weldbow_engine::units::{System, show::speed};
/// assert_eq!(speed(16.667, System::Si), "1.00 m/min");
/// assert_eq!(speed(16.667, System::Us), "39 in/min");
/// ```
pub fn speed(mm_per_s: f64, system: System) -> String {
    decimals(system, (mm_per_s * 60.0 / 1000.0, 2, "m/min"), (mm_per_s * 60.0 / IN_MM, 0, "in/min"))
}

/// How long work takes: minutes below an hour and a half, hours from there, the same in both systems.
///
/// ```
/// use weldbow_engine::units::show::duration;
/// assert_eq!(duration(1152.0), "19.2 min");
/// assert_eq!(duration(34_680.0), "9.6 h");
/// ```
pub fn duration(s: f64) -> String {
    /// From here a count of minutes says less than one of hours, s (a choice).
    const LONG_S: f64 = 5400.0;
    if s < LONG_S { format!("{:.1} min", s / 60.0) } else { format!("{:.1} h", s / 3600.0) }
}

/// A mass.
///
/// ```
/// use weldbow_engine::units::{System, show::mass};
/// assert_eq!(mass(412.0, System::Si), "412 kg");
/// assert_eq!(mass(412.0, System::Us), "908 lb");
/// ```
pub fn mass(kg: f64, system: System) -> String {
    figures(system, (kg, "kg"), (kg / LB_KG, "lb"))
}

/// An angle, in degrees in both systems.
///
/// ```
/// use weldbow_engine::units::{System, show::angle};
/// assert_eq!(angle(0.021, System::Si), "1.2°");
/// assert_eq!(angle(-0.021, System::Us), "−1.2°");
/// ```
pub fn angle(rad: f64, _: System) -> String {
    fixed(rad.to_degrees(), 1, "°")
}

/// Turn of a whole member, finer: a tenth of a degree is a millimetre over its depth.
///
/// ```
/// use weldbow_engine::units::{System, show::turn};
/// assert_eq!(turn(0.0031, System::Si), "0.18°");
/// ```
pub fn turn(rad: f64, _: System) -> String {
    fixed(rad.to_degrees(), 2, "°")
}

/// A temperature.
///
/// ```
/// use weldbow_engine::units::{System, show::temperature};
/// assert_eq!(temperature(20.0, System::Si), "20 °C");
/// assert_eq!(temperature(-40.0, System::Us), "−40 °F");
/// ```
pub fn temperature(c: f64, system: System) -> String {
    decimals(system, (c, 0, "°C"), (c * 9.0 / 5.0 + 32.0, 0, "°F"))
}

/// A temperature not to pass: in °F to the round number such rules are written in.
///
/// ```
/// use weldbow_engine::units::{System, show::hottest};
/// assert_eq!(hottest(650.0, System::Si), "650 °C");
/// assert_eq!(hottest(650.0, System::Us), "1200 °F");
/// ```
pub fn hottest(c: f64, system: System) -> String {
    match system {
        System::Si => temperature(c, system),
        System::Us => format!("{:.0} °F", ((c * 1.8 + 32.0) / 10.0).round() * 10.0),
    }
}

/// A difference of temperature.
///
/// ```
/// use weldbow_engine::units::{System, show::warmer};
/// assert_eq!(warmer(5.0, System::Si), "5 K");
/// assert_eq!(warmer(5.0, System::Us), "9 °F");
/// ```
pub fn warmer(k: f64, system: System) -> String {
    decimals(system, (k, 0, "K"), (k * 9.0 / 5.0, 0, "°F"))
}

#[cfg(test)]
mod tests;
