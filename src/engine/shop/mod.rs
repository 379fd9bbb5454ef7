//! The shop file: what the shop has and what its time costs, as a person writes it down.
//!
//! One file a table; each has the shape of its table and checks it. `file` is the whole, `read` takes a file or a text.
//! A table that is left out is a tool the shop does not have (rates and measuring then are the usual ones); a line that
//! is left out of a table has the default its remark states. `measured` reads the offsets the shop measured on one piece,
//! `push_log` the readings of the pushes made on it; `assess` judges one piece of a job in a shop and plans for it.

mod file;
mod heat;
mod measuring;
mod press;
mod rates;
mod roller;

pub use file::ShopFile;
pub use heat::HeatShape;
pub use measuring::MeasuringShape;
pub use press::PressShape;
pub use rates::RatesShape;
pub use roller::RollerShape;

use crate::choose::Book;
use crate::job::file::{JobFile, LearnedShape};
use crate::straighten::piece::Measuring;
use crate::straighten::plan;

/// A shop file with a remark at every line, to start from.
pub const STARTER: &str = include_str!("starter.toml");

/// A checked shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// What it calls itself.
    pub title: String,
    /// Press, rollers, torches, rates; the leg under the press pads is the job's and left at 0.
    pub tools: plan::Shop,
    /// How well it measures.
    pub measuring: Measuring,
    /// Rates that are placeholders, as the file calls them.
    pub placeholder_rates: Vec<&'static str>,
    /// Chance that a piece needs straightening from which the shop gets ready for it.
    pub plan_from_chance: f64,
    /// What its own pieces say, for jobs that name no such file.
    pub learned: Option<LearnedShape>,
    /// Welding line and qualified procedures; none without a `[[book]]`.
    pub welding: Option<Book>,
}

impl Shop {
    /// Gives a job what the shop's own pieces say, unless it names a file of its own.
    pub fn lend(&self, job: &mut JobFile) {
        lend(self.learned.as_ref(), job);
    }

    /// A middling press with one ram and torches, no rollers; what stands in where no file is given (choice).
    pub fn usual() -> Self {
        let file = ShopFile {
            title: Some("a usual shop: one-ram press, torches, no rollers".to_owned()),
            press: Some(PressShape::default()),
            heat: Some(HeatShape::default()),
            ..ShopFile::default()
        };
        file.usual()
    }
}

impl ShopFile {
    /// As [`Shop::lend`].
    pub fn lend(&self, job: &mut JobFile) {
        lend(self.learned.as_ref(), job);
    }
}

fn lend(learned: Option<&LearnedShape>, job: &mut JobFile) {
    if job.learned.is_none() {
        job.learned = learned.cloned();
    }
}

/// A checked shop from a right text, for tests.
#[cfg(test)]
pub fn read_text(_: &str, text: &str) -> Result<Shop, String> {
    let file: ShopFile = toml::from_str(text).map_err(|error| error.to_string())?;
    file.build().map_err(|problems| format!("{problems:?}"))
}
