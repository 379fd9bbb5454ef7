//! EN 1090-2:2018, Annex B, functional manufacturing tolerances.

use crate::limits::check;

#[test]
fn limits_are_those_of_annex_b() {
    check("tolerance/en-1090-2.toml");
}
