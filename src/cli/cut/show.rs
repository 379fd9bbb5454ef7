//! What is cut, for people.

use crate::cli::show::{Report, fine, listed, unit};
use crate::cut::{CAUTIONS, CUT_IS, Joint, Mark, cut_list, marks, ordinates, straight_gap_mm};
use crate::units::{System, show};

/// Bend allowance worth a word, mm (a choice).
const SHOWN_BEND_MM: f64 = 0.1;

/// One member in full; several a row a mark.
pub(super) fn report(all: &[Mark], system: System, out: &mut Report) {
    if let [one] = all {
        out.line(format!("{}: plates to cut", one.plates.title));
        listed("Cut list", CUT_IS, &cut_list(all, system), &["mark", "quantity", "bends", "finish_end"], out);
        ends_and_bends(one, system, out);
        web(one, system, out);
    } else {
        let pieces: u64 = all.iter().map(|m| u64::from(m.quantity)).sum();
        out.line(format!("{} marks, {pieces} members: plates to cut", all.len()));
        listed("Marks", "", &marks(all, system), &["job", "ordinate_2s", "straight_gap"], out);
    }
    out.heading("Before cutting", "");
    let bowed = all.iter().any(|mark| mark.plates.web.comes_bowed);
    out.say_all(bowed.then_some(COMES_BOWED).into_iter().chain(CAUTIONS))
}

/// Said where a job gives its web plates a bow.
const COMES_BOWED: &str = "The web's own bow, `bow` in the job, is counted in, against the welds': right for plates that bow by themselves once they are \
     cut free. Leave it out where the cut takes it away.";

/// Edge preparations, root gaps and lines to bend at, a line a plate that has any.
fn ends_and_bends(one: &Mark, system: System, out: &mut Report) {
    let mut ends = |name: String, joint: Option<Joint>| {
        let Some(joint) = joint else { return };
        let gap = exact(joint.gap_mm, system);
        out.say(format!("{name}, finish end: {}; root gap to leave {gap}", joint.words(system)))
    };
    for plate in &one.plates.web.plates {
        ends(format!("web {}", plate.number), plate.after);
    }
    for strip in &one.plates.strips {
        ends(format!("{} flange {}", strip.flange.name(), strip.number), strip.after);
    }
    let mut longest = 0.0_f64;
    for strip in &one.plates.strips {
        let name = format!("{} flange {}", strip.flange.name(), strip.number);
        for bend in &strip.bends {
            longest = longest.max(bend.allowance_mm(strip.thickness_mm).abs());
            out.say(format!(
                "{name}: bends by {:.2}° at {} from its start, on the face that meets the web",
                bend.turn_rad.to_degrees().abs(),
                exact(bend.own_mm, system)
            ));
        }
    }
    if longest > SHOWN_BEND_MM {
        out.say(format!(
            "Bent sharply about its middle a strip differs by up to {} there: the bend allowance is the shop's.",
            exact(longest, system)
        ));
    }
}

fn web(one: &Mark, system: System, out: &mut Report) {
    let web = &one.plates.web;
    let remark = if web.bowed { one.plates.cut_how(system) } else { "edges straight".to_owned() };
    listed("Web", &remark, &ordinates(std::slice::from_ref(one), system), &["mark"], out);
    if let Some(why) = &one.plates.why_straight {
        out.say(why.in_units(system));
    }
    let gap = straight_gap_mm(web, &one.stations, system);
    out.say(format!(
        "Going straight from station to station errs by at most {}; the largest ordinate itself is known to ± {}.",
        exact(gap, system),
        show::offset(one.plates.ordinate_2s_mm, system)
    ))
}

/// A small length with decimals that show it.
fn exact(mm: f64, system: System) -> String {
    format!("{} {}", fine(mm, system), unit(system))
}
