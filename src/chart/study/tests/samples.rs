//! Invented tables to draw, of a riding arena's rafters. The numbers follow from nothing: they only have
//! the size and the shape that results usually have.

use weldbow_engine::scatter::{OneAtATime, Share};
use weldbow_engine::study::{ChartSpec, Column, Table, Values};

/// A table, what to draw of it, and what goes with it.
pub(super) struct Sample {
    pub name: &'static str,
    pub table: Table,
    pub(crate) spec: ChartSpec,
    pub swings: Vec<OneAtATime>,
    pub shares: Vec<Share>,
    /// Rows whose case carries a warning.
    pub warned: Vec<usize>,
}

pub(super) fn numbers(name: &str, words: &str, unit: &str, values: Vec<f64>) -> Column {
    let (name, words, unit) = (name.to_owned(), words.to_owned(), unit.to_owned());
    Column { name, words, unit, values: Values::Numbers(values) }
}

pub(super) fn words(name: &str, words: &str, values: &[&str]) -> Column {
    let values = Values::Words(values.iter().map(|v| (*v).to_owned()).collect());
    Column { name: name.to_owned(), words: words.to_owned(), unit: String::new(), values }
}

pub(super) fn sample(name: &'static str, columns: Vec<Column>, spec: &str) -> Sample {
    let spec = toml::from_str(spec).unwrap();
    Sample {
        name,
        table: Table { columns },
        spec,
        swings: Vec::new(),
        shares: Vec::new(),
        warned: Vec::new(),
    }
}

/// Every pair of two lists, the first changing slowest.
fn pairs(a: &[f64], b: &[f64]) -> Vec<(f64, f64)> {
    a.iter().flat_map(|a| b.iter().map(move |b| (*a, *b))).collect()
}

fn of<T>(rows: &[T], f: impl Fn(&T) -> f64) -> Vec<f64> {
    rows.iter().map(f).collect()
}

/// A stand-in for chance: evenly scattered numbers with the mean 0 and about the deviation 1.
fn scattered(n: usize, salt: f64) -> f64 {
    (0..12)
        .map(|k| ((n as f64 * 0.754_877 + salt + f64::from(k) * 1.713).sin() * 43_758.545).fract().abs())
        .sum::<f64>()
        - 6.0
}

const CAMBER: &str = "camber, + toward the inner flange";

/// Camber against leg, one line a flange thickness.
fn legs() -> Sample {
    let rows = pairs(&[8.0, 10.0, 12.0, 16.0], &[4.0, 5.0, 6.0, 7.0, 8.0]);
    let camber = |r: &(f64, f64)| {
        if *r == (10.0, 7.0) { f64::NAN } else { 0.36 * r.1 * r.1 * (8.0 / r.0).powf(0.7) - 3.0 }
    };
    let columns = vec![
        numbers("flange.thickness", "inner flange", "mm", of(&rows, |r| r.0)),
        numbers("pass.leg", "leg", "mm", of(&rows, |r| r.1)),
        numbers("camber.max_mm", CAMBER, "mm", of(&rows, camber)),
        numbers("camber.max_2s_mm", "2σ of camber", "mm", of(&rows, |r| 0.3 * (camber(r)).abs() + 0.3)),
        numbers("limit_mm", "limit of EN 1090-2", "mm", of(&rows, |_| 12.0)),
    ];
    sample(
        "lines-leg",
        columns,
        "kind = 'lines'\nx = 'pass.leg'\ny = 'camber.max_mm'\nby = 'flange.thickness'\nband = 'camber.max_2s_mm'\nlimit = 'limit_mm'\nmember = true",
    )
}

/// The same with warnings at some points, of every mark.
fn legs_warned() -> Sample {
    Sample { name: "lines-warned", warned: vec![0, 4, 5, 11, 18, 19], ..legs() }
}

/// Narrow bars, four over a word, with values as high as their neighbours', nothing, and warnings.
fn narrow() -> Sample {
    let plates = ["one plate", "spliced before", "spliced after, closed", "spliced after, open"];
    let welds = ["none", "2 cleats", "4 cleats", "6 cleats", "3 stiffener pairs", "7 gussets"];
    let rows: Vec<(usize, usize)> = (0..welds.len()).flat_map(|w| (0..4).map(move |p| (w, p))).collect();
    let size = |r: &(usize, usize)| 0.26 * r.0 as f64 + [0.0, 0.0, 1.3, -4.7][r.1];
    let columns = vec![
        words("weld", "welds across", &rows.iter().map(|r| welds[r.0]).collect::<Vec<_>>()),
        words("plate", "outer flange", &rows.iter().map(|r| plates[r.1]).collect::<Vec<_>>()),
        numbers("camber.max_mm", CAMBER, "mm", of(&rows, size)),
    ];
    let spec = "kind = 'lines'\nx = 'weld'\ny = 'camber.max_mm'\nby = 'plate'";
    Sample { warned: vec![2, 9], ..sample("lines-narrow", columns, spec) }
}

/// Two results over words.
fn procedures() -> Sample {
    let names = [
        "tandem, both sides",
        "near side first",
        "far side first",
        "back-step in 600 mm",
        "skip weld 50 of 150",
        "from the middle",
    ];
    let columns = vec![
        words("procedure", "welding order", &names),
        numbers("camber.max_mm", CAMBER, "mm", vec![7.2, 8.4, 8.1, 6.0, 2.4, 6.9]),
        numbers("sweep.max_mm", "sweep, + toward the near side", "mm", vec![0.3, -6.2, 5.9, -2.2, -0.8, 1.4]),
    ];
    sample("lines-words", columns, "kind = 'lines'\nx = 'procedure'\ny = ['camber.max_mm', 'sweep.max_mm']")
}

/// Twelve lines over decades, with a limit that varies.
fn dozen() -> Sample {
    let speeds = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];
    let gaps: Vec<f64> = (0..12).map(|n| f64::from(n) * 0.25).collect();
    let rows = pairs(&gaps, &speeds);
    let short = |r: &(f64, f64)| {
        if r.1 > 40.0 && r.0 > 2.4 { f64::NAN } else { 1.5 + r.0 + 0.8 * r.1.ln() + 0.02 * r.0 * r.1.sqrt() }
    };
    let columns = vec![
        numbers("fit_up.gap", "root gap", "mm", of(&rows, |r| r.0)),
        numbers("wait", "wait between passes", "min", of(&rows, |r| r.1)),
        numbers("shortening_mm", "shortening", "mm", of(&rows, short)),
        numbers("limit_mm", "limit", "mm", of(&rows, |r| 5.0 + 0.6 * r.1.ln())),
    ];
    sample(
        "lines-dozen",
        columns,
        "kind = 'lines'\nx = 'wait'\ny = 'shortening_mm'\nby = 'fit_up.gap'\nlimit = 'limit_mm'",
    )
}

/// Many cases at one place.
fn sampled() -> Sample {
    let rows: Vec<(f64, f64, usize)> = pairs(&[0.4, 0.6, 0.8, 1.0, 1.2], &[0.0, 1.0])
        .into_iter()
        .flat_map(|(heat, side)| (0..40).map(move |n| (heat, side, n)))
        .collect();
    let sides: Vec<&str> = rows.iter().map(|r| if r.1 > 0.5 { "one side" } else { "both sides" }).collect();
    let camber =
        |r: &(f64, f64, usize)| 9.0 * r.0 * (1.0 + 0.6 * r.1) + 0.7 * r.0 * scattered(r.2, r.0 + r.1);
    let columns = vec![
        numbers("heat", "heat input", "kJ/mm", of(&rows, |r| r.0)),
        words("side", "welded from", &sides),
        numbers("camber.max_mm", CAMBER, "mm", of(&rows, camber)),
    ];
    sample(
        "lines-sampled",
        columns,
        "kind = 'lines'\nx = 'heat'\ny = 'camber.max_mm'\nby = 'side'\ntitle = 'heat moves camber, the welded side more so'",
    )
}

/// Nine small plots.
fn panels() -> Sample {
    let mut rows = Vec::new();
    for web in [4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0] {
        rows.extend(
            pairs(&[180.0, 220.0, 260.0], &[3.0, 4.0, 5.0, 6.0, 8.0]).into_iter().map(|r| (web, r.0, r.1)),
        );
    }
    let sweep = |r: &(f64, f64, f64)| -40.0 * (r.2 / 6.0).powi(2) * (180.0 / r.1).powi(2) / (r.0 + 3.0) + 2.0;
    let columns = vec![
        numbers("web.thickness", "web", "mm", of(&rows, |r| r.0)),
        numbers("flange.width", "flange width", "mm", of(&rows, |r| r.1)),
        numbers("pass.leg", "leg", "mm", of(&rows, |r| r.2)),
        numbers("sweep.max_mm", "sweep, + toward the near side", "mm", of(&rows, sweep)),
        numbers("limit_mm", "limit", "mm", of(&rows, |_| 6.0)),
    ];
    sample(
        "lines-panels",
        columns,
        "kind = 'lines'\nx = 'pass.leg'\ny = 'sweep.max_mm'\nby = 'flange.width'\npanels = 'web.thickness'\nlimit = 'limit_mm'",
    )
}

/// A field over two numbers.
fn field(name: &'static str, shift: f64, failed: bool, spec: &str) -> Sample {
    let depth: Vec<f64> = (0..9).map(|n| 400.0 + 50.0 * f64::from(n)).collect();
    let rows = pairs(&[4.0, 5.0, 6.0, 7.0, 8.0, 10.0], &depth);
    let camber = |r: &(f64, f64)| {
        if failed && *r == (7.0, 600.0) {
            f64::NAN
        } else {
            0.25 * r.0 * r.0 * (700.0 / r.1).powf(1.3) - shift
        }
    };
    let columns = vec![
        numbers("pass.leg", "leg", "mm", of(&rows, |r| r.0)),
        numbers("depth", "depth at the start", "mm", of(&rows, |r| r.1)),
        numbers("camber.max_mm", CAMBER, "mm", of(&rows, camber)),
        numbers("limit_mm", "limit", "mm", of(&rows, |_| 12.0 - 0.6 * shift)),
    ];
    sample(name, columns, spec)
}

fn word_map() -> Sample {
    let orders = ["tandem", "near first", "far first", "back-step"];
    let rows: Vec<(usize, f64)> = (0..4).flat_map(|o| [4.0, 5.0, 6.0, 8.0].map(|leg| (o, leg))).collect();
    let names: Vec<&str> = rows.iter().map(|r| orders[r.0]).collect();
    let sweep = |r: &(usize, f64)| [0.1, -1.0, 0.95, -0.4][r.0] * r.1 * r.1 * 0.22;
    let columns = vec![
        words("order", "welding order", &names),
        numbers("pass.leg", "leg", "mm", of(&rows, |r| r.1)),
        numbers("sweep.max_mm", "sweep, + toward the near side", "mm", of(&rows, sweep)),
        numbers("limit_mm", "limit", "mm", of(&rows, |_| 6.0)),
    ];
    sample(
        "map-words",
        columns,
        "kind = 'map'\nx = 'order'\nby = 'pass.leg'\ny = 'sweep.max_mm'\nlimit = 'limit_mm'",
    )
}

fn chances(count: usize) -> Vec<Column> {
    let rows: Vec<usize> = (0..count).collect();
    let orders = ["tandem", "near side first", "far side first"];
    let heat = |n: &usize| 0.8 + 0.1 * scattered(*n, 1.0);
    let camber = |n: &usize| {
        if n % 301 == 5 {
            f64::NAN
        } else {
            9.0 * heat(n) + 1.0 * scattered(*n, 5.0) + [0.0, 1.2, -0.9][n % 3]
        }
    };
    let names: Vec<&str> = rows.iter().map(|n| orders[n % 3]).collect();
    vec![
        numbers("heat", "heat input", "kJ/mm", of(&rows, heat)),
        numbers("leg", "leg as measured", "mm", of(&rows, |n| 6.0 + 0.5 * scattered(*n, 9.0))),
        words("order", "welding order", &names),
        numbers("camber.max_mm", CAMBER, "mm", of(&rows, camber)),
        numbers("limit_mm", "limit", "mm", of(&rows, |_| 9.0)),
    ]
}

/// A result about zero, with its limit on both sides.
fn both_ways() -> Sample {
    let rows: Vec<usize> = (0..800).collect();
    let columns = vec![
        numbers(
            "sweep.max_mm",
            "sweep, + toward the near side",
            "mm",
            of(&rows, |n| 2.6 * scattered(*n, 3.0) - 0.4),
        ),
        numbers("limit_mm", "limit", "mm", of(&rows, |_| 6.0)),
    ];
    sample(
        "histogram-both",
        columns,
        "kind = 'histogram'\nx = 'sweep.max_mm'\nlimit = 'limit_mm'\nmember = true",
    )
}

/// Many long words along the bottom, in four plots, the last points failed.
fn turned() -> Sample {
    let names: Vec<String> = (1..=14).map(|n| format!("sequence {n} of the shop")).collect();
    let mut rows = Vec::new();
    for web in [5.0, 6.0, 8.0, 10.0] {
        for side in [0.0, 1.0] {
            rows.extend((0..14).map(|n| (web, side, n)));
        }
    }
    let sweep = |r: &(f64, f64, usize)| {
        if r.2 > 11 && r.1 > 0.5 { f64::NAN } else { (6.0 * (r.2 as f64).sin() - 9.0 * r.1) * 5.0 / r.0 }
    };
    let sides: Vec<&str> =
        rows.iter().map(|r| if r.1 > 0.5 { "welded from one side" } else { "both" }).collect();
    let orders: Vec<&str> = rows.iter().map(|r| names[r.2].as_str()).collect();
    let columns = vec![
        words("sequence", "sequence", &orders),
        words("side", "sides", &sides),
        numbers("web", "web", "mm", of(&rows, |r| r.0)),
        numbers("sweep.max_mm", "sweep, + toward the near side", "mm", of(&rows, sweep)),
    ];
    sample(
        "lines-turned",
        columns,
        "kind = 'lines'\nx = 'sequence'\ny = 'sweep.max_mm'\nby = 'side'\npanels = 'web'",
    )
}

fn swung() -> Sample {
    let inputs = [
        "heat input of the inner seam",
        "leg",
        "yield strength of the inner flange as delivered",
        "travel speed",
        "root gap",
        "flange thickness",
        "web thickness",
        "depth at the start",
        "preheat",
        "wait between passes",
        "arc efficiency",
        "flange width",
        "expansion",
        "modulus",
        "density",
        "air temperature",
        "length",
    ];
    let mut sample = sample("tornado", chances(40), "kind = 'tornado'\ny = 'camber.max_mm'\nmember = true");
    sample.swings = inputs
        .iter()
        .enumerate()
        .map(|(n, input)| {
            let half = 3.4 * 0.72_f64.powi(n as i32);
            let results = match n % 5 {
                3 => [7.2 + 1.0 * half, 7.2 + 0.3 * half],
                1 => [7.2 + half, 7.2 - 0.8 * half],
                _ => [7.2 - half, 7.2 + 1.1 * half],
            };
            OneAtATime {
                input: (*input).to_owned(),
                ends: [format!("{} kJ/mm", 0.6), format!("{} kJ/mm", 0.9)],
                results,
                middle: 7.2,
            }
        })
        .collect();
    sample
}

fn shared() -> Sample {
    let inputs = [
        "heat input",
        "leg",
        "yield strength of the inner flange",
        "travel speed",
        "root gap",
        "web thickness",
        "model",
    ];
    let mut sample = sample("shares", chances(40), "kind = 'shares'\ny = 'camber.max_mm'");
    sample.shares = inputs
        .iter()
        .enumerate()
        .map(|(n, input)| {
            let alone = 0.47 * 0.5_f64.powi(n as i32) - 0.004;
            Share { input: (*input).to_owned(), alone: (alone, 0.02), total: (alone + 0.03, 0.012) }
        })
        .collect();
    sample
}

/// Ordinary studies of every kind.
pub(super) fn usual() -> Vec<Sample> {
    let map = "kind = 'map'\nx = 'depth'\nby = 'pass.leg'\ny = 'camber.max_mm'\nlimit = 'limit_mm'";
    vec![
        legs(),
        legs_warned(),
        narrow(),
        procedures(),
        dozen(),
        sampled(),
        panels(),
        field("map", 0.0, false, map),
        field("map-signs", 10.0, true, map),
        word_map(),
        sample("histogram", chances(2000), "kind = 'histogram'\nx = 'camber.max_mm'\nlimit = 'limit_mm'"),
        sample(
            "scatter",
            chances(400),
            "kind = 'scatter'\nx = 'heat'\ny = 'camber.max_mm'\nby = 'order'\nlimit = 'limit_mm'",
        ),
        sample(
            "scatter-many",
            chances(9000),
            "kind = 'scatter'\nx = 'heat'\ny = 'camber.max_mm'\nby = 'leg'",
        ),
        sample(
            "scatter-panels",
            chances(300),
            "kind = 'scatter'\nx = 'heat'\ny = 'camber.max_mm'\nby = 'leg'\npanels = 'order'\nlimit = 'limit_mm'",
        ),
        both_ways(),
        turned(),
        swung(),
        shared(),
    ]
}
