//! Names that are not taken.

use std::collections::BTreeSet;
use std::path::Path;

/// The name, or the first of "name-2", "name-3" … that is not taken.
pub(crate) fn free(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let mut candidate = name.to_owned();
    let mut number = 1_u64;
    while taken(&candidate) {
        number += 1;
        candidate = format!("{name}-{number}");
    }
    candidate
}

/// The same names, each once: the first of a name keeps it, a later one gets a number that makes it like no other.
pub(crate) fn unique(names: &[String]) -> Vec<String> {
    let own: BTreeSet<&str> = names.iter().map(String::as_str).collect();
    let mut given: BTreeSet<String> = BTreeSet::new();
    names
        .iter()
        .map(|name| {
            let first = !given.contains(name);
            let name =
                if first { name.clone() } else { free(name, |n| own.contains(n) || given.contains(n)) };
            given.insert(name.clone());
            name
        })
        .collect()
}

/// Names to write under what comes of some files: their own without ending, a number where two share one.
pub(crate) fn stems<'p>(files: impl Iterator<Item = &'p Path>) -> Vec<String> {
    let stem = |file: &Path| file.file_stem().unwrap_or(file.as_os_str()).to_string_lossy().into_owned();
    unique(&files.map(stem).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_names_are_alike_and_the_first_keeps_its_own() {
        let names = ["x", "x", "x-2", "y", "x", "x-2"].map(str::to_owned);
        let given = unique(&names);
        assert_eq!(given, ["x", "x-3", "x-2", "y", "x-4", "x-2-2"]);
        assert_eq!(given.iter().collect::<BTreeSet<_>>().len(), names.len());
    }
}
