//! Lists, and what is said of several at once.

/// "a", "a and b", "a, b and c".
pub(crate) fn listed(names: &[impl AsRef<str>]) -> String {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

/// Values by what they share, in the order in which it comes first.
pub(crate) fn grouped<K: PartialEq, V>(pairs: impl IntoIterator<Item = (K, V)>) -> Vec<(K, Vec<V>)> {
    let mut groups: Vec<(K, Vec<V>)> = Vec::new();
    for (key, value) in pairs {
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, values)) => values.push(value),
            None => groups.push((key, vec![value])),
        }
    }
    groups
}

/// Each once, in the order in which they come.
pub(crate) fn distinct<T: PartialEq>(all: impl IntoIterator<Item = T>) -> Vec<T> {
    grouped(all.into_iter().map(|one| (one, ()))).into_iter().map(|(one, _)| one).collect()
}

/// "1 piece", "3 pieces".
pub(crate) fn counted(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}
