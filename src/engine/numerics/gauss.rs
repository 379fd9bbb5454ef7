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

/// What each of the values at the four points counts at `at` (0…1) in the cubic through them (J. L. Lagrange 1795; memory, sure).
#[cfg_attr(wide, inline(always))]
pub(crate) fn through_gauss_4(at: f64) -> [f64; 4] {
    let [a, b, c, d] = GAUSS_4.map(|(place, _)| at - place);
    let [left, right] = [a * b, c * d];
    [b * right * OVER[0], a * right * OVER[1], left * d * OVER[2], left * c * OVER[3]]
}

/// For each of the four points one over the product of its distances from the others.
const OVER: [f64; 4] = {
    let mut over = [1.0; 4];
    let mut own = 0;
    while own < 4 {
        let mut other = 0;
        while other < 4 {
            if other != own {
                over[own] /= GAUSS_4[own].0 - GAUSS_4[other].0;
            }
            other += 1;
        }
        own += 1;
    }
    over
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_goes_through_its_four_values_and_no_quartic_does() {
        let cubic = |x: f64| ((2.0 * x - 3.0) * x + 0.5) * x + 1.0;
        let through = |f: &dyn Fn(f64) -> f64, at: f64| -> f64 {
            through_gauss_4(at).iter().zip(GAUSS_4).map(|(counts, (place, _))| counts * f(place)).sum()
        };
        for k in 0..=20 {
            let at = 0.05 * f64::from(k);
            assert!((through(&cubic, at) - cubic(at)).abs() < 1e-14, "{at}");
        }
        let quartic = |x: f64| x.powi(4);
        assert!((through(&quartic, 0.0) - quartic(0.0)).abs() > 1e-3, "four values tell no quartic");
    }

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
