//! The laws of cup, tilt and narrowing against joints with a moving arc in three dimensions, class by class, and three of them by
//! section, table and law side by side: `cargo test --test published moving_arc -- --nocapture`. Nothing in it is measured.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use std::path::Path;
use weldbow::angular::both_sides::{Angles, Fillet, JointFillets, WebFoot, angles, narrowing_together_mm};
use weldbow::angular::hold::{Hold, PRESSED};
use weldbow::joint_solver::{Joint, Root};
use weldbow::member::Seam;
use weldbow::shrinkage::tendon::heat_parameter;
use weldbow::shrinkage::transverse::flange_narrowing_mm;
use weldbow::verification::{Bead, Case, Layer, Meshing, Options, referee};
use weldbow::welding::{Side, Wait, fillet::deposit_mm2};

/// Cup of a joint of that length over that of one 600 mm long, as in `moving_arc.py`.
const SHORT: [(f64, f64); 5] = [(200.0, 0.901), (248.0, 0.935), (300.0, 0.957), (400.0, 0.986), (600.0, 1.0)];

struct Row {
    words: Vec<String>,
    numbers: Vec<f64>,
}

/// Columns in the order of the table.
impl Row {
    fn laid(&self) -> &str {
        &self.words[0]
    }
    fn foot(&self) -> &str {
        &self.words[7]
    }
    fn tacked(&self) -> bool {
        self.words[8] != "none"
    }
    fn change(&self) -> &str {
        &self.words[10]
    }
    fn fitted(&self) -> bool {
        self.words[11] == "yes"
    }
    fn heat(&self) -> f64 {
        self.numbers[1]
    }
    fn flange(&self) -> f64 {
        self.numbers[4]
    }
    fn web(&self) -> f64 {
        self.numbers[5]
    }
    fn leg(&self) -> f64 {
        self.numbers[6]
    }
    fn cup(&self) -> f64 {
        self.numbers[12] / SHORT.iter().find(|s| s.0 >= self.numbers[3]).unwrap().1
    }
    fn tilt(&self) -> f64 {
        self.numbers[13]
    }
    fn narrowing(&self) -> f64 {
        self.numbers[14]
    }

    fn joint(&self) -> JointFillets {
        let one = Fillet {
            heat_j_per_mm: self.heat(),
            q_j_per_mm3: heat_parameter(self.heat(), self.flange(), self.web()),
            leg_mm: self.leg(),
            welded_fraction: 1.0,
        };
        let far = (self.laid() != "one side").then_some(one);
        let lag = if self.laid() == "both at once" { 0.0 } else { f64::INFINITY };
        JointFillets { near: Some(one), far, near_first: true, lag }
    }

    /// By the laws, free: cup and tilt in mrad.
    fn law(&self) -> Angles {
        let foot = WebFoot { thickness_mm: self.web(), gap_mm: 0.0, hold: Hold::NOTHING };
        angles(&self.joint(), &foot).times(1e3, 1e3, [1.0; 2])
    }

    fn law_narrowing(&self) -> f64 {
        let sides = if self.laid() == "one side" { 1.0 } else { 2.0 };
        sides * flange_narrowing_mm(self.heat(), self.flange(), self.leg())
            + narrowing_together_mm(&self.joint(), self.flange())
    }

    fn named(&self) -> String {
        let (f, w, z) = (self.flange(), self.web(), self.leg());
        format!("{f:>2} / {w} / {z}, {:4} J/mm, {}", self.heat(), self.laid())
    }
}

fn table() -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-cases/moving_arc.csv");
    let text = std::fs::read_to_string(path).unwrap();
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    let row = |line: &str| {
        let words: Vec<String> = line.split(',').map(str::to_owned).collect();
        assert_eq!(words.len(), 15, "{line}");
        let numbers = words.iter().map(|w| w.parse().unwrap_or(f64::NAN)).collect();
        Row { words, numbers }
    };
    lines.map(row).collect()
}

/// Prints law over table by joint; returns rms and largest of the difference, %.
fn spread(what: &str, rows: &[&Row], pair: impl Fn(&Row) -> (f64, f64)) -> (f64, f64) {
    let mut offs = Vec::new();
    for row in rows {
        let (table, law) = pair(row);
        offs.push(100.0 * (law / table - 1.0));
        println!("  {}: {what} {table:.3}, law {law:.3}, {:+.0} %", row.named(), offs[offs.len() - 1]);
    }
    let rms = (offs.iter().map(|o| o * o).sum::<f64>() / offs.len() as f64).sqrt();
    let worst = offs.iter().fold(0.0, |most: f64, o| most.max(o.abs()));
    println!("{what}: {} joints, rms {rms:.1} %, worst {worst:.0} %", rows.len());
    (rms, worst)
}

/// What the fit left open when it was made (`moving_arc.py`): 4.8 and 11 %, 7.1 and 14, 12.1 and 25; rounded constants add a half.
#[test]
fn one_side_alone_is_as_near_to_the_laws_as_their_fit_left_it() {
    let all = table();
    let fitted: Vec<&Row> = all.iter().filter(|r| r.fitted()).collect();
    assert_eq!(fitted.len(), 19);
    let cup = spread("cup, mrad", &fitted, |r| (r.cup(), r.law().cup_rad));
    let tilt = spread("free tilt, mrad", &fitted, |r| (r.tilt(), r.law().tilt_rad));
    let narrows = spread("narrowing, mm", &fitted, |r| (r.narrowing(), r.law_narrowing()));
    assert!(cup.0 < 5.3 && cup.1 < 11.5, "{cup:?}");
    assert!(tilt.0 < 7.6 && tilt.1 < 15.0, "{tilt:?}");
    assert!(narrows.0 < 12.6 && narrows.1 < 26.0, "{narrows:?}");
}

/// None of these was fitted to: both at once as one pass of both heats, in turn added up.
#[test]
fn both_sides_follow_from_the_laws_of_one() {
    let all = table();
    let of = |laid: &str| all.iter().filter(|r| r.laid() == laid).collect::<Vec<_>>();
    let at_once = spread("cup, mrad", &of("both at once"), |r| (r.cup(), r.law().cup_rad));
    let in_turn = spread("cup, mrad", &of("both in turn"), |r| (r.cup(), r.law().cup_rad));
    let narrows: Vec<&Row> = all.iter().filter(|r| r.laid() != "one side").collect();
    let narrows = spread("narrowing, mm", &narrows, |r| (r.narrowing(), r.law_narrowing()));
    // the bias of a cup is 30 %; the table's own length and mesh are worth 5
    assert!(at_once.1 < 10.0 && in_turn.1 < 10.0, "{at_once:?} {in_turn:?}");
    // 40 % are stated for shrinkage across a weld
    assert!(narrows.1 < 45.0, "{narrows:?}");
    for row in of("both in turn").into_iter().filter(|r| r.foot() == "one piece") {
        let law = row.law();
        println!(
            "left of the tilt: table {:.1}, law {:.1} ± {:.1} mrad",
            row.tilt(),
            law.tilt_rad,
            law.tilt_sigma_rad
        );
        assert!((row.tilt() - law.tilt_rad).abs() < law.tilt_sigma_rad);
    }
}

/// Tacks take off less than a sixth; held square until cold a third to a half; the parts of `Hold` are means of these.
#[test]
fn tacks_and_holding_square_take_off_what_their_parts_say() {
    let all = table();
    let one = |is: &dyn Fn(&Row) -> bool, heat: f64| {
        let found = all.iter().find(|r| r.laid() == "one side" && (r.heat() - heat).abs() < 1e-9 && is(r));
        found.map(Row::tilt).unwrap()
    };
    let plain = |r: &Row| {
        r.foot() == "one piece"
            && r.change() == "none"
            && (r.flange(), r.web(), r.leg()) == (10.0, 6.0, 6.0)
            && r.numbers[3] > 350.0
            && (r.numbers[2] - 12.0).abs() < 1e-9
    };
    let (mut square, mut tacks) = (0.0, 0.0);
    for heat in [600.0, 1000.0] {
        let free = one(&plain, heat);
        square += 0.5 * one(&|r| r.change() == "held square until cold", heat) / free;
        tacks += 0.5 * one(&|r| r.tacked() && r.foot() == "apart", heat) / free;
    }
    let part = |hold: Hold| hold.tilt_part() / PRESSED;
    println!(
        "held square {square:.2}, {:.2} taken; tacked {tacks:.2}, {:.2} taken",
        part(Hold::HELD_SQUARE),
        part(Hold::TACKED_ALONG)
    );
    assert!(
        (square - part(Hold::HELD_SQUARE)).abs() < 0.03 && (tacks - part(Hold::TACKED_ALONG)).abs() < 0.04
    );
}

/// The default band of a one-sided tilt holds 0.6 of the free value of every joint in the table.
#[test]
fn the_band_of_the_default_tilt_holds_six_tenths_of_every_free_value() {
    for row in table().iter().filter(|r| r.fitted()) {
        let foot = WebFoot { thickness_mm: row.web(), gap_mm: 0.0, hold: Hold::LINE };
        let law = angles(&row.joint(), &foot).times(1e3, 1e3, [1.0; 2]);
        let off = (0.6 * row.tilt() - law.tilt_rad) / law.tilt_sigma_rad;
        assert!(
            off.abs() < 1.0,
            "{}: {:.1} ± {:.1}, {off:+.1} σ",
            row.named(),
            law.tilt_rad,
            law.tilt_sigma_rad
        );
    }
}

/// A section held until the weld is solid gives the cup within a quarter (its mean within 15 %) and a lower estimate of the tilt.
#[test]
fn three_joints_by_section_by_moving_arc_and_by_law() {
    let all = table();
    let options = Options { meshing: Meshing::Coarse, quick: true, times_s: vec![], ..Options::default() };
    let mut ratio = 0.0;
    println!(
        "flange / web / leg | cup: section, moving arc, law | tilt: section, moving arc, free law, mrad"
    );
    for (flange, heat) in [(6.0, 600.0), (10.0, 1000.0), (16.0, 1000.0)] {
        let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let is =
            |r: &&Row| r.fitted() && same(r.web(), 6.0) && same(r.flange(), flange) && same(r.heat(), heat);
        let row = all.iter().find(is).unwrap();
        let solved = referee(&case(row), &options).unwrap();
        let section = &solved.result.passes[0].section;
        let (cup, tilt) = (1e3 * section.cup_rad.unwrap(), 1e3 * section.tilt_rad.unwrap());
        let law = row.law();
        println!(
            "{} | {cup:.1}, {:.1}, {:.1} | {tilt:.1}, {:.1}, {:.1}",
            row.named(),
            row.cup(),
            law.cup_rad,
            row.tilt(),
            law.tilt_rad
        );
        ratio += cup / row.cup() / 3.0;
        assert!((cup / row.cup() - 1.0).abs() < 0.25, "{}: {cup}", row.named());
        assert!(tilt < 1.05 * row.tilt(), "{}: {tilt}", row.named());
    }
    println!("cup of the section over that of the moving arc, mean {ratio:.2}");
    assert!((ratio - 1.0).abs() < 0.15, "{ratio}");
}

fn case(row: &Row) -> Case {
    let bead = Bead {
        side: Side::Near,
        leg_mm: row.leg(),
        heat_j_per_mm: row.heat(),
        deposit_mm2: deposit_mm2(row.leg(), 0.0),
        travel_speed_mm_s: row.numbers[2],
    };
    Case {
        seam: Seam::Inner,
        x_mm: 0.0,
        joint: Joint {
            flange_width_mm: 180.0,
            flange_mm: row.flange(),
            web_mm: row.web(),
            web_stub_mm: 200.0,
            near_leg_mm: Some(row.leg()),
            far_leg_mm: None,
            root: Root::Tied,
        },
        layers: vec![Layer { order: 1, wait: Wait::Cold, beads: vec![bead] }],
        yield_mpa: 355.0,
        start_c: 20.0,
        cautions: vec![],
    }
}
