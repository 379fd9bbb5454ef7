//! Whole orders: pieces to straighten and hours, mark by mark.

use crate::choices::SHOP;
use crate::engine::one;
use crate::job::{Beside, Job, some};
use crate::predictions::list;
use crate::table::{Results, Table, compare};
use serde_json::Value;

const SEQUENCES: [&str; 5] =
    ["one side", "one side from leg", "both sides in turn cold", "one side by procedure", "T first cold"];

#[test]
fn orders_are_as_kept() {
    let mut table = Table::default();
    for (number, wishes) in [(1, &[][..]), (2, &["--web-cut"]), (3, &["--preset", "--weeks", "4"])] {
        let shapes = ["tapered", "level", "stepped flanges", "light", "column", "us"];
        let jobs = some(8 + number, 'o', 6, Beside::Constraints, &shapes, &SEQUENCES);
        let names: Vec<String> = jobs.iter().map(|job| format!("{}.toml", job.name)).collect();
        let lines = jobs
            .iter()
            .zip(&names)
            .enumerate()
            .map(|(at, (job, file))| format!("{},{file},{},family {}\n", job.name, 4 + 3 * at, at % 3));
        let marks = format!("mark,job,quantity,family\n{}", lines.collect::<String>());
        let mut files: Vec<(&str, &str)> = vec![("list.csv", &marks), ("shop.toml", SHOP)];
        files.extend(names.iter().zip(&jobs).map(|(name, job)| (name.as_str(), job.text.as_str())));
        let plain = ["order", "list.csv", "--shop", "shop.toml", "--draws", "8", "--pieces", "4", "--json"];
        let kind = wishes.first().copied().unwrap_or("plain");
        match one(&[&plain[..], wishes].concat(), &files) {
            Ok(answer) => marks_of(&mut table, number, kind, &answer, &jobs),
            Err(_) => {
                let mut r = Results::default();
                r.word("refused", "yes");
                table.push([&format!("{number}"), "order", kind], r);
            }
        }
    }
    compare("orders", &table);
}

fn marks_of(table: &mut Table, number: u64, kind: &str, answer: &Value, jobs: &[Job]) {
    table.push([&format!("{number}-all"), "order", kind], totals(answer));
    for mark in list(answer, "/marks") {
        let name = mark["mark"].as_str().unwrap_or_default();
        let shape = jobs.iter().find(|job| job.name == name).map_or("", |job| job.shape);
        let mut r = totals(mark);
        r.take("chance", mark, "/likely/chance");
        r.take("if_right", mark, "/likely/if_model_right/0");
        table.push([&format!("{number}-{name}"), shape, kind], r);
    }
}

fn totals(of: &Value) -> Results {
    let mut r = Results::default();
    for key in
        ["needing", "again", "blocked", "still_out", "press_h", "heat_h", "measure_h", "hours", "heats"]
    {
        r.take(key, of, &format!("/totals/{key}/expected"));
    }
    r.take("hours_low", of, "/totals/hours/low");
    r.take("hours_high", of, "/totals/hours/high");
    r
}
