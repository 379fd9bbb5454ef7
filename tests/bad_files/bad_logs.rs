//! What a user reads when a push log is wrong. Each log in `tests/bad_logs` has its whole message beside it.
//! After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_logs`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::kept;

#[test]
fn every_bad_log_gets_the_message_kept_beside_it_and_no_plan() {
    kept::every_message_is_the_one_kept("bad_logs", &["csv"], 7, str::to_owned, |file| {
        let job = "../../studies/jobs/rafter.toml";
        let (measured, shop) = ("../../studies/shop/measured-rafter.csv", "../../studies/shop/shop.toml");
        ["straighten", job, "--measured", measured, "--shop", shop, "--log", file].map(str::to_owned).to_vec()
    });
}
