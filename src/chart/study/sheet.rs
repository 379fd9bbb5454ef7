//! The sheet of a study: title above, source below, the member if it is wished for.

use super::member::{STRIP, strip};
use super::view::StudyView;
use super::worded::capital;
use crate::paper::{At, BELOW_TITLE, Heading, MARGIN, Paper, clean, draw};
use crate::theme::SMALL;
use crate::{ChartError, Picture};
use weldbow_engine::study::ChartWish;

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

/// A picture whose chart is `tall` px high; `content` gets its top and bottom.
pub(super) fn sheet(
    view: &StudyView<'_>,
    wish: &ChartWish,
    name: &str,
    said: Said,
    tall: f64,
    content: impl FnOnce(&Paper<'_>, (f64, f64)) -> Result<(), ChartError>,
) -> Result<Picture, ChartError> {
    let member = view.member.filter(|_| wish.member);
    let bottom = BELOW_TITLE + tall;
    let end = bottom + if member.is_some() { STRIP } else { 0.0 } + SOURCE;
    let what = match wish.title.as_deref().map(clean) {
        Some(own) if !own.is_empty() => own,
        _ if clean(view.title).is_empty() => capital(&said.what),
        _ => said.what,
    };
    let heading = Heading {
        name,
        job: view.title,
        what: &what,
        description: format!("{} {} {}", said.description, said.subtitle, clean(view.source)),
        subtitle: said.subtitle,
    };
    draw(&heading, (WIDTH, end), |paper| {
        content(paper, (BELOW_TITLE, bottom))?;
        if let Some(job) = member {
            strip(paper, job, bottom)?;
        }
        let source = paper.shortened(&clean(view.source), WIDTH - 2.0 * MARGIN, SMALL)?;
        paper.text((MARGIN, end - 14.0), At::Left, &source, SMALL)
    })
}
