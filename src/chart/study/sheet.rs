//! The sheet of a study: title above, source below, the member if it is wished for.

use super::member::{STRIP, strip};
use super::view::StudyView;
use crate::canvas::{BELOW_TITLE, Canvas, Heading, MARGIN, WIDTH, clean, draw};
use crate::theme::SMALL;
use crate::{Done, Picture};
use weldbow_engine::input::text::capital;
use weldbow_engine::study::ChartSpec;

const SOURCE: f64 = 30.0;

/// What is said about a picture.
#[derive(Debug)]
pub(super) struct SheetText {
    /// What it shows, made up from the columns; a title of the user's own wins.
    pub what: String,
    /// The finding.
    pub(crate) subtitle: String,
    /// What can be seen, for those who cannot see it.
    pub(crate) description: String,
}

/// Letters that fit under a title (a choice, seen on the sheets).
const CLAUSE: usize = 132;

/// The first clause of a lesson that says something by itself: up to the first full stop or colon, else to the last comma
/// that fits.
fn clause(lesson: &str) -> Option<String> {
    let text = clean(lesson);
    let end = [". ", ": ", "; "].iter().filter_map(|stop| text.find(stop)).min().unwrap_or(text.len());
    let first = text.get(..end).unwrap_or(&text).trim_end_matches('.');
    let short = if first.chars().count() <= CLAUSE {
        first
    } else {
        let fits = first.char_indices().nth(CLAUSE).map_or(first.len(), |(at, _)| at);
        let cut = first.get(..fits).and_then(|head| head.rfind(", ")).unwrap_or(fits);
        first.get(..cut).unwrap_or(first)
    };
    (!short.is_empty()).then(|| format!("{short}."))
}

/// Letters of a line at the foot (a choice, seen on the sheets).
const FOOT: usize = 150;
/// From one line at the foot to the next, px.
const FOOT_LINE: f64 = 15.0;

/// The foot: what was found, and from what, in one line or two; a count of cases that both would say is said once.
fn foot(found: &str, source: &str) -> Vec<String> {
    let source = clean(source);
    let count: String = source.split_inclusive(' ').take(2).collect();
    let count = count.trim_end();
    let counts = count.ends_with("cases") || count.ends_with("case");
    let found = if counts { found.replace(&format!(" over {count}"), "") } else { found.to_owned() };
    let told = |found: &str| match (found.strip_prefix(count), counts) {
        (Some(rest), true) => capital(rest.trim_start_matches(['.', ':', ' '])),
        _ => found.to_owned(),
    };
    let found = told(&found);
    if found.is_empty() {
        return lines(&source);
    }
    let line = format!("{found} {source}");
    if line.chars().count() <= FOOT {
        return vec![line];
    }
    [lines(&found), lines(&source)].concat()
}

/// Sentences on as many lines as they need: none goes over to the next line that fits one.
fn lines(text: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for sentence in text.split_inclusive(". ") {
        let whole = sentence.trim_end().chars().count() <= FOOT;
        let parts = if whole { vec![sentence] } else { sentence.split_inclusive(' ').collect() };
        for (n, part) in parts.into_iter().enumerate() {
            match lines.last_mut() {
                Some(line)
                    if (whole || n > 0) && line.chars().count() + part.trim_end().chars().count() <= FOOT =>
                {
                    line.push_str(part)
                }
                _ => lines.push(part.to_owned()),
            }
        }
    }
    lines.iter().map(|line| line.trim_end().to_owned()).collect()
}

/// A picture whose chart is `tall` px high; `content` gets its top and bottom.
pub(super) fn sheet(
    view: &StudyView<'_>,
    spec: &ChartSpec,
    name: &str,
    said: SheetText,
    tall: f64,
    content: impl FnOnce(&Canvas<'_>, (f64, f64)) -> Done,
) -> Done<Picture> {
    let member = view.member.filter(|_| spec.member);
    let bottom = BELOW_TITLE + tall;
    let what = match spec.title.as_deref().map(clean) {
        Some(own) if !own.is_empty() => own,
        _ if clean(view.title).is_empty() => capital(&said.what),
        _ => said.what,
    };
    let description = format!("{} {} {}", said.description, said.subtitle, clean(view.source));
    let (subtitle, foot) = match clause(view.lesson) {
        Some(lesson) => (lesson, foot(&said.subtitle, view.source)),
        None => {
            let mut lines = lines(&said.subtitle);
            let first = if lines.is_empty() { String::new() } else { lines.remove(0) };
            (first, [lines, self::lines(&clean(view.source))].concat())
        }
    };
    let strip_px = if member.is_some() { STRIP } else { 0.0 };
    let end = bottom + strip_px + SOURCE + FOOT_LINE * (foot.len() - 1) as f64;
    let heading = Heading { name, job: view.title, what: &what, description, subtitle };
    draw(&heading, (WIDTH, end), |paper| {
        content(paper, (BELOW_TITLE, bottom))?;
        if let Some(job) = member {
            strip(paper, job, bottom)?;
        }
        for (above, line) in foot.iter().rev().enumerate() {
            let y = end - 14.0 - FOOT_LINE * above as f64;
            paper.text_within((MARGIN, y), WIDTH - 2.0 * MARGIN, line, SMALL)?;
        }
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_clause_of_a_lesson_is_a_whole_one() {
        let said = |text: &str| clause(text).unwrap_or_default();
        assert_eq!(said("Bows grow with the square. More is said."), "Bows grow with the square.");
        assert_eq!(said("It takes heat: one millimetre more costs."), "It takes heat.");
        let long = format!("{}, and so on without an end in sight", "word ".repeat(25).trim());
        assert!(said(&long).ends_with("word."), "{}", said(&long));
        assert_eq!(clause(""), None);
    }

    #[test]
    fn a_count_is_said_once() {
        let one = |found: &str, source: &str| foot(found, source).join(" / ");
        assert_eq!(
            one("13 cases.", "13 cases of a.toml, formula level"),
            "13 cases of a.toml, formula level"
        );
        assert_eq!(
            one("From 1 to 2 mm over 9 cases. More.", "9 cases of a.toml"),
            "From 1 to 2 mm. More. 9 cases of a.toml"
        );
        assert_eq!(
            one("From 1 to 2 mm over 8 cases.", "9 cases of a.toml"),
            "From 1 to 2 mm over 8 cases. 9 cases of a.toml"
        );
        assert_eq!(one("9 cases: nine in ten.", "9 cases of a.toml"), "Nine in ten. 9 cases of a.toml");
        let long = format!("{}formula", "9 cases of a.toml, ".repeat(7));
        assert_eq!(one("From 1 to 2 mm.", &long), format!("From 1 to 2 mm. / {}", clean(&long)));
    }

    #[test]
    fn nothing_at_the_foot_is_lost_however_long_it_is() {
        let source = format!(
            "80 cases of a.toml: {}(20). 23 of 80 cases carry a warning.",
            "flange thickness × ".repeat(12)
        );
        for found in ["", "From 1 to 2 mm."] {
            let lines = foot(found, &source);
            assert!(lines.iter().all(|line| line.chars().count() <= FOOT), "{lines:?}");
            assert!(lines.join(" ").ends_with(&source), "{lines:?}");
        }
    }
}
