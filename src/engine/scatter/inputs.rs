//! What is unsure about a prediction: the inputs that can be varied by name, with their usual spread.
//!
//! Each is a factor on what the model, the job or the drawing says. *Bias* is drawn once and holds for every piece
//! of a kind: it stands for not knowing the model's truth. *Scatter* is drawn anew for each piece, or pass where the
//! name says so. None rests on measured members; a shop's own measurements should replace them.

use super::{Distribution, Spread};
use crate::angular::flange::TILT_SIGMA;
use crate::prediction::uncertainty::{ARM_BIAS, FORCE_BIAS, FORCE_SCATTER, HEAT_FROM_LEG_BIAS};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Whether an input is the same for all pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Class {
    /// The model's own error, the same for every piece of a kind.
    Bias,
    /// Differs from piece to piece.
    Scatter,
}

/// One unsure input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// Short name, unique.
    pub name: &'static str,
    /// Bias or scatter.
    pub class: Class,
    /// What it multiplies, and when.
    pub what: &'static str,
    /// Spread of the factor.
    pub spread: Spread,
    /// Where the spread comes from.
    pub source: &'static str,
}

/// Bias of a fold for 2 < q < 10 J/mm³; 0.50 outside, which this list does not tell apart
/// (`angular::fold::sigma` does).
const FOLD_BIAS: f64 = 0.30;

/// A factor around 1 that is as likely to double as to halve. Its median leaves the model alone; its mean is a little
/// above 1 (√(1 + cov²): 1.01 for the force, 1.17 for the tilt).
const fn factor(cov: f64) -> Spread {
    Spread::uncut(Distribution::Lognormal { median: 1.0, cov })
}

/// A dimension over its nominal value.
const fn dimension(sd: f64) -> Spread {
    Spread::uncut(Distribution::Normal { mean: 1.0, sd })
}

/// All of them, bias first.
pub const INPUTS: [Input; 10] = [
    Input {
        name: "force",
        class: Class::Bias,
        what: "shrinkage force of every fillet",
        spread: factor(FORCE_BIAS),
        source: "judgement: strength of hot steel, arc efficiency, free or held section",
    },
    Input {
        name: "heat-from-leg",
        class: Class::Bias,
        what: "heat input of passes whose heat is worked out from the leg; no other pass",
        spread: factor(HEAT_FROM_LEG_BIAS),
        source: "31 measured beads: heat per deposited volume varies by 23 %",
    },
    Input {
        name: "arm",
        class: Class::Bias,
        what: "sideways distance of a force from the middle of the section",
        spread: factor(ARM_BIAS),
        source: "judgement: the place of the heat is assumed",
    },
    Input {
        name: "fold",
        class: Class::Bias,
        what: "fold of a flange at each fillet, and with it the cup",
        spread: factor(FOLD_BIAS),
        source: "judgement; holds for 2 to 10 J/mm3 of heat over flange thickness squared, 0.50 would be fair outside",
    },
    Input {
        name: "tilt",
        class: Class::Bias,
        what: "tilt of a flange welded on one side",
        spread: factor(TILT_SIGMA),
        source: "judgement; depends on tacks and clamps",
    },
    Input {
        name: "force-each-pass",
        class: Class::Scatter,
        what: "shrinkage force of one pass, drawn anew for every pass",
        spread: factor(FORCE_SCATTER),
        source: "choice: heat input, fit-up, tacks",
    },
    Input {
        name: "fold-each-piece",
        class: Class::Scatter,
        what: "fold of the flanges of one piece",
        spread: factor(0.10),
        source: "choice: fit-up and heat input of one procedure",
    },
    Input {
        name: "tilt-each-piece",
        class: Class::Scatter,
        what: "one-sided tilt of one piece",
        spread: factor(0.30),
        source: "choice: half of the bias, as tacks and gaps differ from piece to piece",
    },
    Input {
        name: "leg",
        class: Class::Scatter,
        what: "leg over the leg asked for; where the heat follows from the leg, that too",
        spread: dimension(0.05),
        source: "choice: 0.3 mm on 6 mm",
    },
    Input {
        name: "plate",
        class: Class::Scatter,
        what: "plate thickness over nominal",
        spread: dimension(0.01),
        source: "choice: well inside the -0.5 to +1.2 mm that EN 10029:1991 Table 1 class A allows 8 to 15 mm plate",
    },
];

/// Input of that name.
///
/// ```
/// use weldbow_engine::scatter::{Class, input};
/// assert!(input("force").is_some_and(|force| force.class == Class::Bias));
/// assert!(input("luck").is_none());
/// ```
pub fn input(name: &str) -> Option<&'static Input> {
    static ALL: [Input; INPUTS.len()] = INPUTS;
    ALL.iter().find(|input| input.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::angular::fold;
    use std::collections::BTreeSet;

    /// No layout comes nearer to 0.
    const LEAST_OF_A_PLAN: f64 = 1e-16;

    #[test]
    fn every_input_has_its_own_short_name_a_sound_spread_around_one_and_a_source() {
        let names: BTreeSet<&str> = INPUTS.iter().map(|i| i.name).collect();
        assert_eq!(names.len(), INPUTS.len());
        for i in &INPUTS {
            let (low, high) = i.spread.cuts();
            assert_eq!(Spread::new(i.spread.distribution(), low, high), Ok(i.spread), "{}", i.name);
            assert!(
                (i.spread.quantile(0.5) - 1.0).abs() < 1e-12,
                "{}: the middle leaves the model alone",
                i.name
            );
            assert!(i.spread.quantile(LEAST_OF_A_PLAN) > 0.0, "{}: a factor stays positive", i.name);
            assert!(i.name.len() <= 16 && !i.what.is_empty() && !i.source.is_empty(), "{}", i.name);
        }
    }

    #[test]
    fn the_fold_is_as_unsure_as_the_fold_says() {
        assert!((fold::sigma(5.0) - FOLD_BIAS).abs() < 1e-15, "{} against {FOLD_BIAS}", fold::sigma(5.0));
    }

    #[test]
    fn scatter_is_smaller_than_the_bias_it_stands_beside() {
        let sd = |name| input(name).unwrap().spread.sd();
        for (bias, scatter) in
            [("force", "force-each-pass"), ("fold", "fold-each-piece"), ("tilt", "tilt-each-piece")]
        {
            assert!(sd(scatter) < sd(bias), "{scatter}: {} against {}", sd(scatter), sd(bias));
        }
    }
}
