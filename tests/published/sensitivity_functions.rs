//! Shares of the variance against functions that have them in closed form, and the error as the plan grows.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use std::f64::consts::PI;
use weldbow::scatter::{SamplingMethod, SamplingPlan, Share, share_cases, share_point, shares};

const SHEET: &str = "sensitivity_functions";
/// The sheet is sampled with as many base cases as a Sobol plan has.
const BASE: usize = 65_536;
const G_A: [f64; 8] = [0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    input: usize,
}

/// A function of the unit cube with its shares alone and in total.
struct Function {
    name: &'static str,
    value: fn(&[f64]) -> f64,
    alone: Vec<f64>,
    total: Vec<f64>,
}

fn ishigami() -> Function {
    let (a, b) = (7.0, 0.1);
    let first = 0.5 * (1.0 + b * PI.powi(4) / 5.0).powi(2);
    let second = a * a / 8.0;
    let both = b * b * PI.powi(8) * (1.0 / 18.0 - 1.0 / 50.0);
    let all = first + second + both;
    let value = |u: &[f64]| {
        let x: Vec<f64> = u.iter().map(|u| PI * (2.0 * u - 1.0)).collect();
        x[0].sin() * (1.0 + 0.1 * x[2].powi(4)) + 7.0 * x[1].sin().powi(2)
    };
    Function {
        name: "ishigami",
        value,
        alone: vec![first / all, second / all, 0.0],
        total: vec![(first + both) / all, second / all, both / all],
    }
}

/// Every factor has mean 1 and variance 1/(3(1 + a)²).
fn g() -> Function {
    let variances = G_A.map(|a| 1.0 / (3.0 * (1.0 + a) * (1.0 + a)));
    let product: f64 = variances.iter().map(|v| 1.0 + v).product();
    let all = product - 1.0;
    Function {
        name: "g",
        value: |u| u.iter().zip(G_A).map(|(u, a)| ((4.0 * u - 2.0).abs() + a) / (1.0 + a)).product(),
        alone: variances.iter().map(|v| v / all).collect(),
        total: variances.iter().map(|v| v * product / (1.0 + v) / all).collect(),
    }
}

impl Function {
    fn sampled(&self, layout: SamplingMethod, base: usize, seed: u64) -> Vec<Share> {
        let inputs = self.alone.len();
        let plan = SamplingPlan::new(layout, base, seed, 2 * inputs).unwrap();
        let mut u = vec![0.0; inputs];
        let results: Vec<f64> = (0..share_cases(base, inputs))
            .map(|case| {
                share_point(&plan, case, &mut u);
                (self.value)(&u)
            })
            .collect();
        let names: Vec<String> = (0..inputs).map(|i| format!("x{}", i + 1)).collect();
        shares(&names, base, &results).unwrap().shares
    }

    /// Largest error of any share, and the largest error in stated standard errors.
    fn errors(&self, layout: SamplingMethod, base: usize) -> (f64, f64) {
        let shares = self.sampled(layout, base, 1);
        let alone = shares.iter().zip(&self.alone).map(|(s, want)| (s.alone, want));
        let total = shares.iter().zip(&self.total).map(|(s, want)| (s.total, want));
        alone.chain(total).fold((0.0, 0.0), |(worst, stated): (f64, f64), ((got, error), want)| {
            (worst.max((got - want).abs()), stated.max((got - want).abs() / error.max(1e-12)))
        })
    }
}

#[test]
fn sampled_shares_and_closed_forms_are_the_published_ones() {
    let mut checked = Vec::new();
    for function in [ishigami(), g()] {
        let shares = function.sampled(SamplingMethod::Sobol, BASE, 1);
        let named = |words: &str| format!("{}, {words}", function.name);
        check(SHEET, &named("alone, sampled"), |given: &Given| shares[given.input].alone.0);
        check(SHEET, &named("total, sampled"), |given: &Given| shares[given.input].total.0);
        check(SHEET, &named("alone, closed form"), |given: &Given| function.alone[given.input]);
        check(SHEET, &named("total, closed form"), |given: &Given| function.total[given.input]);
        let kinds = ["alone, sampled", "total, sampled", "alone, closed form", "total, closed form"];
        checked.extend(kinds.map(named));
    }
    let checked: Vec<&str> = checked.iter().map(String::as_str).collect();
    all_checked::<Given>(SHEET, &checked);
}

#[test]
fn the_error_of_shares_falls_as_the_plan_grows() {
    for function in [ishigami(), g()] {
        for (layout, falls_to) in
            [(SamplingMethod::Random, 0.5), (SamplingMethod::Latin, 0.5), (SamplingMethod::Sobol, 0.1)]
        {
            let errors = [256, 1024, 4096, 16_384].map(|base| (base, function.errors(layout, base)));
            let message = format!("{} by {layout:?}: (N, (error, error / stated)) {errors:?}", function.name);
            println!("{message}");
            let [(_, (coarse, _)), .., (_, (fine, stated))] = errors;
            assert!(fine < falls_to * coarse, "{message}");
            assert!(stated < 4.0, "{message}");
        }
    }
}
