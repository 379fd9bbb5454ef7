//! Metal building practice: MBMA 2012, Table 9.2.

use crate::limits::check;

#[test]
fn limits_are_those_of_the_table() {
    check("tolerance/metal-building.toml");
}
