//! Carbon steel when hot, by EN 1993-1-2:2005 clause 3.
//!
//! Every function takes a temperature in °C and holds for 20 … 1200 °C; outside, it keeps the value at the
//! nearer end, which is our choice: the standard says nothing there. A NaN gives NaN. The formulas were read
//! in three public programs that implement the standard, not in its print.

/// Coldest temperature the formulas hold for, °C (EN 1993-1-2 3.1–3.3).
pub const COLDEST_C: f64 = 20.0;
/// Hottest temperature the formulas hold for, °C (EN 1993-1-2 3.1–3.3).
pub(crate) const HOTTEST_C: f64 = 1200.0;

fn clamped(t_c: f64) -> f64 {
    t_c.clamp(COLDEST_C, HOTTEST_C)
}

/// Thermal elongation Δl/l since 20 °C, without unit (EN 1993-1-2 3.4.1.1, formulas 3.1a–c).
///
/// T < 750: 1.2·10⁻⁵ T + 0.4·10⁻⁸ T² − 2.416·10⁻⁴; to 860: 1.1·10⁻²; above: 2·10⁻⁵ T − 6.2·10⁻³. The flat
/// stretch is the change to austenite. It starts 8.4·10⁻⁶ below the curve before it: a step in the standard.
///
/// ```
/// let e = weldbow_engine::steel::hot::elongation(100.0);
/// assert!((e - 9.984e-4).abs() < 1e-12);
/// ```
pub fn elongation(t_c: f64) -> f64 {
    let t = clamped(t_c);
    if t < 750.0 {
        1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4
    } else if t <= 860.0 {
        1.1e-2
    } else {
        2.0e-5 * t - 6.2e-3
    }
}

/// Specific heat, J/(kg K) (EN 1993-1-2 3.4.1.2, formulas 3.2a–d).
///
/// T < 600: 425 + 0.773 T − 1.69·10⁻³ T² + 2.22·10⁻⁶ T³; to 735: 666 + 13002/(738 − T); to 900:
/// 545 + 17820/(T − 731); above: 650. The peak of 5000 at 735 °C is the heat of the change to austenite.
/// Steps in the standard: +0.30 at 600 °C, −0.44 at 900 °C.
///
/// ```
/// let c = weldbow_engine::steel::hot::specific_heat_j_per_kg_k(735.0);
/// assert!((c - 5000.0).abs() < 1e-9);
/// ```
pub fn specific_heat_j_per_kg_k(t_c: f64) -> f64 {
    let t = clamped(t_c);
    if t < 600.0 {
        425.0 + 0.773 * t - 1.69e-3 * t * t + 2.22e-6 * t * t * t
    } else if t < 735.0 {
        666.0 + 13_002.0 / (738.0 - t)
    } else if t < 900.0 {
        545.0 + 17_820.0 / (t - 731.0)
    } else if t.is_nan() {
        t
    } else {
        650.0
    }
}

/// Thermal conductivity, W/(m K) (EN 1993-1-2 3.4.1.3, formulas 3.3a–b).
///
/// T < 800: 54 − 3.33·10⁻² T; above: 27.3. Step in the standard: −0.06 at 800 °C.
///
/// ```
/// let k = weldbow_engine::steel::hot::conductivity_w_per_m_k(100.0);
/// assert!((k - 50.67).abs() < 1e-9);
/// ```
pub fn conductivity_w_per_m_k(t_c: f64) -> f64 {
    let t = clamped(t_c);
    if t < 800.0 || t.is_nan() { 54.0 - 3.33e-2 * t } else { 27.3 }
}

/// Temperature °C, and k_y, k_p, k_E there (EN 1993-1-2 Table 3.1). k_E throughout and k_y to 400 °C read in
/// two programs, k_y from 500 °C in a third; k_p recalled from the standard ("memory").
const TABLE_3_1: [[f64; 4]; 13] = [
    [20.0, 1.0, 1.0, 1.0],
    [100.0, 1.0, 1.0, 1.0],
    [200.0, 1.0, 0.807, 0.9],
    [300.0, 1.0, 0.613, 0.8],
    [400.0, 1.0, 0.42, 0.7],
    [500.0, 0.78, 0.36, 0.6],
    [600.0, 0.47, 0.18, 0.31],
    [700.0, 0.23, 0.075, 0.13],
    [800.0, 0.11, 0.05, 0.09],
    [900.0, 0.06, 0.0375, 0.0675],
    [1000.0, 0.04, 0.025, 0.045],
    [1100.0, 0.02, 0.0125, 0.0225],
    [1200.0, 0.0, 0.0, 0.0],
];

fn factor(t_c: f64, column: usize) -> f64 {
    let t = clamped(t_c);
    TABLE_3_1.windows(2).find(|rows| t <= rows[1][0]).map_or(t, |rows| {
        let part = (t - rows[0][0]) / (rows[1][0] - rows[0][0]);
        rows[0][column] + part * (rows[1][column] - rows[0][column])
    })
}

/// k_y: effective yield strength over that at 20 °C (EN 1993-1-2 3.2.1, Table 3.1, linear between rows).
///
/// This is the strength at 2 % strain; plastic flow begins earlier, at [`k_proportional`].
///
/// ```
/// let k = weldbow_engine::steel::hot::k_yield(550.0);
/// assert!((k - 0.625).abs() < 1e-12);
/// ```
pub fn k_yield(t_c: f64) -> f64 {
    factor(t_c, 1)
}

/// k_p: proportional limit over the yield strength at 20 °C (EN 1993-1-2 3.2.1, Table 3.1, linear between
/// rows).
///
/// ```
/// let k = weldbow_engine::steel::hot::k_proportional(450.0);
/// assert!((k - 0.39).abs() < 1e-12);
/// ```
pub fn k_proportional(t_c: f64) -> f64 {
    factor(t_c, 2)
}

/// k_E: slope of the elastic range over Young's modulus at 20 °C (EN 1993-1-2 3.2.1, Table 3.1, linear
/// between rows).
///
/// ```
/// let k = weldbow_engine::steel::hot::k_elastic(550.0);
/// assert!((k - 0.455).abs() < 1e-12);
/// ```
pub fn k_elastic(t_c: f64) -> f64 {
    factor(t_c, 3)
}

#[cfg(test)]
mod tests {
    use super::*;

    type Property = fn(f64) -> f64;

    const ALL: [(&str, Property); 6] = [
        ("elongation", elongation),
        ("specific heat", specific_heat_j_per_kg_k),
        ("conductivity", conductivity_w_per_m_k),
        ("k_y", k_yield),
        ("k_p", k_proportional),
        ("k_E", k_elastic),
    ];

    #[test]
    fn beyond_its_range_a_property_keeps_its_end_value() {
        for (name, property) in ALL {
            for (outside, end) in
                [(-273.0, COLDEST_C), (19.9, COLDEST_C), (1200.1, HOTTEST_C), (3000.0, HOTTEST_C)]
            {
                let (got, kept) = (property(outside), property(end));
                assert_eq!(got.to_bits(), kept.to_bits(), "{name} at {outside} is {got}, at {end} {kept}");
            }
        }
    }

    #[test]
    fn an_unknown_temperature_gives_no_property() {
        for (name, property) in ALL {
            let got = property(f64::NAN);
            assert!(got.is_nan(), "{name} is {got}");
        }
    }

    #[test]
    fn no_strength_grows_with_heat() {
        for (name, factor) in &ALL[3..] {
            for t in 20..1200 {
                let (colder, hotter) = (factor(f64::from(t)), factor(f64::from(t + 1)));
                assert!(hotter <= colder, "{name} at {t} °C is {colder}, one degree up {hotter}");
            }
        }
    }
}
