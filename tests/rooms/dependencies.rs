//! What the program is built of, against the lists that `cargo deny` reads: licences, sources, crates in two versions.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn lists() -> toml::Table {
    std::fs::read_to_string(root().join(".ci/deny.toml")).unwrap().parse().unwrap()
}

/// Strings of a list, or of one key of its tables.
fn strings(list: &toml::Value, key: &str) -> BTreeSet<String> {
    let one = |item: &toml::Value| {
        let text = item.as_str().or_else(|| item.get(key)?.as_str());
        text.unwrap_or_else(|| panic!("{item} is no name")).to_owned()
    };
    list.as_array().unwrap().iter().map(one).collect()
}

/// Whether an expression of licences (SPDX 2.3, annex D: AND before OR, WITH an exception; a slash is the older OR) holds with those
/// that are allowed. An exception only ever allows more.
fn holds(expression: &str, allowed: &BTreeSet<String>) -> bool {
    let spaced = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let held = either(&words, &mut at, allowed);
    assert_eq!(at, words.len(), "{expression} is no expression of licences");
    held
}

fn either(words: &[&str], at: &mut usize, allowed: &BTreeSet<String>) -> bool {
    let mut held = both(words, at, allowed);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        held |= both(words, at, allowed);
    }
    held
}

fn both(words: &[&str], at: &mut usize, allowed: &BTreeSet<String>) -> bool {
    let mut held = single(words, at, allowed);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        held &= single(words, at, allowed);
    }
    held
}

fn single(words: &[&str], at: &mut usize, allowed: &BTreeSet<String>) -> bool {
    // a crate that names none has none that is allowed
    let Some(word) = words.get(*at).copied() else { return false };
    *at += 1;
    if word == "(" {
        let held = either(words, at, allowed);
        assert_eq!(words.get(*at), Some(&")"), "a bracket is open in {words:?}");
        *at += 1;
        return held;
    }
    if words.get(*at) == Some(&"WITH") {
        *at += 2;
    }
    allowed.contains(word)
}

/// Packages of this machine's build; what is built for another system is `cargo deny`'s business.
fn packages() -> Vec<serde_json::Value> {
    let version = Command::new("rustc").arg("-vV").output().unwrap();
    let version = String::from_utf8(version.stdout).unwrap();
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).unwrap().to_owned();
    let cargo = Command::new(env!("CARGO"))
        .current_dir(root())
        .args(["metadata", "--format-version", "1", "--locked", "--offline", "--filter-platform", &host])
        .output()
        .unwrap();
    assert!(cargo.status.success(), "{}", String::from_utf8_lossy(&cargo.stderr));
    let all: serde_json::Value = serde_json::from_slice(&cargo.stdout).unwrap();
    all["packages"].as_array().unwrap().clone()
}

#[test]
fn every_licence_and_source_is_one_that_was_read() {
    let lists = lists();
    let allowed = strings(&lists["licenses"]["allow"], "");
    let sources = strings(&lists["sources"]["allow-registry"], "");
    let mut wrong = Vec::new();
    for package in packages() {
        let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        let (name, licence, source) = (text("name"), text("license"), text("source"));
        if !holds(&licence, &allowed) {
            wrong.push(format!("{name}: licence `{licence}`"));
        }
        let own = source.is_empty() && name.starts_with("weldbow");
        if !own && source.strip_prefix("registry+").is_none_or(|index| !sources.contains(index)) {
            wrong.push(format!("{name}: from `{source}`"));
        }
    }
    assert!(wrong.is_empty(), "not in .ci/deny.toml: {wrong:#?}");
}

/// Of all systems: the lock file names them all.
#[test]
fn a_crate_in_two_versions_is_a_known_one() {
    let lock: toml::Table = std::fs::read_to_string(root().join("Cargo.lock")).unwrap().parse().unwrap();
    let known = strings(&lists()["bans"]["skip"], "name");
    let mut versions: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for package in lock["package"].as_array().unwrap() {
        let text = |key: &str| package[key].as_str().unwrap();
        versions.entry(text("name")).or_default().push(text("version"));
    }
    versions.retain(|_, all| all.len() > 1);
    let new: Vec<_> = versions.iter().filter(|(name, _)| !known.contains(**name)).collect();
    assert!(new.is_empty(), "twice or more, and not in .ci/deny.toml: {new:?}");
    let gone: Vec<_> = known.iter().filter(|name| !versions.contains_key(name.as_str())).collect();
    assert!(gone.is_empty(), "no longer twice, take it out of .ci/deny.toml: {gone:?}");
}

/// It must be able to refuse.
#[test]
fn expressions_of_licences_are_understood() {
    let allowed: BTreeSet<String> = ["MIT", "Unicode-3.0"].map(str::to_owned).into();
    for (expression, held) in [
        ("MIT", true),
        ("GPL-3.0-only", false),
        ("MIT OR GPL-3.0-only", true),
        ("MIT/Apache-2.0", true),
        ("MIT AND GPL-3.0-only", false),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", true),
        ("(GPL-2.0-only OR Apache-2.0) AND Unicode-3.0", false),
        ("MIT WITH some-exception OR GPL-3.0-only", true),
        ("", false),
    ] {
        assert_eq!(holds(expression, &allowed), held, "{expression}");
    }
}
