//! The name a person probably meant.

/// Jaro–Winkler likeness from which a guess helps more than it puzzles (a choice).
const ALIKE: f64 = 0.75;

/// The name most like `wrong`, if any is alike.
pub fn nearest<'a>(wrong: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let wrong = wrong.to_lowercase();
    names
        .into_iter()
        .map(|name| (strsim::jaro_winkler(&wrong, &name.to_lowercase()), name))
        .filter(|(likeness, _)| *likeness >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// Names in a sentence: "`a`, `b` or `c`".
pub fn listed<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let mut names: Vec<String> = names.into_iter().map(|name| format!("`{name}`")).collect();
    match names.pop() {
        None => String::new(),
        Some(only) if names.is_empty() => only,
        Some(last) => format!("{} or {last}", names.join(", ")),
    }
}

/// What to say of a wrong name: the one probably meant, then all of them.
pub fn wanted(wrong: &str, names: &[&str]) -> String {
    let all = listed(names.iter().copied());
    match nearest(wrong, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`? Known here: {all}"),
        None => format!("one of {all}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_pen_finds_its_name_and_nonsense_finds_none() {
        assert_eq!(nearest("thicknes", ["width", "thickness", "to"]), Some("thickness"));
        assert_eq!(nearest("s335", ["S235", "S355", "A36"]), Some("S355"));
        assert_eq!(nearest("butter", ["S235", "S355", "A36"]), None);
    }

    #[test]
    fn names_are_listed_as_in_a_sentence() {
        assert_eq!(listed(["a", "b", "c"]), "`a`, `b` or `c`");
        assert_eq!(listed(["a"]), "`a`");
    }
}
