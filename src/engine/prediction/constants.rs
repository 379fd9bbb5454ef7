//! Every constant that a prediction rests on.

use super::{plates, uncertainty, waves};
use crate::angular::{both_sides, cross as cross_fold, cup, hold, runs, tilt};
use crate::bow::web_ripple;
use crate::shrinkage::{bead, cross, cut_strip, lateral_arm, narrow, second_side, tendon, transverse};
use crate::sources::Constant;
use crate::steel::molten;
use crate::welding::{fillet, melt};

/// All records, in the order of the physics: heat, force, arm, angles, bows, how sure.
///
/// ```
/// let thin = weldbow_engine::prediction::constants().find(|c| c.symbol == "shrinkage::tendon::THIN_N_PER_J_MM");
/// assert!(thin.is_some_and(|c| c.value > 190.0 && c.unit == "N per J/mm"));
/// ```
pub fn constants() -> impl Iterator<Item = &'static Constant> {
    [
        fillet::CONSTANTS,
        melt::CONSTANTS,
        molten::CONSTANTS,
        tendon::CONSTANTS,
        narrow::CONSTANTS,
        second_side::CONSTANTS,
        lateral_arm::CONSTANTS,
        bead::CONSTANTS,
        transverse::CONSTANTS,
        cross::CONSTANTS,
        cup::CONSTANTS,
        cross_fold::CONSTANTS,
        tilt::CONSTANTS,
        hold::CONSTANTS,
        runs::CONSTANTS,
        both_sides::CONSTANTS,
        web_ripple::CONSTANTS,
        cut_strip::CONSTANTS,
        plates::CONSTANTS,
        waves::CONSTANTS,
        uncertainty::CONSTANTS,
    ]
    .into_iter()
    .flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::{Class, Distribution, INPUTS, input};
    use std::collections::BTreeSet;

    #[test]
    fn every_record_has_a_name_of_its_own_a_source_and_a_finite_value() {
        let mut symbols = BTreeSet::new();
        for c in constants() {
            assert!(symbols.insert(c.symbol), "{} stands twice", c.symbol);
            assert!(!c.name.is_empty() && c.source.len() > 5 && c.value.is_finite(), "{c:?}");
            assert!(c.spread.is_none_or(|s| s > 0.0 && s < 1.0), "{c:?}");
        }
        assert!(symbols.len() > 50, "only {}", symbols.len());
    }

    /// What is unsure is what pieces are drawn from, with the same spread.
    #[test]
    fn every_unsure_constant_is_an_input_that_can_be_drawn_and_every_bias_has_its_constant() {
        for c in constants().filter(|c| !c.input.is_empty()) {
            let input = input(c.input).unwrap_or_else(|| panic!("{}: no input {}", c.symbol, c.input));
            let drawn = match input.spread.distribution() {
                Distribution::Lognormal { cov, .. } => cov,
                _ => input.spread.sd(),
            };
            let said = c.spread.unwrap_or(0.0);
            assert!((drawn / said - 1.0).abs() < 1e-9, "{}: drawn {drawn}, said {said}", c.symbol);
        }
        for bias in INPUTS.iter().filter(|i| i.class == Class::Bias && !i.recorded()) {
            assert!(constants().any(|c| c.input == bias.name), "no constant is moved by {}", bias.name);
        }
    }

    /// A number of the physics that has no record is a number without a source.
    #[test]
    fn every_constant_of_a_recorded_file_has_its_record() {
        // numbers of a method, not of steel or welding
        const METHOD: [&str; 14] = [
            "COLD_S",
            "NOTHING",
            "NOTHING_WARM",
            "FITTED_YIELD_MPA",
            "CLOSED_FORM_ALPHA_E_OVER_RHO_C",
            "TAN_HALF_ANGLE",
            "SPAN",
            "TILT_SIGMA",
            "FREE",
            "SIGMA_OUTSIDE",
            "SETTLED",
            "FORCE_SPREAD",
            "PLATE",
            "HALF",
        ];
        let files = [
            ("tendon", include_str!("../shrinkage/tendon.rs"), tendon::CONSTANTS),
            ("narrow", include_str!("../shrinkage/narrow.rs"), narrow::CONSTANTS),
            ("joint", include_str!("../shrinkage/second_side.rs"), second_side::CONSTANTS),
            ("bead", include_str!("../shrinkage/bead.rs"), bead::CONSTANTS),
            ("transverse", include_str!("../shrinkage/transverse.rs"), transverse::CONSTANTS),
            ("cup", include_str!("../angular/cup.rs"), cup::CONSTANTS),
            ("tilt", include_str!("../angular/tilt.rs"), tilt::CONSTANTS),
            ("flange", include_str!("../angular/both_sides.rs"), both_sides::CONSTANTS),
            ("hold", include_str!("../angular/hold.rs"), hold::CONSTANTS),
            ("uncertainty", include_str!("uncertainty.rs"), uncertainty::CONSTANTS),
            ("cut_strip", include_str!("../shrinkage/cut_strip.rs"), cut_strip::CONSTANTS),
            ("plates", include_str!("plates.rs"), plates::CONSTANTS),
        ];
        for (file, text, records) in files {
            let code = text.split("#[cfg(test)]").next().unwrap_or_default();
            for line in code.lines().filter(|l| l.contains(": f64 =") && l.contains("const ")) {
                let name =
                    line.split("const ").nth(1).and_then(|rest| rest.split(':').next()).unwrap_or_default();
                let known = METHOD.contains(&name)
                    || records.iter().any(|r| r.symbol.ends_with(&format!("::{name}")));
                assert!(known, "{file}: {name} has no record");
            }
        }
    }
}
