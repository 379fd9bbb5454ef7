//! A piece with its readings, asked about as a user asks.

use assert_cmd::Command;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Output;
use tempfile::TempDir;

pub(crate) const RAFTER: &str = "studies/jobs/rafter.toml";
pub(crate) const SHOP: &str = "studies/shop/shop.toml";
pub(crate) const FRONT: [&str; 3] = ["measurements: 2", "delivery: ordinary", "readings: checked"];

pub(crate) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

pub(crate) fn weldbow(arguments: &[&str]) -> Output {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.current_dir(root()).env("NO_COLOR", "1").args(arguments).output().unwrap()
}

/// Offsets at a place (m), mm.
pub(crate) type Bow<'a> = &'a dyn Fn(f64) -> f64;

pub(crate) const STRAIGHT: Bow<'static> = &|_| 0.0;

pub(crate) fn arc(rise: f64, length: f64) -> impl Fn(f64) -> f64 {
    move |x| 4.0 * rise * x * (length - x) / (length * length)
}

pub(crate) fn kink(at: f64, mrad: f64, length: f64) -> impl Fn(f64) -> f64 {
    move |x| mrad * if x < at { x * (length - at) / length } else { at * (length - x) / length }
}

/// A piece with its readings.
pub(crate) struct Piece {
    pub job: String,
    pub front: Vec<&'static str>,
    /// First and last station, m.
    pub read: [f64; 2],
    pub stations: u32,
    pub head: &'static str,
}

impl Piece {
    pub(crate) fn of(job: &str, length: f64) -> Self {
        Self {
            job: job.to_owned(),
            front: FRONT.to_vec(),
            read: [0.0, length],
            stations: 18,
            head: "x [m], camber [mm], sweep [mm]",
        }
    }

    pub(crate) fn rafter() -> Self {
        Self::of(RAFTER, 9.0)
    }

    pub(crate) fn asked(&self, camber: Bow<'_>, sweep: Bow<'_>, more: &[&str]) -> Output {
        let folder = TempDir::new().unwrap();
        let mut text: String = self.front.iter().map(|note| format!("# {note}\n")).collect();
        text += &format!("{}\n", self.head);
        let [from, to] = self.read;
        for i in 0..=self.stations {
            let x = from + (to - from) * f64::from(i) / f64::from(self.stations);
            text += &format!("{x:.4}, {:.3}, {:.3}\n", camber(x), sweep(x));
        }
        let path = folder.path().join("piece.csv");
        std::fs::write(&path, text).unwrap();
        let own = ["straighten", self.job.as_str(), "--shop", SHOP, "--measured", path.to_str().unwrap()];
        let own: Vec<&str> = if more.contains(&"--shop") {
            own.iter().copied().filter(|a| *a != "--shop" && *a != SHOP).collect()
        } else {
            own.to_vec()
        };
        weldbow(&[&own[..], more].concat())
    }

    pub(crate) fn json(&self, camber: Bow<'_>, sweep: Bow<'_>, more: &[&str]) -> Value {
        let output = self.asked(camber, sweep, &[more, &["--json"]].concat());
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        serde_json::from_slice(&output.stdout).unwrap()
    }

    /// What is printed, in one line.
    pub(crate) fn text(&self, camber: Bow<'_>, sweep: Bow<'_>, more: &[&str]) -> String {
        let output = self.asked(camber, sweep, more);
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        flat(&output.stdout)
    }

    /// What is asked or refused; nothing may be planned.
    pub(crate) fn refused(mut self, camber: Bow<'_>, sweep: Bow<'_>) -> String {
        self.front.retain(|note| !note.starts_with("readings"));
        let output = self.asked(camber, sweep, &[]);
        assert_ne!(output.status.code(), Some(0), "{}", flat(&output.stdout));
        flat(&output.stderr)
    }
}

pub(crate) fn flat(bytes: &[u8]) -> String {
    let plain: String = String::from_utf8_lossy(bytes).replace(['│', '╰', '╭', '├', '─', '·'], " ");
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A shop file made from the demo shop.
pub(crate) fn shop(folder: &Path, change: impl Fn(String) -> String) -> String {
    let text = change(std::fs::read_to_string(root().join(SHOP)).unwrap());
    let path = folder.join("own-shop.toml");
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

pub(crate) fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

pub(crate) fn works<'a>(answer: &'a Value, kind: &str) -> Vec<&'a Value> {
    let chosen = answer["plan"]["chosen"].as_array().unwrap();
    let steps = chosen.iter().flat_map(|c| c["way"]["steps"].as_array().unwrap());
    steps.filter_map(|s| s["work"].get(kind)).collect()
}

/// A key that takes the press away.
pub(crate) fn without_press(folder: &Path) -> String {
    shop(folder, |text| {
        let (before, rest) = text.split_once("[press]").unwrap();
        let (_, after) = rest.split_once("# Rollers").unwrap();
        format!("{before}# Rollers{after}")
    })
}
