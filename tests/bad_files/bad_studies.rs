//! What a user reads when a study file is wrong. Each file in `tests/bad_studies` has its whole message beside it.
//! After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_studies`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::kept;

#[test]
fn every_bad_study_gets_the_message_kept_beside_it_and_computes_nothing() {
    kept::every_message_is_the_one_kept("bad_studies", &["toml"], 30, str::to_owned, |file| {
        ["study", file].map(str::to_owned).to_vec()
    });
}
