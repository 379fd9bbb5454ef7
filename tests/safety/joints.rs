//! Joints that cannot be are refused when the job is checked, so at every level alike.

use super::{changed, desk, says};

/// What the job is changed to, and what is said of it.
const REFUSED: [(&[(&str, &str)], &str); 4] = [
    (
        &[
            ("width = \"180 mm\"", "width = \"20 mm\""),
            ("thickness = \"5 mm\" }]", "thickness = \"30 mm\" }]"),
        ],
        "20 mm on a web 30 mm thick",
    ),
    (
        &[("width = \"180 mm\", thickness = \"8 mm\"", "width = \"20 mm\", thickness = \"180 mm\"")],
        "20 mm wide and 180 mm thick",
    ),
    (
        &[("width = \"180 mm\"", "width = \"30 mm\""), ("leg = \"6 mm\"", "leg = \"15 mm\"")],
        "of flange stand beside the web",
    ),
    (&[("leg = \"6 mm\"", "leg = \"24 mm\"")], "a leg of 24 mm on a plate of 5 mm"),
];

#[test]
fn no_level_takes_a_joint_that_cannot_be() {
    for (changes, said) in REFUSED {
        let folder = desk();
        let text = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
        for (from, to) in changes {
            if text.contains(from) {
                changed(folder.path(), "rafter.toml", from, to);
            }
        }
        for arguments in [
            &["check"][..],
            &["predict"],
            &["predict", "--level", "strip"],
            &["section"],
            &["straighten"],
            &["scatter"],
            &["choose"],
        ] {
            says(folder.path(), &[arguments, &["rafter.toml"]].concat(), 1, &[said]);
        }
    }
}

/// The warning is about a plate of the member, not about the width of one and the thickness of another.
#[test]
fn a_warning_names_a_plate_that_is_there() {
    use weldbow::job::{STARTER, read_text};
    let text = STARTER.to_owned();
    let mut job = read_text("starter", &text).unwrap();
    job.member.outer_flange[0].width_mm = 700.0;
    job.member.inner_flange[0].thickness_mm = 60.0;
    let (wide, thick) = (job.member.outer_flange[0], job.member.inner_flange[0]);
    let warnings = weldbow::prediction::job_warnings(&job);
    let line = warnings.iter().find(|w| w.text.to_string().starts_with("flange ")).unwrap();
    let of = |width: f64, thickness: f64| format!("flange {width:.0} mm × {thickness:.0} mm");
    let one = [of(wide.width_mm, wide.thickness_mm), of(thick.width_mm, thick.thickness_mm)];
    println!("{}; one of {one:?} is wanted", line.text);
    assert!(one.iter().any(|plate| line.text.to_string().starts_with(plate.as_str())), "{}", line.text);
}

#[test]
fn an_option_with_a_wrong_value_is_a_wrong_command_line() {
    let folder = desk();
    for arguments in [
        &["choose", "rafter.toml", "--step", "0 mm"][..],
        &["choose", "rafter.toml", "--confidence", "2"],
        &["choose", "rafter.toml", "--largest-leg", "1e300 m"],
        &["section", "rafter.toml", "--at", "10m", "--quick"],
        &["section", "rafter.toml", "--every", "10mm"],
        &["study", "rafter.toml", "--shard", "0/3", "--out", "x"],
    ] {
        says(folder.path(), arguments, 2, &[]);
    }
    says(
        folder.path(),
        &["section", "rafter.toml", "--every", "10mm"],
        2,
        &["899 places", "a step of 18mm or more"],
    );
}

/// 30 mm in 630 mm are welded; 12 times the web of 5 mm are 60 mm.
#[test]
fn open_stretches_and_stitches_are_shown() {
    let folder = desk();
    let pass = "seam = \"outer\"\nside = \"near\"\n";
    let stitched = format!("{pass}to = \"4 m\"\nintermittent = \"30 mm weld, 600 mm gap\"\n");
    changed(folder.path(), "rafter.toml", pass, &stitched);
    let said = [
        "weld / gap",
        "30 mm / 600 mm",
        "outer seam: nothing welded from 4.00 m to 9.00 m",
        "gaps of 600 mm between stitches, 60 mm are the longest on a plate of 5 mm",
    ];
    says(folder.path(), &["check", "rafter.toml"], 0, &said);
    says(folder.path(), &["predict", "--methods", "rafter.toml"], 0, &said);
    says(folder.path(), &["predict", "rafter.toml"], 0, &said[2..]);
}
