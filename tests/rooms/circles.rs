//! Circles of use: no two files of a crate use each other, directly or by way of others.
//!
//! A path is followed through every `pub use` to the file that holds what it names, so that a `mod.rs` that only hands names on
//! stands in no circle.

use super::{Source, all_used};
use crate::uses::{Used, uses};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::Path;

#[test]
fn no_files_use_each_other_in_a_circle() {
    let mut crates: BTreeMap<String, Vec<&Source>> = BTreeMap::new();
    for source in all_used() {
        crates.entry(source.krate.clone()).or_default().push(source);
    }
    let mut found = Vec::new();
    for (name, files) in &crates {
        let files: Vec<(Vec<String>, Vec<Used>)> =
            files.iter().map(|s| (module(s), s.used().to_vec())).collect();
        found.extend(circles(&files).into_iter().map(|c| format!("{name}: {c}")));
    }
    assert!(found.is_empty(), "{} circles:\n{}", found.len(), found.join("\n"));
}

#[test]
fn planted_circles_are_found_and_straight_lines_are_none() {
    let house = |files: &[(&str, &str)]| {
        let read = |(path, text): &(&str, &str)| {
            let names = path.split("::").filter(|n| !n.is_empty()).map(str::to_owned).collect();
            (names, uses(text).unwrap())
        };
        circles(&files.iter().map(read).collect::<Vec<_>>())
    };
    let direct = [("a", "use crate::b::B;\npub struct A;"), ("b", "use super::a::A;\npub struct B;")];
    let by_a_third =
        [("a", "use crate::b::B;"), ("b", "fn f() { super::c::g() }"), ("c", "use crate::{a::A};")];
    let handed_on = [
        ("r", "pub use self::a::A;\nmod a;\nmod b;"),
        ("r::a", "use super::b;\npub struct A;"),
        ("r::b", "fn f() { let _ = vec![super::A]; }"),
    ];
    let with_the_parent = [("r", "mod a;\npub struct R;\nfn f() { a::g() }"), ("r::a", "use super::R;")];
    for planted in [&direct[..], &by_a_third, &handed_on, &with_the_parent] {
        assert_eq!(house(planted).len(), 1, "{planted:?}");
    }
    let straight = [
        ("r", "pub use a::A;\nmod a;\nmod b;"),
        ("r::a", "pub struct A;"),
        ("r::b", "use super::A;"),
        ("s", "use crate::r::A;\n#[cfg(test)]\nmod tests { use crate::t::T; }"),
        ("t", "use crate::s::S;"),
    ];
    assert_eq!(house(&straight), Vec::<String>::new());
}

/// The names of a file's module, from the root of its crate.
fn module(source: &Source) -> Vec<String> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut names: Vec<String> = source
        .path
        .strip_prefix(&src)
        .unwrap()
        .with_extension("")
        .iter()
        .map(|n| n.to_string_lossy().into_owned())
        .collect();
    names.retain(|n| n != "mod" && n != "lib" && n != "main");
    // the command line is a room of the root package
    names.split_off(usize::from(source.krate != "cli"))
}

/// One line for each group of files that stand in circles: its files, and the shortest circle with the lines where it is used.
fn circles(files: &[(Vec<String>, Vec<Used>)]) -> Vec<String> {
    let house = House::of(files);
    let arrows: Vec<BTreeMap<usize, usize>> = (0..files.len()).map(|f| house.arrows(f)).collect();
    let mut seen = BTreeSet::new();
    let mut found = Vec::new();
    for start in 0..files.len() {
        if seen.contains(&start) {
            continue;
        }
        let Some(way) = way_back(&arrows, start) else { continue };
        let group: Vec<usize> =
            (0..files.len()).filter(|&f| reaches(&arrows, start, f) && reaches(&arrows, f, start)).collect();
        seen.extend(group.iter().copied());
        let names = |f: &usize| files[*f].0.join("::");
        let steps: Vec<String> = way
            .windows(2)
            .map(|pair| format!("{}:{} -> {}", names(&pair[0]), arrows[pair[0]][&pair[1]], names(&pair[1])))
            .collect();
        found.push(format!(
            "{{{}}} by {}",
            group.iter().map(names).collect::<Vec<_>>().join(", "),
            steps.join(", ")
        ));
    }
    found
}

/// The shortest way from a file to itself.
fn way_back(arrows: &[BTreeMap<usize, usize>], start: usize) -> Option<Vec<usize>> {
    let mut from: BTreeMap<usize, usize> = BTreeMap::new();
    let mut next = VecDeque::from([start]);
    while let Some(here) = next.pop_front() {
        for &to in arrows[here].keys() {
            if to == start {
                let mut way = vec![start, here];
                while way[way.len() - 1] != start {
                    way.push(from[&way[way.len() - 1]]);
                }
                way.reverse();
                return Some(way);
            }
            if let std::collections::btree_map::Entry::Vacant(new) = from.entry(to) {
                new.insert(here);
                next.push_back(to);
            }
        }
    }
    None
}

fn reaches(arrows: &[BTreeMap<usize, usize>], from: usize, to: usize) -> bool {
    let (mut seen, mut next) = (BTreeSet::from([from]), vec![from]);
    while let Some(here) = next.pop() {
        if here == to {
            return true;
        }
        next.extend(arrows[here].keys().copied().filter(|&f| seen.insert(f)));
    }
    false
}

/// The modules of a crate and the names they hand on.
struct House<'a> {
    files: &'a [(Vec<String>, Vec<Used>)],
    modules: BTreeMap<&'a [String], usize>,
}

impl<'a> House<'a> {
    fn of(files: &'a [(Vec<String>, Vec<Used>)]) -> Self {
        let modules = files.iter().enumerate().map(|(i, (names, _))| (names.as_slice(), i)).collect();
        House { files, modules }
    }

    /// The files that a file uses, each with the first line that does.
    fn arrows(&self, file: usize) -> BTreeMap<usize, usize> {
        let mut arrows = BTreeMap::new();
        for used in self.files[file].1.iter().filter(|u| u.handed_on.is_none()) {
            if let Some(to) = self.holder(file, &used.names, 8).filter(|&to| to != file) {
                arrows.entry(to).or_insert(used.line);
            }
        }
        arrows
    }

    /// The file that holds what a path in a file names; none if that is outside of the crate. `deep` bounds what is followed.
    fn holder(&self, file: usize, names: &[String], deep: usize) -> Option<usize> {
        let here = &self.files[file].0;
        let (mut at, mut rest) = match names.first()?.as_str() {
            "crate" => (Vec::new(), &names[1..]),
            "self" => (here.clone(), &names[1..]),
            "super" => {
                let up = names.iter().take_while(|n| *n == "super").count();
                (here[..here.len().checked_sub(up)?].to_vec(), &names[up..])
            }
            // a child or a name of this very module
            _ => (here.clone(), names),
        };
        let absolute = rest.len() < names.len();
        while let Some(name) = rest.first() {
            let child: Vec<String> = at.iter().chain([name]).cloned().collect();
            if !self.modules.contains_key(child.as_slice()) {
                break;
            }
            (at, rest) = (child, &rest[1..]);
        }
        let at = self.modules.get(at.as_slice()).copied();
        let Some(name) = rest.first() else { return at };
        let at = at?;
        let handed_on = self.handed_on(at, name, rest, deep);
        // what no module of ours holds or hands on is a name of this file or of another crate
        handed_on.or((absolute || at != file).then_some(at))
    }

    /// The file that holds a name which a module hands on.
    fn handed_on(&self, module: usize, name: &str, rest: &[String], deep: usize) -> Option<usize> {
        let deeper = deep.checked_sub(1)?;
        let uses = &self.files[module].1;
        if let Some(used) = uses.iter().find(|u| u.handed_on.as_deref() == Some(name)) {
            let names: Vec<String> = used.names.iter().chain(&rest[1..]).cloned().collect();
            return self.holder(module, &names, deeper);
        }
        None
    }
}
