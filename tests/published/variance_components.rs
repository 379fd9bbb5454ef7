//! Bias and scatter told apart in a textbook example: batches play the draws of the bias, samples the pieces.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::scatter::{BiasAndScatter, bias_and_scatter};

const SHEET: &str = "variance_components";
const BETWEEN: &str = "variance between batches";
const WITHIN: &str = "variance within a batch";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    batches: Vec<Vec<f64>>,
}

impl Given {
    fn bias_and_scatter(&self) -> BiasAndScatter {
        bias_and_scatter(&self.batches.concat(), self.batches[0].len(), &[], |_| false).unwrap()
    }
}

#[test]
fn batches_and_samples_come_apart_as_in_the_book() {
    check(SHEET, BETWEEN, |given: &Given| given.bias_and_scatter().bias_sd.powi(2));
    check(SHEET, WITHIN, |given: &Given| given.bias_and_scatter().scatter_sd.powi(2));
    all_checked::<Given>(SHEET, &[BETWEEN, WITHIN]);
}
