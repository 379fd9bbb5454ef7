//! Every constant that a prediction rests on.

use super::{plates, uncertainty, waves};
use crate::angular::{both_sides, cross as cross_fold, cup, hold, runs, tilt};
use crate::bow::web_ripple;
use crate::shrinkage::{
    bead, cross, cut_strip, lateral_arm, narrow, prior_stress, second_side, tendon, transverse, warm_join,
};
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
        prior_stress::CONSTANTS,
        warm_join::CONSTANTS,
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
    use std::path::{Path, PathBuf};

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

    /// A number of the physics that has no record is a number without a source: in every file that keeps records.
    #[test]
    fn every_constant_of_a_file_with_records_has_its_own() {
        // numbers of a method, or what follows from recorded ones
        const METHOD: [&str; 10] = [
            "angular::both_sides::TILT_SIGMA",
            "angular::hold::FREE",
            "bow::web_ripple::PLATE",
            "bow::web_ripple::SETTLED",
            "prediction::uncertainty::SPAN",
            "shrinkage::narrow::NOTHING",
            "shrinkage::tendon::CLOSED_FORM_ALPHA_E_OVER_RHO_C",
            "shrinkage::tendon::FITTED_YIELD_MPA",
            "shrinkage::tendon::FORCE_SPREAD",
            "shrinkage::transverse::TAN_HALF_ANGLE",
        ];
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut met = BTreeSet::new();
        for file in files_under(root) {
            let text = std::fs::read_to_string(&file).unwrap();
            let code = text.split("#[cfg(test)]").next().unwrap_or_default();
            if !code.contains("CONSTANTS: &[Constant]") {
                continue;
            }
            let room =
                file.strip_prefix(root).unwrap().with_extension("").to_string_lossy().replace('/', "::");
            for line in code.lines().filter(|l| l.contains(": f64 =") && l.contains("const ")) {
                let name =
                    line.split("const ").nth(1).and_then(|rest| rest.split(':').next()).unwrap_or_default();
                let symbol = format!("{room}::{name}");
                let recorded = constants().any(|c| c.symbol == symbol);
                assert!(recorded || METHOD.contains(&symbol.as_str()), "{symbol} has no record");
                met.extend((!recorded).then_some(symbol));
            }
        }
        let idle: Vec<_> = METHOD.into_iter().filter(|symbol| !met.contains(*symbol)).collect();
        assert!(idle.is_empty(), "excused, but recorded or nowhere: {idle:?}");
    }

    fn files_under(folder: &Path) -> Vec<PathBuf> {
        let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
        entries
            .flat_map(|path| if path.is_dir() { files_under(&path) } else { vec![path] })
            .filter(|path| path.extension().is_some_and(|ending| ending == "rs"))
            .collect()
    }
}
