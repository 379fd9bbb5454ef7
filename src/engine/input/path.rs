//! The path of a field, as steps and as text.

use std::fmt::Write;

/// One step of a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PathStep {
    /// Key of a table.
    Key(String),
    /// Item of a list, from 0.
    Item(usize),
}

/// A path as text: `member.web[1].to`. Keys that are not bare words are quoted.
pub fn text_of(steps: &[PathStep]) -> String {
    let mut path = String::new();
    for step in steps {
        // Writing to a String cannot fail.
        let _ = match step {
            PathStep::Item(index) => write!(path, "[{index}]"),
            PathStep::Key(key) => {
                let dot = if path.is_empty() { "" } else { "." };
                let bare =
                    !key.is_empty() && key.chars().all(|c| c.is_ascii_alphanumeric() || "_-".contains(c));
                if bare { write!(path, "{dot}{key}") } else { write!(path, "{dot}{key:?}") }
            }
        };
    }
    path
}

/// The steps of a path as [`text_of`] writes it.
pub fn steps_of(path: &str) -> Vec<PathStep> {
    let mut steps = Vec::new();
    let mut rest = path;
    while !rest.is_empty() {
        rest = rest.strip_prefix('.').unwrap_or(rest);
        if let Some(inside) = rest.strip_prefix('[') {
            let (index, after) = inside.split_once(']').unwrap_or((inside, ""));
            steps.push(PathStep::Item(index.parse().unwrap_or(0)));
            rest = after;
        } else if let Some(quoted) = rest.strip_prefix('"') {
            let (key, after) = unquote(quoted);
            steps.push(PathStep::Key(key));
            rest = after;
        } else {
            let end = rest.find(['.', '[']).unwrap_or(rest.len());
            steps.push(PathStep::Key(rest[..end].to_owned()));
            rest = &rest[end..];
        }
    }
    steps
}

/// The key up to its closing quote, and what follows; only `\"` and `\\` are undone, which is enough to find
/// a key that a person would write.
fn unquote(quoted: &str) -> (String, &str) {
    let mut key = String::new();
    let mut chars = quoted.char_indices();
    while let Some((at, c)) = chars.next() {
        match c {
            '"' => return (key, &quoted[at + 1..]),
            '\\' => key.extend(chars.next().map(|(_, escaped)| escaped)),
            _ => key.push(c),
        }
    }
    (key, "")
}

/// A path as people count.
///
/// ```
/// use weldbow_engine::input::counted;
/// assert_eq!(counted("pass[0].leg"), "pass 1, leg");
/// assert_eq!(counted("member.depth[2][0]"), "member.depth 3, 1");
/// assert_eq!(counted("member.length"), "member.length");
/// ```
pub fn counted(path: &str) -> String {
    if !path.contains('[') {
        return path.to_owned();
    }
    let mut words = String::new();
    let mut within = false;
    for step in steps_of(path) {
        let item = matches!(step, PathStep::Item(_));
        let _ = match step {
            PathStep::Item(index) if within => write!(words, ", {}", index + 1),
            PathStep::Item(index) => write!(words, " {}", index + 1),
            PathStep::Key(key) => {
                let gap = match words.chars().next_back() {
                    None => "",
                    Some(last) if last.is_ascii_digit() && words.contains(' ') => ", ",
                    Some(_) => ".",
                };
                write!(words, "{gap}{}", text_of(&[PathStep::Key(key)]))
            }
        };
        within = item;
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_survive_being_written_and_read() {
        let path = "procedure.\"a.b\".arcs[3].voltage";
        assert_eq!(text_of(&steps_of(path)), path);
    }
}
