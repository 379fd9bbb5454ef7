//! The sheet of a study: title above, source below, the member if it is wished for.

use super::member::{STRIP, strip};
use super::view::StudyView;
use super::worded::capital;
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, clean, draw};
use crate::theme::SMALL;
use crate::{ChartError, Picture};
use weldbow_engine::study::ChartSpec;

/// Width of every picture of a study, px.
pub(super) const WIDTH: f64 = 900.0;
/// Right end of what is drawn, px.
pub(super) const RIGHT: f64 = WIDTH - 18.0;
const SOURCE: f64 = 30.0;

/// What is said about a picture.
#[derive(Debug)]
pub(super) struct Said {
    /// What it shows, made up from the columns; a title of the user's own wins.
    pub what: String,
    /// The finding.
    pub subtitle: String,
    /// What can be seen, for those who cannot see it.
    pub description: String,
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

/// The line at the foot: what was found, and from what; a count of cases that both would say is said once.
fn foot(found: &str, source: &str) -> String {
    let source = clean(source);
    let count: String = source.split_inclusive(' ').take(2).collect();
    let count = count.trim_end();
    if !count.ends_with("cases") && !count.ends_with("case") {
        return format!("{found} {source}");
    }
    let found = found.replace(&format!(" over {count}"), "");
    let found = found.strip_prefix(&format!("{count}.")).unwrap_or(&found).trim();
    if found.is_empty() { source } else { format!("{found} {source}") }
}

/// A picture whose chart is `tall` px high; `content` gets its top and bottom.
pub(super) fn sheet(
    view: &StudyView<'_>,
    wish: &ChartSpec,
    name: &str,
    said: Said,
    tall: f64,
    content: impl FnOnce(&Canvas<'_>, (f64, f64)) -> Result<(), ChartError>,
) -> Result<Picture, ChartError> {
    let member = view.member.filter(|_| wish.member);
    let bottom = BELOW_TITLE + tall;
    let end = bottom + if member.is_some() { STRIP } else { 0.0 } + SOURCE;
    let what = match wish.title.as_deref().map(clean) {
        Some(own) if !own.is_empty() => own,
        _ if clean(view.title).is_empty() => capital(&said.what),
        _ => said.what,
    };
    let description = format!("{} {} {}", said.description, said.subtitle, clean(view.source));
    let (subtitle, foot) = match clause(view.lesson) {
        Some(lesson) => (lesson, foot(&said.subtitle, view.source)),
        None => (said.subtitle, clean(view.source)),
    };
    let heading = Heading { name, job: view.title, what: &what, description, subtitle };
    draw(&heading, (WIDTH, end), |paper| {
        content(paper, (BELOW_TITLE, bottom))?;
        if let Some(job) = member {
            strip(paper, job, bottom)?;
        }
        let source = paper.shortened(&foot, WIDTH - 2.0 * MARGIN, SMALL)?;
        paper.text((MARGIN, end - 14.0), At::Left, &source, SMALL)
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
        assert_eq!(
            foot("13 cases.", "13 cases of a.toml, formula level"),
            "13 cases of a.toml, formula level"
        );
        assert_eq!(
            foot("From 1 to 2 mm over 9 cases. More.", "9 cases of a.toml"),
            "From 1 to 2 mm. More. 9 cases of a.toml"
        );
        assert_eq!(
            foot("From 1 to 2 mm over 8 cases.", "9 cases of a.toml"),
            "From 1 to 2 mm over 8 cases. 9 cases of a.toml"
        );
    }
}
