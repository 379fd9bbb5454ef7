//! The drawn gallery and the charts of the course in `plots/` are what the program draws today; those of the constants are held by
//! `tests/laws/constants.rs`, which solves their studies.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

#[path = "support/gallery.rs"]
mod gallery;
#[path = "support/studies.rs"]
mod studies;

use gallery::{alike, hold};
use std::fs::{read_dir, read_to_string};
use std::path::PathBuf;
use weldbow::chart::{
    Picture, choice_pictures, joint_pictures, order_pictures, pictures, signs, straightening_pictures,
};
use weldbow::choose::{Choosing, Constraints, SearchSpace, choose, needs, ways, window};
use weldbow::job::{check, file_of_text, read_path};
use weldbow::member::Seam;
use weldbow::order::{DRAWS, Line, OrderResult, WorkOrder, list, run};
use weldbow::prediction::predict;
use weldbow::shop::{measured, read_path as read_shop};
use weldbow::straighten::piece::Fabrication;
use weldbow::units::System;
use weldbow::verification::{Case, Meshing, Options, verify};

/// Jobs with the pictures of theirs that are kept.
const KEPT: [(&str, &[&str]); 5] = [
    (
        "rafter",
        &["elevation", "bow", "section", "build-up", "methods-camber", "methods-shortening", "methods-sweep"],
    ),
    ("column", &["elevation", "section", "build-up"]),
    ("us_frame", &["elevation", "bow"]),
    ("haunch", &["elevation", "section"]),
    ("light", &["elevation"]),
];
/// Redraws the gallery instead, if `UPDATE_PLOTS` is set; look at every picture before committing it.
#[test]
fn the_gallery_is_what_the_program_draws() {
    hold(kept());
}

/// As [`the_gallery_is_what_the_program_draws`]: the joint of the column at 2 m, on the mesh for teaching.
#[test]
fn the_joint_is_what_the_program_draws() {
    let file = root().join("studies/jobs/column.toml");
    let job = read_path(&file).unwrap_or_else(|c| panic!("{c}"));
    let times_s = vec![1.0, 5.0, 20.0, 100.0];
    let options = Options { meshing: Meshing::Coarse, quick: true, times_s, ..Options::default() };
    let case = Case::of(&job, 2000.0, Seam::Inner, &options).unwrap();
    let solved = verify(&case, &options).unwrap();
    let drawn = joint_pictures(&job, &solved.result, &solved.outcome, job.units).unwrap();
    hold(drawn.into_iter().map(|p| (format!("column-joint-{}", p.name), p)));
}

/// As [`the_gallery_is_what_the_program_draws`]: plans for the measured rafter, and for a beam that is pushed on a flange.
#[test]
fn the_plans_are_what_the_program_draws() {
    hold(plans());
}

/// As [`the_gallery_is_what_the_program_draws`].
#[test]
fn the_course_is_what_the_program_draws() {
    hold(studies::stems().iter().flat_map(|stem| studies::pictures(stem)).map(|p| (p.name.clone(), p)));
}

/// As [`the_gallery_is_what_the_program_draws`].
#[test]
fn the_order_is_what_the_program_draws() {
    hold(order_pictures(&demo_order()).unwrap().into_iter().map(|p| (p.name.clone(), p)));
}

/// As [`the_gallery_is_what_the_program_draws`].
#[test]
fn the_choice_is_what_the_program_draws() {
    let text = read_to_string(root().join("studies/jobs/rafter.toml")).unwrap();
    let file = file_of_text("rafter.toml", &text).unwrap();
    let job = check(&file).unwrap();
    let book = read_shop(&root().join("studies/shop/shop.toml")).unwrap().welding.unwrap();
    let wishes = Constraints::usual(job.units);
    let choice = choose(&Choosing { job: &job, file: &file, book: &book, wishes: &wishes }).unwrap();
    let needed = needs(&job, job.carries.as_ref().unwrap(), &wishes);
    let ways = ways(&book.line, &needed.stretches, &wishes);
    let ground = SearchSpace { job: &job, book: &book, stretches: &needed.stretches, wishes: &wishes, ways };
    let window = window(&ground, choice.options[1].candidate.as_ref().unwrap(), 0, job.units);
    let drawn = choice_pictures(&choice, window.as_ref(), job.units).unwrap();
    hold(drawn.into_iter().map(|p| (format!("rafter-{}", p.name), p)));
}

/// The demo order of the riding arena in its shop.
fn demo_order() -> OrderResult {
    let folder = root().join("studies/shop");
    let text = |path: PathBuf| read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let entries = list::read(&text(folder.join("order.csv"))).unwrap();
    let line = |e: list::Entry| Line {
        file: file_of_text(&e.job, &text(folder.join(&e.job))).unwrap(),
        path: e.job,
        mark: e.mark,
        quantity: e.quantity,
        week: e.week,
        family: e.family,
    };
    let lines: Vec<Line> = entries.into_iter().map(line).collect();
    let order = WorkOrder {
        lines: &lines,
        weeks: None,
        draws: DRAWS,
        making: Fabrication::default(),
        shop: &read_shop(&folder.join("shop.toml")).unwrap(),
        capacity_h: Some(8.0),
        heat_capacity_h: Some(16.0),
        system: System::Si,
        verdicts: false,
    };
    run(&order, |_| ()).unwrap()
}

/// A chart that no study draws any more is not kept.
#[test]
fn every_kept_chart_of_the_course_belongs_to_a_study() {
    let stems = studies::stems();
    for entry in read_dir(root().join("plots")).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let owned =
            !name.starts_with(|c: char| c.is_ascii_digit()) || stems.iter().any(|s| name.starts_with(s));
        assert!(owned, "{name} in plots belongs to no study");
    }
}

/// `plots/README.md` shows each of its pictures under the title of its study, names no picture that is not there, and leaves none
/// unexplained.
#[test]
fn the_gallery_says_what_is_there() {
    let folder = root().join("plots");
    let said = read_to_string(folder.join("README.md")).unwrap();
    let mut wrong = Vec::new();
    for (n, stem) in studies::stems().iter().enumerate() {
        let title = studies::study(stem).title;
        if !said.contains(&format!("\n### {}. {title}\n", n + 1)) {
            wrong.push(format!("no section \"{}. {title}\"", n + 1));
        }
    }
    for link in said.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
        if link.ends_with(".png") && !folder.join(link).is_file() {
            wrong.push(format!("{link} is shown and not there"));
        }
    }
    let named: Vec<&str> = said.split('`').skip(1).step_by(2).collect();
    for entry in read_dir(&folder).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let Some(stem) = name.strip_suffix(".png") else { continue };
        // `stem`, `*-end` or `*-middle-*`
        let fits = |word: &&str| match (word.strip_prefix('*'), word.strip_suffix('*')) {
            (Some(end), None) => end.len() > 1 && stem.ends_with(end),
            (Some(_), Some(_)) => word.len() > 3 && stem.contains(word.trim_matches('*')),
            _ => *word == stem,
        };
        let told = said.contains(&format!("({name})")) || named.iter().any(fits);
        if !told {
            wrong.push(format!("{name} is there and not told of"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A word cut with "…" is one that the reader of a picture has lost: titles of our own fit.
#[test]
fn no_word_of_a_kept_picture_is_cut() {
    for entry in read_dir(root().join("plots")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "svg") {
            let text = read_to_string(&path).unwrap();
            assert_eq!(text.lines().find(|line| line.contains("…</text>")), None, "{}", path.display());
        }
    }
}

#[test]
fn a_moved_line_and_a_changed_label_are_seen() {
    let kept = r#"<line x1="10" y1="20"/><text>7.1 mm</text>"#;
    assert!(alike(kept, kept));
    assert!(alike(kept, &kept.replace("20", "21")), "a rounding apart");
    assert!(!alike(kept, &kept.replace("20", "30")));
    assert!(!alike(kept, &kept.replace("7.1", "7.2")));
}

fn kept() -> Vec<(String, Picture)> {
    let mut all = vec![("signs".to_owned(), signs().unwrap())];
    for (stem, kept) in KEPT {
        let job = read_path(&root().join("studies/jobs").join(format!("{stem}.toml")))
            .unwrap_or_else(|c| panic!("{c}"));
        let drawn = pictures(&job, &predict(&job), job.units).unwrap();
        assert!(
            kept.iter().all(|name| drawn.iter().any(|p| p.name == *name)),
            "{stem}: a kept picture is not drawn"
        );
        let wanted = drawn.into_iter().filter(|p| kept.contains(&p.name.as_str()));
        all.extend(wanted.map(|p| (format!("{stem}-{}", p.name), p)));
    }
    all
}

fn plans() -> Vec<(String, Picture)> {
    let rafter = read_to_string(root().join("studies/shop/measured-rafter.csv")).unwrap();
    let arc = (0..=10).map(|i| {
        let s = f64::from(i) / 10.0;
        format!("{}, {:.2}\n", 12.0 * s, 4.0 * 26.0 * s * (1.0 - s))
    });
    let beam: String = std::iter::once("x [m], camber [mm]\n".to_owned()).chain(arc).collect();
    let kept = [
        (
            "rafter",
            rafter,
            &["straighten-shape", "straighten-bending", "straighten-stroke", "straighten-rule"][..],
        ),
        ("gallery_beam", beam, &["straighten-shape", "straighten-pads"][..]),
    ];
    let shop = read_shop(&root().join("studies/shop/shop.toml")).unwrap_or_else(|c| panic!("{c}"));
    let mut all = Vec::new();
    for (stem, readings, names) in kept {
        let job = read_path(&root().join("studies/jobs").join(format!("{stem}.toml")))
            .unwrap_or_else(|c| panic!("{c}"));
        let measured = measured::read_text(stem, &readings).unwrap_or_else(|c| panic!("{c}"));
        let piece = measured.piece(&job, &predict(&job), &shop).unwrap();
        let drawn = straightening_pictures(&job, &piece, &piece.plan(&job.member), job.units).unwrap();
        for name in names {
            let picture =
                drawn.iter().find(|p| p.name == *name).unwrap_or_else(|| panic!("{stem}: no {name}"));
            all.push((format!("{stem}-{name}"), picture.clone()));
        }
    }
    all
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}
