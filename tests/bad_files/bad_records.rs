//! What a user reads when a record is wrong. Each record in `tests/bad_records` has its whole message beside it.
//! After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_records`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::kept;

#[test]
fn every_bad_record_gets_the_message_kept_beside_it_and_teaches_nothing() {
    kept::every_message_is_the_one_kept("bad_records", &["csv"], 12, str::to_owned, |file| {
        ["calibrate", file].map(str::to_owned).to_vec()
    });
}
