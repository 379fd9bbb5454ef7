//! Gauss–Legendre points on 0…1, as (place, weight).

/// Two points: exact for cubics.
pub(crate) const GAUSS_2: [(f64, f64); 2] = [(0.211_324_865_405_187_1, 0.5), (0.788_675_134_594_812_9, 0.5)];

/// Four points: exact to the seventh power.
pub(crate) const GAUSS_4: [(f64, f64); 4] = [
    (0.069_431_844_202_973_71, 0.173_927_422_568_726_92),
    (0.330_009_478_207_571_87, 0.326_072_577_431_273_1),
    (0.669_990_521_792_428_1, 0.326_072_577_431_273_1),
    (0.930_568_155_797_026_3, 0.173_927_422_568_726_92),
];

#[cfg(test)]
mod tests {
    use super::*;

    fn integral(points: &[(f64, f64)], power: i32) -> f64 {
        points.iter().map(|(x, w)| w * x.powi(power)).sum()
    }

    #[test]
    fn rules_are_exact_to_their_degree_and_not_beyond() {
        for (points, degree) in [(&GAUSS_2[..], 3), (&GAUSS_4[..], 7)] {
            for power in 0..=degree {
                let (got, want) = (integral(points, power), 1.0 / f64::from(power + 1));
                assert!((got - want).abs() < 1e-15, "x^{power}: {got} against {want}");
            }
            let beyond = degree + 1;
            assert!((integral(points, beyond) - 1.0 / f64::from(beyond + 1)).abs() > 1e-9, "x^{beyond}");
        }
    }
}
