//! The printed part of a page: one member, for customer, inspector and floor.
//!
//! `verdicts` says whether it holds, `choice` what weld would, `cut` what to cut and preset, `measure` where to measure and what
//! to expect there; `table` sets all their tables.

mod choice;
mod cut;
mod measure;
mod reported;
mod table;
mod verdicts;

pub use reported::{Identity, Reported};

use maud::{Markup, PreEscaped, html};
use table::{As, Columns};
use weldbow_engine::prediction::{Job, PassResult, Prediction, outside};
use weldbow_engine::tolerance::Judgement;
use weldbow_engine::units::show;
use weldbow_engine::welding::Stitch;

/// Digits of the hash shown: enough to tell two jobs apart by eye (a choice).
const HASH_SHOWN: usize = 16;

/// What the numbers rest on, and what stands against trusting them blindly.
const BASIS: [&str; 3] = [
    "No measured set of member distortion was available to compare with: the ± is judgement from the spread of methods and model choices.",
    "± spans two standard deviations, what all pieces share included. A chance counts drawn pieces, bias of the model and scatter from piece to piece together: \
     pieces of one kind share the bias, so either few of them are out or many.",
    "Measure the first pieces and enter them: they say more than any formula.",
];
const CAUTIONS: [&str; 4] = [
    "Allowances and presets change what is cut and clamped: try them on one piece first.",
    "Keep clear of clamped, preset and hot plates, and of whatever is under a press. Hot work needs its permit.",
    "Measure cold; take the sag of the member's own weight off, or measure both ways up.",
    "Strength, weld size, procedures and straightening are for the applicable codes, qualified procedures and licensed engineers to decide.",
];

/// The report of one member.
pub fn report(of: &Reported<'_>) -> Markup {
    let Reported { job, prediction, identity, system, .. } = *of;
    let member = &job.member;
    let none = outside(prediction);
    html! {
        article.report {
            h2 { (job.title) }
            p.says {
                (show::position(member.length_mm, system)) " long, " (member.steel.name) ", " (show::mass(prediction.mass_kg, system))
                ". " @if none.is_empty() { (sentence(prediction)) }
            }
            (head(identity, job))
            @if none.is_empty() { (numbers(of)) } @else {
                h3 { "Outside what this model covers: no numbers can be given" }
                ul { @for one in &none { li { (one.reason.in_units(system)) } } }
            }
            div.caution { strong { "Cautions" } ul { @for line in CAUTIONS { li { (line) } } } }
            div.sign { div { "Made by, date" } div { "Checked by, date" } div { "Piece number" } div { "Measured by, date" } }
        }
    }
}

/// All that a prediction inside the model tells.
fn numbers(of: &Reported<'_>) -> Markup {
    let Reported { prediction, system, .. } = *of;
    html! {
        h3 { "Is it in tolerance?" }
        (verdicts::limits(of))
        (picture(of, "elevation"))
        h3 { "What it will do" }
        (verdicts::shape(of))
        div.pair { (picture(of, "bow")) (picture(of, "section")) }
        h3 { "Welds and their order" }
        (welds(of))
        (picture(of, "build-up"))
        @if let Some(choice) = of.choice {
            h3 { "What weld holds every limit" }
            (choice::chosen(of, choice))
        }
        h3 { "Cut and preset" }
        (cut::plates(of))
        (cut::presets(of))
        @if !of.joints.is_empty() {
            h3 { "Joints from first principles" }
            (joints(of))
        }
        h3 { "Measuring plan" }
        (measure::plan(of))
        @if !of.floor.0.is_empty() {
            h3 { "If it has to be straightened" }
            div.floor { (of.floor) }
        }
        h3 { "What the numbers rest on" }
        ul {
            li { (prediction.model.trust) }
            @for line in BASIS { li { (line) } }
            @for warning in &prediction.warnings { li { (warning.text.in_units(system)) } }
        }
    }
}

/// The whole in one sentence.
fn sentence(prediction: &Prediction) -> &'static str {
    let has = |judgement| prediction.verdicts.iter().any(|v| v.verdict == judgement);
    if prediction.verdicts.is_empty() {
        "Nothing is judged: the job names no tolerance."
    } else if has(Judgement::Out) {
        "As it stands it goes out of tolerance."
    } else if has(Judgement::Near) {
        "It may go out of tolerance: a limit lies inside the ±."
    } else {
        "It is expected to stay in tolerance."
    }
}

fn head(identity: &Identity, job: &Job) -> Markup {
    let of_job = if identity.wps.is_empty() { job.wps_said() } else { None };
    let wps = of_job.as_deref().unwrap_or(&identity.wps);
    let hash = identity.hash.get(..HASH_SHOWN).unwrap_or(&identity.hash);
    let fields = [
        ("Mark", identity.mark.as_str()),
        ("Drawing", &identity.drawing),
        ("Revision", &identity.revision),
        ("Welding procedure (WPS)", wps),
        ("Date", &identity.date),
        ("Made with", &identity.version),
        ("Job file", &identity.file),
        ("Its SHA-256 starts", hash),
    ];
    html! {
        dl.head { @for (name, value) in fields { div { dt { (name) } dd { (value) } } } }
    }
}

/// A drawing by its name; nothing if there is none.
fn picture(of: &Reported<'_>, name: &str) -> Markup {
    let found = of.pictures.iter().find(|(own, _)| own == name);
    html! { @if let Some((_, svg)) = found { figure.native.(name) { (PreEscaped(svg)) } } }
}

fn welds(of: &Reported<'_>) -> Markup {
    let (passes, system) = (&of.prediction.passes, of.system);
    let welds = Columns::of(passes)
        .column(As::Number, "step", |p| p.order.to_string())
        .column(As::Words, "seam", |p| p.seam.name())
        .column(As::Words, "side", |p| p.side.name())
        .column(As::Number, "from", |p| show::position(p.from_mm, system))
        .column(As::Number, "to", |p| show::position(p.to_mm, system))
        .column(As::Result, "leg", |p| show::plate(p.leg_mm, system))
        .column(As::Number, "net heat", |p| show::heat_input(p.heat_input_j_per_mm, system))
        .column(As::Number, "shrinkage force", |p| show::force(p.force_n, system));
    let stitch = |p: &&PassResult| Stitch::said(p.stitch.as_ref(), system);
    let stitched = passes.iter().any(|p| p.stitch.is_some());
    let welds = if stitched { welds.column(As::Number, Stitch::HEAD, stitch) } else { welds };
    if passes.iter().all(|p| p.wps.is_none()) {
        return welds.under("");
    }
    welds.column(As::Words, "WPS", |p| p.wps.clone().unwrap_or_default()).under("")
}

fn joints(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let angle = |rad: Option<f64>| rad.map_or_else(|| "–".to_owned(), |rad| show::angle(rad, system));
    let laid = Columns::of(
        of.joints.iter().flat_map(|joint| joint.passes.iter().map(move |laid| (joint, laid))),
    )
    .column(As::Words, "seam", |(joint, _)| joint.seam.name())
    .column(As::Number, "at", |(joint, _)| show::position(joint.x_mm, system))
    .column(As::Number, "after step", |(_, laid)| laid.order.to_string())
    .column(As::Result, "force", |(_, laid)| show::force(laid.section.force_n, system))
    .column(As::Number, "by formula", |(_, laid)| show::force(laid.formula.force_n, system))
    .column(As::Result, "cup", |(_, laid)| angle(laid.section.cup_rad))
    .column(As::Number, "by formula", |(_, laid)| angle(laid.formula.cup_rad))
    .column(As::Result, "tilt", |(_, laid)| angle(laid.section.tilt_rad))
    .column(As::Number, "by formula", |(_, laid)| angle(laid.formula.tilt_rad))
    .under(
        "Heat and plasticity of one slice, nothing fitted, beside the formulas the rest of this report uses",
    );
    html! {
        (laid)
        p.says { "The tilt of one fillet is a lower estimate here: a slice does not know what turns ahead of the arc and behind it." }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::drawn;
    use weldbow_engine::choose::{Choice, Choosing, Constraints, choose};
    use weldbow_engine::job::{STARTER, check};
    use weldbow_engine::prediction::predict;
    use weldbow_engine::units::System;
    use weldbow_files::job::file_of_text;

    fn made(text: &str, system: System) -> String {
        made_with(text, system, None)
    }

    fn made_with(text: &str, system: System, choice: Option<&Choice>) -> String {
        let file = file_of_text("job.toml", text).unwrap();
        let job = check(&file).unwrap();
        let prediction = predict(&job);
        let drawn = drawn(&file, 100, 1, &[]).unwrap();
        let identity = Identity { mark: "R2".to_owned(), hash: "a".repeat(64), ..Identity::default() };
        let of = Reported {
            job: &job,
            prediction: &prediction,
            drawn: &drawn,
            identity: &identity,
            pictures: &[("elevation".to_owned(), "<svg></svg>".to_owned())],
            joints: &[],
            choice,
            floor: &Markup::default(),
            system,
        };
        report(&of).into_string()
    }

    #[test]
    fn a_report_names_what_it_is_about_and_every_limit() {
        let text = made(STARTER, System::Si);
        let wanted = [
            "R2",
            "aaaaaaaaaaaaaaaa",
            "Measuring plan",
            "EN 1090-2",
            "Cautions",
            "<svg>",
            "twist",
            "rolls around the arc",
        ];
        for words in wanted {
            assert!(text.contains(words), "{words} is missing");
        }
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    }

    #[test]
    fn ordinates_are_given_where_the_depth_kinks_and_plates_meet() {
        let bent = STARTER.replace("[\"6 m\", \"760 mm\"]", "[\"5.3 m\", \"760 mm\"]");
        let text = made(&bent, System::Si);
        assert!(text.contains("kink</td><td class=\"n\">530"), "the kink at 5.3 m has its ordinate: {text}");
    }

    #[test]
    fn a_job_outside_the_model_gets_reasons_in_place_of_numbers() {
        let text =
            made(&STARTER.replace("\nprocedure = \"twin-6\"", "\nheat_input = \"6 kJ/mm\""), System::Si);
        assert!(text.contains("Outside what this model covers") && text.contains("Cautions"), "{text}");
        assert!(!text.contains("<td") && !text.contains("NaN"), "no table of numbers: {text}");
    }

    #[test]
    fn a_choice_brings_needs_options_and_how_to_lay_the_first() {
        let text = format!(
            "{STARTER}\n[demand]\ncode = \"en-1993-1-8\"\nstart_shear = \"60 kN\"\nload = \"8 kN/m\"\n"
        );
        let file = file_of_text("job.toml", &text).unwrap();
        let job = check(&file).unwrap();
        let shop: weldbow_engine::shop::ShopFile =
            weldbow_files::reading::read_text_as("shop.toml", weldbow_engine::shop::STARTER).unwrap().shape;
        let book = shop.welding().unwrap();
        let wishes = Constraints { candidates: 500, draws: 16, ..Constraints::usual(job.units) };
        let choice = choose(&Choosing { job: &job, file: &file, book: &book, wishes: &wishes }).unwrap();
        let made = made_with(&text, System::Si, Some(&choice));
        for words in ["What weld holds every limit", "leg needed", "current practice", "Option 1"] {
            assert!(made.contains(words), "{words} is missing");
        }
    }

    #[test]
    fn text_from_a_job_stays_text() {
        let text = made(&STARTER.replace("Rafter, first try", "<script>alert(1)</script> & co"), System::Us);
        assert!(text.contains("&lt;script&gt;") && !text.contains("<script"), "escaped");
    }
}
