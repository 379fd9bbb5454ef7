//! What a user reads when the welding part of a shop file is wrong. Each file in `tests/bad_shops` has its whole message
//! beside it. After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_shops`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::kept;

#[test]
fn every_bad_shop_gets_the_message_kept_beside_it_and_chooses_nothing() {
    kept::every_message_is_the_one_kept("bad_shops", &["toml"], 6, str::to_owned, |file| {
        ["choose", "../../studies/jobs/rafter.toml", "--shop", file].map(str::to_owned).to_vec()
    });
}
