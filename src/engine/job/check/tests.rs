//! What a sound job becomes.

use crate::job::{STARTER, read_text};
use crate::member::{Parts, Preparation, Seam};
use crate::prediction::{Field, Job, WarningCode};
use crate::tolerance::Set;
use crate::welding::{HeatSource, Side, Wait, fillet};

fn job(changes: &[(&str, &str)], more: &str) -> Job {
    let text = changes.iter().fold(STARTER.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from} is not in the starter");
        text.replace(from, to)
    });
    read_text("changed.toml", &(text + more)).unwrap_or_else(|complaint| panic!("{complaint}"))
}

fn codes(job: &Job) -> Vec<WarningCode> {
    job.notes.iter().map(|note| note.code).collect()
}

const LEG: &str = "leg = \"6 mm\"\n";
const PROCEDURE: &str = "procedure = \"twin-6\"\n";

#[test]
fn heat_of_a_pass_is_that_of_its_procedure() {
    let pass = &job(&[], "").passes[0];
    let expected = 0.9 * 620.0 * 30.0 * 60.0 / 1000.0;
    assert!((pass.heat_j_per_mm - expected).abs() < 1e-9, "{} J/mm, expected {expected}", pass.heat_j_per_mm);
    assert_eq!(pass.heat_source, HeatSource::Procedure);
}

#[test]
fn a_leg_alone_takes_its_heat_from_the_leg_rule_and_says_so_once() {
    let job = job(&[(PROCEDURE, "")], "");
    let expected = 0.9 * fillet::leg_rule_gross_heat_j_per_mm(6.0);
    let got = job.passes[1].heat_j_per_mm;
    assert!((got - expected).abs() < 1e-9, "{got} J/mm, expected {expected}");
    assert_eq!(codes(&job), [WarningCode::HeatFromLeg]);
    assert!(job.notes[0].text.to_string().contains("passes 1, 2"), "{}", job.notes[0].text);
}

/// Drawn pieces set legs and the factor anew.
#[test]
fn a_leg_set_to_what_it_is_leaves_the_heat_of_every_run() {
    let whole = job(&[(PROCEDURE, ""), (LEG, "leg = \"9 mm\"\nruns = 3\n")], "");
    let heats = |job: &Job| job.passes.iter().map(|p| p.heat_j_per_mm).collect::<Vec<_>>();
    assert_eq!(whole.passes.len(), 6);
    for (i, pass) in whole.passes.iter().enumerate() {
        let (mut by_leg, mut by_factor) = (whole.clone(), whole.clone());
        Field::Leg(i).set(&mut by_leg, pass.leg_mm).unwrap();
        Field::HeatFromLeg.set(&mut by_factor, 1.0).unwrap();
        for again in [by_leg, by_factor] {
            println!(
                "run {i} of leg {:.2} mm: {:?} J/mm, again {:?}",
                pass.leg_mm,
                heats(&whole),
                heats(&again)
            );
            let same = heats(&whole).iter().zip(heats(&again)).all(|(a, b)| (a / b - 1.0).abs() < 1e-12);
            assert!(same, "run {i}: {:?} became {:?}", heats(&whole), heats(&again));
        }
    }
}

#[test]
fn a_procedure_alone_takes_its_leg_from_the_deposit() {
    let job = job(&[(LEG, "")], "");
    let leg = job.passes[0].leg_mm;
    assert!((leg - fillet::leg_of_deposit_mm(job.passes[0].deposit_mm2)).abs() < 1e-9);
    assert!((leg - 6.0).abs() < 0.3, "the starter's procedure fills {leg:.2} mm, its passes say 6 mm");
    assert_eq!(codes(&job), []);
}

#[test]
fn a_leg_that_its_deposit_does_not_fill_is_named_with_both_legs_and_heats() {
    let job = job(&[(LEG, "leg = \"8 mm\"\n")], "");
    assert_eq!(codes(&job), [WarningCode::LegHeatMismatch, WarningCode::LegHeatMismatch]);
    let text = job.notes[0].text.to_string();
    for part in ["8 mm", "one of 6 mm", "1.00 kJ/mm", "1.76 kJ/mm"] {
        assert!(text.contains(part), "{part} is not in: {text}");
    }
}

#[test]
fn without_wire_data_the_leg_is_compared_with_its_heat() {
    let wireless = ("wire_diameter = \"1.6 mm\"\n", "");
    assert_eq!(codes(&job(&[wireless], "")), [], "6 mm goes with 1.0 kJ/mm");
    let faster = ("1.0 m/min", "1.6 m/min");
    assert_eq!(
        codes(&job(&[wireless, faster], "")),
        [WarningCode::LegHeatMismatch; 2],
        "6 mm does not go with 0.6"
    );
}

#[test]
fn a_stated_heat_is_taken_as_it_is() {
    let job = job(&[(PROCEDURE, "heat_input = \"1.05 kJ/mm\"\n")], "");
    assert!((job.passes[0].heat_j_per_mm - 1050.0).abs() < 1e-9);
    assert_eq!(job.passes[0].heat_source, HeatSource::Stated);
    assert_eq!(codes(&job), []);
}

#[test]
fn a_gap_asks_for_more_deposit_than_the_leg_shows() {
    let (plain, gap) = (job(&[(PROCEDURE, "")], ""), "steel = \"S355\"\nfit_up_gap = \"2 mm\"");
    let gapped = job(&[(PROCEDURE, ""), ("steel = \"S355\"", gap)], "");
    let (a, b) = (plain.passes[0].deposit_mm2, gapped.passes[0].deposit_mm2);
    assert!((b / a - (8.0_f64 / 6.0).powi(2)).abs() < 1e-9, "{a:.1} mm² and {b:.1} mm²");
}

#[test]
fn ends_that_miss_by_the_rounding_of_inches_are_put_on_the_end() {
    let job = job(&[("length = \"9.0 m\"", "length = \"9000.004 mm\"")], "");
    let end = job.member.depth.points().last().unwrap().0;
    assert!((end - job.member.length_mm).abs() < 1e-12, "{end} and {}", job.member.length_mm);
}

#[test]
fn a_splice_follows_the_thinner_plate_unless_the_job_says_otherwise() {
    let usual = job(&[], "").member.inner_flange[0].splice.unwrap();
    assert_eq!((usual.preparation, usual.gap_mm as u32), (Preparation::SingleV, 2));
    for change in [("\"14 mm\"", "\"8 mm\""), ("\"10 mm\"", "\"8 mm\"")] {
        let thin = job(&[change], "").member.inner_flange[0].splice.unwrap();
        assert_eq!((thin.preparation, thin.gap_mm as u32), (Preparation::Square, 0), "{change:?}");
    }
}

#[test]
fn passes_come_sorted_and_orders_without_an_entry_are_cold_with_all_parts_joined() {
    let far = "[[pass]]\nseam = \"inner\"\nside = \"far\"\nprocedure = \"twin-6\"\norder = 3\n\
               [[pass]]\nseam = \"outer\"\nside = \"far\"\nprocedure = \"twin-6\"\norder = 2\n\
               intermittent = \"200 mm weld, 100 mm gap\"\n[[order]]\nnumber = 2\nwait = \"10 min\"\n";
    let job = job(&[], far);
    let placed: Vec<_> = job.passes.iter().map(|p| (p.order, p.seam, p.side)).collect();
    let (near, far) = (Side::Near, Side::Far);
    let expected =
        [(1, Seam::Outer, near), (1, Seam::Inner, near), (2, Seam::Outer, far), (3, Seam::Inner, far)];
    assert_eq!(placed, expected);
    let fraction = job.passes[2].welded_fraction();
    assert!((fraction - 2.0 / 3.0).abs() < 1e-12, "{fraction}");
    let waits: Vec<_> = job.orders.iter().map(|o| (o.number, o.wait, o.joined == Parts::ALL)).collect();
    assert_eq!(waits, [(1, Wait::Cold, true), (2, Wait::Seconds(600.0), true), (3, Wait::Cold, true)]);
}

#[test]
fn the_usual_tolerances_follow_the_units() {
    let none = ("tolerances = [\"en-1090-2-class-1\"]", "");
    assert_eq!(job(&[none], "").tolerances, [Set::En1090Class1]);
    let us = ("units = \"si\"", "units = \"us\"");
    assert_eq!(job(&[none, us], "").tolerances, [Set::AwsD11, Set::MetalBuilding]);
}

/// A pass takes the number of its procedure unless it has its own, in one clean line; an empty one is asked about.
#[test]
fn the_number_of_a_welding_procedure_goes_with_its_passes() {
    let process = "process = \"submerged-arc\"";
    let numbered = format!("wps = \"W-12\\nrev 3\"\n{process}");
    let own = "seam = \"inner\"\nwps = \"W-13\"\n";
    let numbers = |job: &Job| -> Vec<Option<String>> {
        job.passes.iter().map(|p| p.wps.as_deref().map(str::to_owned)).collect()
    };
    let none = job(&[], "");
    assert_eq!((numbers(&none), none.wps_said()), (vec![None, None], None));
    let all = job(&[(process, &numbered)], "");
    assert_eq!(all.wps_said().as_deref(), Some("W-12 rev 3"), "{:?}", numbers(&all));
    let changes = [(process, numbered.as_str()), ("seam = \"inner\"\n", own)];
    let two = job(&changes, "");
    assert_eq!(two.wps_said().as_deref(), Some("W-12 rev 3 (step 1), W-13 (step 1)"));
    assert_eq!(crate::prediction::predict(&two).passes[1].wps.as_deref(), Some("W-13"));
    let far = "\n[[pass]]\nseam = \"outer\"\nside = \"far\"\nleg = \"5 mm\"\nheat_input = \"0.8 kJ/mm\"\nstep = 2\n";
    let some = job(&[(process, &numbered)], far);
    assert_eq!(some.wps_said().as_deref(), Some("W-12 rev 3 (step 1), none named (step 2)"));
    let empty = STARTER.replace(process, &format!("wps = \" \"\n{process}"));
    let said = read_text("empty.toml", &empty).unwrap_err().to_string();
    assert!(said.contains("an empty number") && said.contains("leave `wps` out"), "{said}");
}

/// Leg and runs are of the whole fillet, the heat is of one run: a mismatch says which leg it means.
#[test]
fn a_mismatch_of_several_runs_speaks_of_each_run() {
    let job = job(&[(LEG, "leg = \"6 mm\"\nruns = 2\n")], "");
    let text = job.notes[0].text.to_string();
    assert_eq!(job.notes[0].code, WarningCode::LegHeatMismatch);
    for part in ["has a leg of 4.2 mm in each of its 2 runs", "one of 6 mm", "correct the leg or the runs"] {
        assert!(text.contains(part), "{part} is not in: {text}");
    }
    let enough = format!("leg = \"{} mm\"\nruns = 2\n", 6.0 * 2.0_f64.sqrt());
    let whole = self::job(&[(LEG, &enough)], "");
    assert_eq!(codes(&whole), [WarningCode::SeveralRuns], "{:?}", whole.notes);
}

/// Beyond 1.6 mm a stated leg is laid larger by the gap, and a procedure that fills 6 mm leaves less of it; up to that a gap asks for
/// nothing.
#[test]
fn a_wide_gap_is_told_with_what_a_leg_means_then() {
    let gap = |mm: f64| format!("steel = \"S355\"\nfit_up_gap = \"{mm} mm\"");
    let with = |mm: f64, more: &[(&str, &str)]| {
        let gap = gap(mm);
        let changes: Vec<(&str, &str)> =
            [("steel = \"S355\"", gap.as_str())].into_iter().chain(more.iter().copied()).collect();
        job(&changes, "")
    };
    let gap_note = |job: &Job| {
        let note = job.notes.iter().find(|note| note.code == WarningCode::GapLarge);
        note.unwrap().text.to_string()
    };
    let said = gap_note(&with(5.0, &[(PROCEDURE, "")]));
    println!("{said}");
    for part in ["gap of 5 mm", "more than 1.6 mm", "AWS D1.1", "knows of no gap"] {
        assert!(said.contains(part), "{part} is not in: {said}");
    }
    assert!(!said.contains("3/16 in"), "{said}");
    let widest = gap_note(&with(8.0, &[]));
    assert!(widest.contains("More than 5 mm (3/16 in) is not allowed without"), "{widest}");
    assert!(codes(&with(1.6, &[])).is_empty(), "{:?}", codes(&with(1.6, &[])));
    assert_eq!(codes(&with(3.0, &[(LEG, "")])), [WarningCode::GapLarge]);
}

/// An example that would be the next thing wrong helps nobody.
#[test]
fn an_example_does_what_is_wanted_or_is_left_out() {
    let said = |changes: &[(&str, &str)]| {
        let text = changes.iter().fold(STARTER.to_owned(), |text, (from, to)| {
            assert!(text.contains(from), "{from} is not in the starter");
            text.replace(from, to)
        });
        read_text("changed.toml", &text).unwrap_err()
    };
    let drowned = said(&[("web = [{ thickness = \"5 mm\"", "web = [{ thickness = \"1 mm\"")]);
    assert!(drowned.contains("a leg of at most 4 mm") && !drowned.contains("hint: Field"), "{drowned}");
    let own = "steel = { yield = \"500 MPa\", tensile = \"450 MPa\" }";
    let weak = said(&[("steel = \"S355\"", own)]);
    assert!(weak.contains("not below the yield") && !weak.contains("hint: Field"), "{weak}");
}
