//! What a user reads when a list of marks is wrong. Each list in `tests/bad_orders` has its whole message beside it.
//! After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_orders`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::kept;

/// The list itself, but for a job in it that is wrong.
fn fault(list: &str) -> String {
    if list == "job_wrong.csv" { "jobs/wrong.toml" } else { list }.to_owned()
}

#[test]
fn every_bad_list_gets_the_message_kept_beside_it_and_computes_nothing() {
    kept::every_message_is_the_one_kept("bad_orders", &["csv"], 13, fault, |file| {
        ["order", file].map(str::to_owned).to_vec()
    });
}
