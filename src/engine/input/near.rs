//! The name a person probably meant.

use super::Hint;

/// Jaro–Winkler likeness from which a guess helps more than it puzzles (a choice).
const ALIKE: f64 = 0.75;

/// Likenesses that differ by less are the same but for rounding.
const SAME_LIKENESS: f64 = 1e-9;

/// Longest name that anyone may have meant, bytes; likeness takes the square of its time (a choice).
const LONGEST: usize = 100;

/// Most letters by which a slip of the pen differs from the name meant (a choice).
const SLIP: usize = 2;

/// Words of the trade, and the names here that mean the same (common practice, no source).
const SAME: &[(&str, &str)] = &[
    ("plasma", "thermally-cut"),
    ("plasma-cut", "thermally-cut"),
    ("flame", "thermally-cut"),
    ("flame-cut", "thermally-cut"),
    ("gas-cut", "thermally-cut"),
    ("oxy-fuel", "thermally-cut"),
    ("laser", "thermally-cut"),
    ("sawn", "sheared"),
    ("rolled", "sheared"),
    ("fatigue", "fluctuating"),
    ("cyclic", "fluctuating"),
    ("dynamic", "fluctuating"),
    ("saw", "submerged-arc"),
    ("gmaw", "gas-metal-arc"),
    ("mag", "gas-metal-arc"),
    ("mig", "gas-metal-arc"),
    ("fcaw", "flux-cored"),
    ("smaw", "manual-metal-arc"),
    ("mma", "manual-metal-arc"),
    ("stick", "manual-metal-arc"),
    ("metric", "si"),
    ("imperial", "us"),
    ("dcep", "electrode-positive"),
    ("dcen", "electrode-negative"),
    ("fy", "yield"),
    ("f_y", "yield"),
    ("fu", "tensile"),
    ("f_u", "tensile"),
    ("speed", "travel_speed"),
    ("volts", "voltage"),
    ("amps", "current"),
    ("efficiency", "arc_efficiency"),
];

/// The name that means the same as a word of the trade.
fn same<'a>(wrong: &str, names: &[&'a str]) -> Option<&'a str> {
    let wrong = wrong.trim().to_lowercase();
    let mut means = SAME.iter().filter(|(word, _)| *word == wrong).map(|(_, name)| *name);
    means.find_map(|name| names.iter().find(|known| **known == name).copied())
}

/// The name surely meant: a word of the trade for it, or a slip of at most two letters that no other name is as near to. A digit that
/// differs is no slip of the pen: it is another size.
pub fn meant<'a>(wrong: &str, names: &[&'a str]) -> Option<&'a str> {
    let letters = |text: &str| text.to_lowercase().replace(['-', '_', ' ', '.'], "");
    let off = |name: &str| strsim::osa_distance(&letters(wrong), &letters(name));
    let slip = |name: &&str| {
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
        let (a, b) = (letters(wrong), letters(name));
        digits(&a) == digits(&b) && off(name) <= SLIP.min(b.chars().count() / 2)
    };
    let alone = |name: &&str| names.iter().all(|other| other == name || off(other) > off(name));
    same(wrong, names).or_else(|| nearest(wrong, names.iter().copied()).filter(slip).filter(alone))
}

/// The name surely meant as a right value, or nothing: another name could be the opposite of what was meant.
pub fn hint(wrong: &str, names: &[&str]) -> Hint {
    meant(wrong, names).map_or(Hint::Nothing, |name| Hint::Value(format!("{name:?}")))
}

/// The name most like `wrong`, if any is alike and no other is as much: of several any could be meant.
pub fn nearest<'a>(wrong: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if wrong.len() > LONGEST {
        return None;
    }
    let wrong = wrong.to_lowercase();
    let alike = names.into_iter().map(|name| (strsim::jaro_winkler(&wrong, &name.to_lowercase()), name));
    let alike: Vec<(f64, &str)> = alike.filter(|(likeness, _)| *likeness >= ALIKE).collect();
    let most = alike.iter().map(|(likeness, _)| *likeness).fold(0.0, f64::max);
    let mut first =
        alike.iter().filter(|(likeness, _)| most - likeness < SAME_LIKENESS).map(|(_, name)| *name);
    let name = first.next()?;
    first.all(|other| other == name).then_some(name)
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
    match same(wrong, names).or_else(|| nearest(wrong, names.iter().copied())) {
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
    fn a_word_of_the_trade_finds_its_name_and_a_guess_is_not_called_right() {
        let edges = ["sheared", "thermally-cut"];
        assert_eq!(meant("plasma", &edges), Some("thermally-cut"));
        assert_eq!(meant("fatigue", &["static", "fluctuating", "corrosive", "seismic"]), Some("fluctuating"));
        assert_eq!(meant("top", &["outer", "inner"]), None);
        assert_eq!(meant("saw", &edges), None);
        assert_eq!(meant("twin6", &["twin-6"]), Some("twin-6"));
        // likely, but another strength
        assert_eq!(
            (nearest("S335", ["S235", "S355"]), meant("S335", &["S235", "S355"])),
            (Some("S355"), None)
        );
        assert_eq!(hint("top", &["outer", "inner"]), Hint::Nothing);
    }

    #[test]
    fn of_several_names_as_near_none_is_offered() {
        let classes = ["iso-13920-ae", "iso-13920-bf", "iso-13920-bg", "iso-13920-dh"];
        for wrong in ["iso-13920-zz", "iso-13920-bz", "iso-13920-b"] {
            assert_eq!((nearest(wrong, classes), meant(wrong, &classes)), (None, None), "{wrong}");
            assert!(
                wanted(wrong, &classes).starts_with("one of `iso-13920-ae`"),
                "{}",
                wanted(wrong, &classes)
            );
            assert_eq!(hint(wrong, &classes), Hint::Nothing, "{wrong}");
        }
        assert_eq!(meant("iso-13920-fb", &classes), Some("iso-13920-bf"));
        assert_eq!(meant("iso13920dh", &classes), Some("iso-13920-dh"));
    }

    #[test]
    fn names_are_listed_as_in_a_sentence() {
        assert_eq!(listed(["a", "b", "c"]), "`a`, `b` or `c`");
        assert_eq!(listed(["a"]), "`a`");
    }
}
