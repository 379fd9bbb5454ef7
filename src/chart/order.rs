//! Load of an order: expected hours of each family, and of each week, with the range the model bias leaves them in.

use super::axes::{Panel, Range};
use super::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, WIDTH, clean, corners, draw};
use super::number::number;
use super::theme::{BLACK, BLUE, FULL, Ink, LABEL, ORANGE, SKY_PALE, SMALL, Stroke, VALUE, VERMILION, WHITE};
use super::{Done, Picture};
use weldbow_engine::order::{OrderResult, Totals};

const LEFT: f64 = 320.0;
const RIGHT: f64 = 800.0;
const ROW: f64 = 44.0;
const HALF_BAR: f64 = 10.0;
/// Over the rows for the key, under them for the axis and the source, px.
const OVER: f64 = 40.0;
const UNDER: f64 = 74.0;
const LEAST_ROWS: usize = 3;
/// Most rows drawn; the rest is one row (a choice).
const MOST_ROWS: usize = 16;
const LEAST_HOURS: f64 = 0.5;

/// One bar.
struct Row {
    name: String,
    detail: String,
    parts_h: [f64; 3],
    low_h: f64,
    high_h: f64,
}

/// Pictures of an order: load by family, and by week where weeks are known.
///
/// # Errors
/// As [`pictures`](super::pictures).
pub fn order_pictures(found: &OrderResult) -> Done<Vec<Picture>> {
    let weeks = (!found.weeks.is_empty()).then(|| weeks(found));
    [families(found)].into_iter().chain(weeks).collect()
}

fn families(found: &OrderResult) -> Done<Picture> {
    let mut families: Vec<_> = found.families.iter().collect();
    families.sort_by(|a, b| b.totals.hours.expected.total_cmp(&a.totals.hours.expected));
    let mut rows: Vec<Row> = families
        .iter()
        .map(|f| {
            let marks = f.marks.join(", ");
            row(if f.name == marks { &marks } else { &f.name }, &marks, f.quantity, &f.totals)
        })
        .collect();
    if rows.len() > MOST_ROWS {
        let rest = rows.split_off(MOST_ROWS - 1);
        rows.push(Row {
            name: format!("{} more families", rest.len()),
            detail: "together; their ranges added up".to_owned(),
            parts_h: [0, 1, 2].map(|i| rest.iter().map(|r| r.parts_h[i]).sum()),
            low_h: rest.iter().map(|r| r.low_h).sum(),
            high_h: rest.iter().map(|r| r.high_h).sum(),
        });
    }
    chart(found, "order-families", "hours of straightening by family", &rows, [None; 2])
}

fn weeks(found: &OrderResult) -> Done<Picture> {
    let rows: Vec<Row> = found
        .weeks
        .iter()
        .map(|w| {
            let name = w.week.map_or_else(|| "no week given".to_owned(), |week| format!("week {week}"));
            row(&name, "", w.quantity, &w.totals)
        })
        .collect();
    let capacity = [found.capacity_h, found.heat_capacity_h];
    chart(found, "order-weeks", "hours of straightening by week", &rows, capacity)
}

fn row(name: &str, marks: &str, quantity: u32, t: &Totals) -> Row {
    let need = number(t.needing.expected, 1);
    let counted = format!("{need} of {quantity} pieces");
    let blocked = t.blocked.expected;
    let blocked =
        if blocked >= 0.05 { format!(", {} beyond this shop", number(blocked, 1)) } else { String::new() };
    let detail = if marks.is_empty() || marks == name {
        format!("{counted}{blocked}")
    } else {
        format!("{marks}: {counted}{blocked}")
    };
    Row {
        name: clean(name),
        detail: clean(&detail),
        parts_h: [t.press_h.expected, t.heat_h.expected, t.measure_h.expected],
        low_h: t.hours.low,
        high_h: t.hours.high,
    }
}

fn chart(
    found: &OrderResult,
    name: &str,
    what: &str,
    rows: &[Row],
    capacity_h: [Option<f64>; 2],
) -> Done<Picture> {
    let t = &found.totals;
    let decimals = |h: f64| usize::from(h < 99.95);
    let hours = |h: f64| number(h, decimals(h));
    let heading = Heading {
        name,
        job: &format!("Order of {} marks, {} pieces", found.marks.len(), found.quantity),
        what,
        subtitle: format!(
            "{} pieces need it, {} h in all, {} to {} h allowing for model error",
            number(t.needing.expected, 1),
            hours(t.hours.expected),
            hours(t.hours.low),
            hours(t.hours.high)
        ),
        description: format!(
            "{} bars of expected hours at press, torch and measuring, each with a line from 5 % to 95 % over the model bias.",
            rows.len()
        ),
    };
    let count = rows.len().max(LEAST_ROWS) as f64;
    let height = BELOW_TITLE + OVER + ROW * count + UNDER;
    draw(&heading, (WIDTH, height), |paper| {
        key(paper, capacity_h.iter().any(Option::is_some))?;
        let ends = rows
            .iter()
            .flat_map(|r| [r.high_h, r.parts_h.iter().sum()])
            .chain(capacity_h.into_iter().flatten());
        let top = BELOW_TITLE + OVER;
        let x = Range { low: 0.0, ..Range::around(ends, LEAST_HOURS) };
        let y = Range::to(count);
        let panel = Panel::new((LEFT, RIGHT), (top, top + ROW * count), x, y);
        panel.x_grid(paper, 1.0, 7.0, 15.0)?;
        paper.text((0.5 * (LEFT + RIGHT), panel.bottom + 34.0), At::Middle, "hours", SMALL)?;
        for (i, row) in rows.iter().enumerate() {
            bar(paper, &panel, row, top + ROW * (i as f64 + 0.5), capacity_h)?;
        }
        let placeholders = "; times are placeholders, not the shop's own";
        let rates = if found.placeholder_rates.is_empty() { "" } else { placeholders };
        let source = format!(
            "{} possible model errors × {} pieces a mark, formula level, not measured{rates}.",
            found.draws.bias, found.draws.pieces
        );
        paper.text((MARGIN, height - 14.0), At::Left, &source, SMALL)
    })
}

/// Name and count at the left, the stacked bar with its hours, its range under it; a tick each where the hours of press and torch end,
/// counted from where their part of the bar begins.
fn bar(paper: &Canvas<'_>, panel: &Panel, row: &Row, y: f64, capacity_h: [Option<f64>; 2]) -> Done {
    let room = LEFT - MARGIN - 14.0;
    paper.text_within((MARGIN, y - 7.0), room, &row.name, LABEL)?;
    paper.text_within((MARGIN, y + 8.0), room, &row.detail, SMALL)?;
    let mut from = 0.0;
    for (hours, ink) in row.parts_h.into_iter().zip(INKS) {
        if hours > 0.0 {
            let a = (panel.px(from), y - HALF_BAR);
            let b = (panel.px(from + hours), y + HALF_BAR);
            paper.shape(&corners(a, b), ink, 1.0, EDGE)?;
        }
        from += hours;
    }
    for (tool, capacity) in capacity_h.into_iter().enumerate() {
        let begins: f64 = row.parts_h.iter().take(tool).sum();
        // a part that fits needs no tick
        let Some(capacity) = capacity.filter(|c| row.parts_h[tool] > *c) else { continue };
        let x = panel.px(begins + capacity);
        paper.line(&[(x, y - HALF_BAR - 4.0), (x, y + HALF_BAR + 4.0)], super::theme::LIMIT)?;
    }
    // under the bar, so that neither covers the other
    paper.whisker([row.low_h, row.high_h].map(|h| panel.px(h)), y + HALF_BAR + 6.0, 4.0, WHISKER)?;
    let decimals = usize::from(from < 99.95);
    let text = format!("{} h", number(from, decimals));
    paper.plated((panel.px(from) + GAP, y), At::Left, &text, VALUE, WHITE)
}

/// Between a bar and the hours beside it.
const GAP: f64 = 9.0;
/// Press, torch, measuring.
const INKS: [Ink; 3] = [BLUE, ORANGE, SKY_PALE];
const EDGE: Stroke = Stroke { ink: BLACK, width: 0.7, dash: FULL };
const WHISKER: Stroke = Stroke { ink: BLACK, width: 1.6, dash: FULL };

fn key(paper: &Canvas<'_>, capacity: bool) -> Done {
    let y = BELOW_TITLE + 12.0;
    let mut x = MARGIN;
    for (ink, text) in INKS.into_iter().zip(["press and rollers", "torch and cooling", "measuring again"]) {
        let box_ = corners((x, y - 6.0), (x + 22.0, y + 6.0));
        paper.shape(&box_, ink, 1.0, EDGE)?;
        paper.text((x + 29.0, y), At::Left, text, SMALL)?;
        x += 29.0 + paper.width_of(text, SMALL)? + 20.0;
    }
    paper.whisker([x, x + 26.0], y, 5.0, WHISKER)?;
    let text = "5 % to 95 % over the model bias";
    paper.text((x + 33.0, y), At::Left, text, SMALL)?;
    x += 33.0 + paper.width_of(text, SMALL)? + 20.0;
    if capacity {
        paper.line(&[(x, y), (x + 24.0, y)], super::theme::LIMIT)?;
        paper.text((x + 31.0, y), At::Left, "capacity, where short", SMALL.in_ink(VERMILION))?;
    }
    Ok(())
}
