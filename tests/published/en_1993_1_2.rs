//! Hot steel against EN 1993-1-2:2005.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::steel::hot::{
    COLDEST_C, conductivity_w_per_m_k, elongation, k_elastic, k_proportional, k_yield,
    specific_heat_j_per_kg_k,
};
use weldbow::steel::molten::heat_content_j_per_kg;

const SHEET: &str = "en_1993_1_2";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    t_c: f64,
}

/// What a property jumps by at a temperature.
fn step(property: fn(f64) -> f64, t_c: f64) -> f64 {
    property(t_c.next_up()) - property(t_c.next_down())
}

/// Heat to bring 1 kg from 20 °C to t, kJ: midpoint rule at 0.01 K, whose midpoints miss every step.
fn heat_content_kj_per_kg(t_c: f64) -> f64 {
    const STEP_K: f64 = 0.01;
    let mut sum = 0.0;
    let mut middle = COLDEST_C + STEP_K / 2.0;
    let mut steps = 0;
    while middle < t_c {
        sum += specific_heat_j_per_kg_k(middle) * STEP_K;
        steps += 1;
        middle = COLDEST_C + (f64::from(steps) + 0.5) * STEP_K;
    }
    sum / 1000.0
}

#[test]
fn elongation_follows_the_standard() {
    check(SHEET, "elongation", |g: &Given| elongation(g.t_c));
    check(SHEET, "elongation step", |g: &Given| step(elongation, g.t_c));
}

#[test]
fn specific_heat_follows_the_standard() {
    check(SHEET, "specific heat", |g: &Given| specific_heat_j_per_kg_k(g.t_c));
    check(SHEET, "specific heat step", |g: &Given| step(specific_heat_j_per_kg_k, g.t_c));
}

#[test]
fn heat_content_is_the_closed_integral_of_specific_heat() {
    check(SHEET, "heat content", |g: &Given| heat_content_kj_per_kg(g.t_c));
    check(SHEET, "heat content", |g: &Given| heat_content_j_per_kg(g.t_c) / 1000.0);
}

#[test]
fn conductivity_follows_the_standard() {
    check(SHEET, "conductivity", |g: &Given| conductivity_w_per_m_k(g.t_c));
    check(SHEET, "conductivity step", |g: &Given| step(conductivity_w_per_m_k, g.t_c));
}

#[test]
fn strength_and_stiffness_follow_table_3_1() {
    check(SHEET, "k_y", |g: &Given| k_yield(g.t_c));
    check(SHEET, "k_p", |g: &Given| k_proportional(g.t_c));
    check(SHEET, "k_E", |g: &Given| k_elastic(g.t_c));
}

#[test]
fn no_value_of_the_sheet_goes_unchecked() {
    let checked = [
        "elongation",
        "elongation step",
        "specific heat",
        "specific heat step",
        "heat content",
        "conductivity",
        "conductivity step",
        "k_y",
        "k_p",
        "k_E",
    ];
    all_checked::<Given>(SHEET, &checked);
}
