//! Published values against the crate: one module a source, the numbers in `reference-cases/`.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

mod aws_d1_1;
mod blodgett;
mod cases;
mod cross_code;
mod cross_welds;
mod cut_outline;
mod en_1090_2;
mod en_1993_1_2;
mod heat_input;
mod iso_13920;
mod limits;
mod measured;
mod measured_fillet;
mod melt_off;
mod member_integrator;
mod metal_building;
mod method_spread;
mod moving_arc;
mod normal_distribution;
mod okerblom;
mod plate_buckling;
mod proportions;
mod residual_patterns;
mod section_bead;
mod section_elements;
mod section_tee;
mod sections;
mod sensitivity_functions;
mod shop_record;
mod sideways_buckling;
mod straightening;
mod straightening_limits;
#[path = "../support/mod.rs"]
mod support;
mod tapered_beams;
mod twist_elements;
mod variance_components;
mod web_flange_welds;
