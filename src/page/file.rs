//! The file: pieces under `html/` joined into one document that asks for nothing from anywhere.
//!
//! The content policy names the style and the script by their SHA-256 and forbids all else; the engine, the worker's source and
//! the data stand in blocks of plain text, which no policy has to allow because nothing runs them as they are.

use super::course::{JOBS, Lesson};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

/// The engine, compiled and packed with gzip. `.ci/engine` builds it anew.
pub(crate) const ENGINE_GZ: &[u8] = include_bytes!("engine.wasm.gz");

const STYLE: [&str; 4] = [
    include_str!("html/css/page.css"),
    include_str!("html/css/bench.css"),
    include_str!("html/css/course.css"),
    include_str!("html/css/report.css"),
];

/// The door to the engine, which the worker has too.
const DOOR: &str = include_str!("html/js/engine.js");
const WORKER: &str = include_str!("html/js/worker.js");

const SCRIPT: [&str; 13] = [
    DOOR,
    include_str!("html/js/helpers.js"),
    include_str!("html/js/quantities.js"),
    include_str!("html/js/knobs.js"),
    include_str!("html/js/charts.js"),
    include_str!("html/js/member.js"),
    include_str!("html/js/bench.js"),
    include_str!("html/js/travel.js"),
    include_str!("html/js/joint.js"),
    include_str!("html/js/sweeps.js"),
    include_str!("html/js/pictures.js"),
    include_str!("html/js/course.js"),
    include_str!("html/js/main.js"),
];

/// What every page says at its foot.
const CAUTIONS: &str = "A prediction, not compared with measured members: try it on one piece and measure. Strength, weld size, \
    procedures and straightening are for the applicable codes, qualified procedures and licensed engineers to decide. Keep clear of \
    clamped, preset, pressed and hot plates; hot work needs its permit.";

/// A job the page carries.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Member {
    /// Short name.
    pub name: String,
    /// Title, for the list.
    pub title: String,
    /// The job's text.
    pub toml: String,
}

/// Cup of a joint under one restraint while hot, for a lesson.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Held {
    /// Held until below this, °C; none if never.
    pub hold_c: Option<f64>,
    /// Cup, degrees.
    pub cup_deg: f64,
}

/// All a page is made from; what its script finds in it is written as JSON.
#[derive(Debug, Default, Serialize)]
pub struct Page {
    /// Title of the document.
    #[serde(skip)]
    pub title: String,
    /// "si" or "us".
    pub units: &'static str,
    /// Jobs, in order.
    pub members: Vec<Member>,
    /// The printed part of each, as HTML.
    #[serde(skip)]
    pub reports: Vec<Markup>,
    /// What the shop's own pieces say, as HTML; empty without a record.
    #[serde(skip)]
    pub record: Markup,
    /// Lessons; none leaves the course out.
    #[serde(rename = "course")]
    pub lessons: Vec<Lesson>,
    /// Pictures the course shows, SVG by name.
    pub pictures: BTreeMap<String, String>,
    /// Restraints the course shows.
    pub restraint: Vec<Held>,
}

/// Jobs of the course as members of a page.
pub fn course_members() -> Vec<Member> {
    let title = |text: &str| {
        let line = text.lines().find_map(|line| line.strip_prefix("title = \""));
        line.and_then(|rest| rest.strip_suffix('"')).unwrap_or_default().to_owned()
    };
    JOBS.iter()
        .map(|(name, text)| Member { name: (*name).to_owned(), title: title(text), toml: (*text).to_owned() })
        .collect()
}

/// The whole file.
///
/// # Errors
/// If the data cannot be written as JSON: a number that is none.
pub fn whole(page: &Page) -> Result<String, String> {
    let style = STYLE.concat();
    let script = format!("\"use strict\";\n(() => {{\n{}\n}})();\n", SCRIPT.concat());
    // a title may hold "</script>"
    let data = serde_json::to_string(page).map_err(|error| error.to_string())?.replace('<', "\\u003c");
    let rooms: Vec<(&str, &str)> = [
        ("report", "Report", !page.reports.is_empty()),
        ("record", "Your pieces", !page.record.0.is_empty()),
        ("course", "Course", !page.lessons.is_empty()),
        ("bench", "Bench", true),
        ("joint", "Joint", true),
    ]
    .into_iter()
    .filter_map(|(id, words, there)| there.then_some((id, words)))
    .collect();
    let tab = |id: &str, words: &str| {
        html! { button type="button" role="tab" id=(format!("tab-{id}")) aria-controls=(id) aria-selected="false" { (words) } }
    };
    Ok(html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy(&style, &script));
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(MARK);
                title { (page.title) }
                style { (PreEscaped(&style)) }
            }
            body {
                a.skip href="#rooms" { "To the content" }
                header.top {
                    h1 { b { "weldbow" } " · " (page.title) }
                    div role="tablist" aria-label="Rooms" { @for (id, words) in &rooms { (tab(id, words)) } }
                    button type="button" id="units" { "Show in inches" }
                    button type="button" id="paper" { "Dark paper" }
                }
                main id="rooms" {
                    p.notice id="no-engine" hidden { "This browser cannot start the engine: bench and joint stay empty. The report is complete without it." }
                    @for (id, words) in &rooms {
                        section id=(id) role="tabpanel" aria-labelledby=(format!("tab-{id}")) aria-label=(words) {
                            @match *id {
                                "report" => {
                                    p.pages-of { button type="button" class="print" { "Print the report" } }
                                    @for report in &page.reports { (report) }
                                }
                                "record" => {
                                    p.pages-of { button type="button" class="print" { "Print this" } }
                                    (page.record)
                                }
                                "bench" => div.workshop id="bench-room" {},
                                "joint" => div.workshop id="joint-room" {},
                                _ => div id="course-room" {},
                            }
                        }
                    }
                }
                footer.cautions { (CAUTIONS) }
                script type="text/plain" id="engine" { (PreEscaped(STANDARD.encode(ENGINE_GZ))) }
                script type="text/plain" id="engine-source" { (PreEscaped(DOOR)) }
                script type="text/plain" id="worker-source" { (PreEscaped(WORKER)) }
                script type="application/json" id="data" { (PreEscaped(data)) }
                script { (PreEscaped(script)) }
            }
        }
    }
    .into_string())
}

/// How a file of this kind can be told from others.
pub(crate) const MARK: &str = "weldbow page";

fn policy(style: &str, script: &str) -> String {
    let hash = |text: &str| STANDARD.encode(Sha256::digest(text.as_bytes()));
    format!(
        "default-src 'none'; script-src 'sha256-{}' 'wasm-unsafe-eval'; style-src 'sha256-{}'; worker-src blob:; \
         img-src data: blob:; base-uri 'none'; form-action 'none'",
        hash(script),
        hash(style)
    )
}

/// SHA-256 of a text, in hexadecimal.
pub fn fingerprint(text: &str) -> String {
    format!("{:x}", Sha256::digest(text.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4, example of one block: the message "abc".
    #[test]
    fn a_fingerprint_is_that_of_the_standard() {
        assert_eq!(fingerprint("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    fn page(title: &str) -> String {
        let member =
            Member { name: "m".to_owned(), title: title.to_owned(), toml: format!("title = \"{title}\"") };
        whole(&Page { title: title.to_owned(), units: "si", members: vec![member], ..Page::default() })
            .unwrap()
    }

    #[test]
    fn a_title_cannot_end_a_block() {
        let text = page("</script><script>alert(1)</script>");
        assert_eq!(text.matches("<script").count(), 5, "the page's own five blocks");
        assert!(!text.contains("alert(1)</script>"));
    }

    #[test]
    fn a_page_is_small_and_the_same_each_time() {
        let text = page("A");
        assert_eq!(text, page("A"));
        assert!(text.len() < 3_000_000, "{} bytes", text.len());
        assert!(!text.contains("src=\"http") && !text.contains("url(http"), "nothing from elsewhere");
    }

    #[test]
    fn no_attribute_that_the_policy_would_block() {
        let text = page("A");
        let body = text.split("<body>").nth(1).and_then(|rest| rest.split("<script").next()).unwrap();
        assert!(!body.contains(" style=") && !body.contains(" onclick="), "{body}");
    }
}
