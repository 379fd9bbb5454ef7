//! What is told of a record, in the order a foreman asks: lists and tables as text, for the terminal and a page alike.

use super::gather::Gathered;
use super::slips::slips;
use super::words;
use crate::cli::lists::counted;
use crate::record::Learned;
use crate::units::{System, show};

/// Odd and checked readings told.
const MOST: usize = 20;

/// One part of it.
pub(super) struct Part {
    /// Its title.
    pub title: &'static str,
    /// How to read it.
    pub(crate) remark: String,
    /// What it says.
    pub body: Body,
}

/// Sentences or a table.
pub(super) enum Body {
    /// Sentences.
    Lines(Vec<String>),
    /// A table.
    Table {
        /// Names of its columns.
        heads: &'static [&'static str],
        /// Columns of numbers.
        right: &'static [usize],
        /// Its rows.
        rows: Vec<Vec<String>>,
        /// What is left out.
        rest: Option<String>,
    },
}

/// How much there is.
pub(crate) fn head(gathered: &Gathered, found: &Learned) -> String {
    let days = gathered.days.as_ref().map_or(String::new(), |[a, b]| format!(", {a} to {b}"));
    let unread = match gathered.unread.as_slice() {
        [] => String::new(),
        own => format!("; columns not read: {}", own.join(", ")),
    };
    format!("{}, {}{days}{unread}", counted(found.pieces, "piece"), counted(found.readings, "reading"))
}

/// What the answer rests on.
pub(crate) fn foot(found: &Learned) -> String {
    let a = &found.agreement;
    format!(
        "{} draws, worth {:.0} independent ones at least; R̂ {:.3} at most. Learned beside the formula level, as computed from \
         each job; valid for members like these.",
        a.draws, a.effective, a.r_hat
    )
}

/// Everything between head and foot; lists that say nothing are left out.
pub(crate) fn parts(gathered: &Gathered, found: &Learned, system: System) -> Vec<Part> {
    let mut odd = words::odd(found, system);
    odd.extend(words::copies(gathered));
    odd.truncate(MOST);
    let mut first = slips(gathered, found, system);
    first.extend(words::doubts(found));
    let list =
        |title, remark: &str, lines| Part { title, remark: remark.to_owned(), body: Body::Lines(lines) };
    let mut all = vec![
        list("First", "", first),
        list("Read these again", "", odd),
        list("What your welds do", "±: two standard deviations", words::factors(found)),
        list("From piece to piece", "", words::scatter(found, system)),
        list("Who stands off", "", words::groups(found, system)),
        list(
            "What moved",
            "by the moving average, but for single readings to be read again; a steady shop is accused about once in 370 pieces",
            words::shifts(found, gathered, system),
        ),
        members(found, system),
        checks(found, system),
        list("Next", "", words::teaches(found).into_iter().collect()),
    ];
    all.retain(|part| !matches!(&part.body, Body::Lines(lines) if lines.is_empty()));
    all
}

fn members(found: &Learned, system: System) -> Part {
    let mm = |mm: f64| words::signed(mm, system);
    let size = |mm: f64| show::offset(mm, system);
    let rows = found.next.iter().map(|n| {
        vec![
            n.member.clone(),
            words::quantity(n.what),
            format!("{} ± {}", mm(n.before_mm), size(2.0 * n.before_bias_sd_mm)),
            format!("{} ± {}", mm(n.mean_mm), size(2.0 * n.bias_sd_mm)),
            size(n.scatter_sd_mm),
            format!("{} … {}", mm(n.band_mm[0]), mm(n.band_mm[1])),
        ]
    });
    Part {
        title: "Before and after",
        remark: "at mid-length; ±: two standard deviations of what all pieces share by welding, plates and fit-up, of which `predict` has \
                 the first alone as long as nothing was read; welded as the latest piece was; next: nine of ten pieces"
            .to_owned(),
        body: Body::Table {
            heads: &["member", "", "as computed", "with your pieces", "differ by", "next piece"],
            right: &[2, 3, 4, 5],
            rows: rows.collect(),
            rest: None,
        },
    }
}

fn checks(found: &Learned, system: System) -> Part {
    let c = &found.checks;
    let again =
        if c.again > 0 { format!("; {} sampled again without the piece", c.again) } else { String::new() };
    let mut worst: Vec<_> = c.readings.iter().collect();
    worst.sort_by(|a, b| (b.below - 0.5).abs().total_cmp(&(a.below - 0.5).abs()));
    let rows = worst.into_iter().take(MOST / 2).map(|r| {
        vec![
            r.piece.clone(),
            words::quantity(r.what),
            words::signed(r.value_mm, system),
            format!("{} ± {}", words::signed(r.expected_mm, system), show::offset(2.0 * r.sd_mm, system)),
            format!("{:.0} %", 100.0 * r.below),
        ]
    });
    let left = c.readings.len() > MOST / 2;
    Part {
        title: "Checked against itself",
        remark: format!(
            "each piece from the others: {} of {} readings inside the band that should hold nine of ten{again}",
            c.inside, c.of
        ),
        body: Body::Table {
            heads: &["piece", "", "read", "expected", "chance of less"],
            right: &[2, 3, 4],
            rows: rows.collect(),
            rest: left.then(|| format!("the {} farthest of {}", MOST / 2, c.readings.len())),
        },
    }
}
