//! Rows of studies: a grid, drawn cases, drawn pieces.

use crate::engine::study;
use crate::job::{Beside, Job, jobs};
use crate::table::{Results, Table, compare};

const COLLECT: &str = "collect = [\"shortening_mm\", \"camber.max_mm\", \"sweep.max_mm\", \"flanges.outer.near_toe_mm\", \
    \"flanges.inner.cup_rad\", \"ripple.compression_mpa\", \"verdicts.any.margin_mm\", \"passes.outer.near.force_n\"]\n";

const GRID: &str = "[[vary]]\nset = \"pass.leg\"\nvalues = [\"4 mm\", \"5 mm\", \"6 mm\", \"7 mm\"]\n\n\
    [[vary]]\nset = \"web.thickness\"\nvalues = [\"4 mm\", \"5 mm\", \"6 mm\", \"8 mm\", \"10 mm\"]\n";
const DRAWS: &str = "sample = { count = 20, seed = 3, usual = true }\n";
const PIECES: &str = "sample = { count = 10, seed = 5, pieces = 3, usual = true }\n";

#[test]
fn rows_of_studies_are_as_kept() {
    let near = |job: &Job| job.sequence == "both sides in turn cold" && job.text.contains("order = 2");
    let job = jobs(7, 'w', 30, Beside::Constraints).into_iter().find(near).unwrap();
    let mut table = Table::default();
    for (kind, definition) in [("grid", GRID), ("draws", DRAWS), ("pieces", PIECES)] {
        let text = format!("title = \"made-up\"\njob = \"job.toml\"\n{COLLECT}\n{definition}");
        let lines = study(&text, &job.text);
        let lines = match &lines {
            Ok(lines) => lines,
            Err(_) => {
                let mut r = Results::default();
                r.word("refused", "yes");
                table.push([kind, job.shape, kind], r);
                continue;
            }
        };
        let (header, rows) = lines.split_once('\n').unwrap_or_default();
        let columns: Vec<&str> = header.split(',').collect();
        for row in rows.lines() {
            let mut r = Results::default();
            let cells: Vec<&str> = row.split(',').collect();
            for (column, cell) in columns.iter().zip(&cells).skip(1) {
                match cell.parse::<f64>() {
                    Ok(value) => r.number(column, value),
                    Err(_) => r.word(column, cell),
                }
            }
            table.push([&format!("{kind}-{}", cells[0]), job.shape, kind], r);
        }
    }
    compare("studies", &table);
}
