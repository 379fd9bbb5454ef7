//! The printed part of a page: one member, for customer, inspector and floor.
//!
//! `verdicts` says whether it holds, `cut` what to cut and preset, `measure` where to measure and what to expect there.

mod cut;
mod measure;
mod verdicts;

use super::service::Drawn;
use maud::{Markup, PreEscaped, html};
use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::tolerance::Judgement;
use weldbow_engine::units::{System, show};
use weldbow_engine::verification::Refereed;

/// What the sheet is about, for the box at its head. Empty texts leave a field to fill in.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Identity {
    /// Mark of the piece.
    pub mark: String,
    /// Drawing.
    pub drawing: String,
    /// Its revision.
    pub revision: String,
    /// Welding procedure specification.
    pub wps: String,
    /// Date, as the user writes it.
    pub date: String,
    /// Version of the program.
    pub version: String,
    /// Name of the job's file.
    pub file: String,
    /// SHA-256 of its text, hexadecimal.
    pub hash: String,
}

/// All that a report is made from.
#[derive(Clone, Copy)]
pub struct Reported<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its prediction.
    pub prediction: &'a Prediction,
    /// Drawn pieces.
    pub drawn: &'a Drawn,
    /// What it is about.
    pub identity: &'a Identity,
    /// Drawings, SVG, each with a name.
    pub pictures: &'a [(String, String)],
    /// Joints solved from first principles.
    pub joints: &'a [Refereed],
    /// The straightening sheet for the floor; empty without one.
    pub floor: &'a Markup,
    /// Units of the numbers.
    pub system: System,
}

/// Digits of the hash shown: enough to tell two jobs apart by eye (a choice).
const HASH_SHOWN: usize = 16;

/// What the numbers rest on, and what stands against trusting them blindly.
const BASIS: [&str; 3] = [
    "No measured set of member distortion was available to compare with: the ± is judgement from the spread of methods and model choices.",
    "± spans two standard deviations, about 95 % of pieces. A chance counts drawn pieces, bias of the model and scatter from piece to piece together: \
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
    html! {
        article.report {
            h2 { (job.title) }
            p.says {
                (show::position(member.length_mm, system)) " long, " (member.steel.name) ", " (show::mass(prediction.mass_kg, system))
                ". " (sentence(prediction))
            }
            (head(identity))
            h3 { "Is it in tolerance?" }
            (verdicts::table(of))
            (picture(of, "elevation"))
            h3 { "What it will do" }
            (verdicts::shape(of))
            div.pair { (picture(of, "bow")) (picture(of, "section")) }
            h3 { "Welds and their order" }
            (welds(of))
            (picture(of, "build-up"))
            h3 { "Cut and preset" }
            (cut::pieces(of))
            (cut::web_edges(of))
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
                @for warning in &prediction.warnings { li { (warning.text) } }
            }
            div.caution { strong { "Cautions" } ul { @for line in CAUTIONS { li { (line) } } } }
            div.sign { div { "Made by, date" } div { "Checked by, date" } div { "Piece number" } div { "Measured by, date" } }
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

fn head(identity: &Identity) -> Markup {
    let hash = identity.hash.get(..HASH_SHOWN).unwrap_or(&identity.hash);
    let fields = [
        ("Mark", identity.mark.as_str()),
        ("Drawing", &identity.drawing),
        ("Revision", &identity.revision),
        ("Welding procedure (WPS)", &identity.wps),
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
    html! { @if let Some((_, svg)) = found { figure.native { (PreEscaped(svg)) } } }
}

fn welds(of: &Reported<'_>) -> Markup {
    let Reported { prediction, system, .. } = *of;
    html! {
        table {
            thead { tr { th { "order" } th { "seam" } th { "side" } th.n { "from" } th.n { "to" } th.n { "leg" } th.n { "net heat" } th.n { "shrinkage force" } } }
            tbody {
                @for p in &prediction.passes {
                    tr {
                        td { (p.order) } td { (p.seam.name()) } td { (p.side.name()) }
                        td.n { (show::position(p.from_mm, system)) } td.n { (show::position(p.to_mm, system)) }
                        td.n { (show::plate(p.leg_mm, system)) } td.n { (show::heat_input(p.heat_input_j_per_mm, system)) }
                        td.n { (show::force(p.force_n, system)) }
                    }
                }
            }
        }
    }
}

fn joints(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let angle = |rad: Option<f64>| rad.map_or_else(|| "–".to_owned(), |rad| show::angle(rad, system));
    html! {
        table {
            caption { "Heat and plasticity of one slice, nothing fitted, beside the formulas the rest of this report uses" }
            thead { tr { th { "seam" } th.n { "at" } th.n { "after order" } th.n { "force" } th.n { "by formula" } th.n { "cup" } th.n { "by formula" } th.n { "tilt" } th.n { "by formula" } } }
            tbody {
                @for joint in of.joints {
                    @for laid in &joint.passes {
                        tr {
                            td { (joint.seam.name()) } td.n { (show::position(joint.x_mm, system)) } td.n { (laid.order) }
                            td.n { (show::force(laid.section.force_n, system)) } td.n { (show::force(laid.formula.force_n, system)) }
                            td.n { (angle(laid.section.cup_rad)) } td.n { (angle(laid.formula.cup_rad)) }
                            td.n { (angle(laid.section.tilt_rad)) } td.n { (angle(laid.formula.tilt_rad)) }
                        }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::drawn;
    use weldbow_engine::job::{STARTER, check};
    use weldbow_engine::prediction::predict;
    use weldbow_files::job::file_of_text;

    fn made(text: &str, system: System) -> String {
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
            floor: &Markup::default(),
            system,
        };
        report(&of).into_string()
    }

    #[test]
    fn a_report_names_what_it_is_about_and_every_limit() {
        let text = made(STARTER, System::Si);
        for words in ["R2", "aaaaaaaaaaaaaaaa", "Measuring plan", "EN 1090-2", "Cautions", "<svg>"] {
            assert!(text.contains(words), "{words} is missing");
        }
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    }

    #[test]
    fn ordinates_are_given_where_the_depth_kinks_and_plates_meet() {
        let bent = STARTER.replace("[\"6 m\", \"760 mm\"]", "[\"5.3 m\", \"760 mm\"]");
        let text = made(&bent, System::Si);
        assert!(text.contains("5.30 m</td><td>kink"), "the kink at 5.3 m has its ordinate");
    }

    #[test]
    fn text_from_a_job_stays_text() {
        let text = made(&STARTER.replace("Rafter, first try", "<script>alert(1)</script> & co"), System::Us);
        assert!(text.contains("&lt;script&gt;") && !text.contains("<script"), "escaped");
    }
}
