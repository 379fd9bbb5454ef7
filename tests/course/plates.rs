//! Plates as they come: what a bowed strip does to the member, and what pieces differ by.

use crate::studies::{rises, run, within};

/// Clamped straight and let go, a member bends by Σ(E·I·κ)/(E·I) of its strips: beam theory. The outer flange has I_o/(I_o + I_i) =
/// 0.444 beside the 10 mm strip (to 5 m) and 0.364 beside the 14 mm one; weighted by the moment line of the middle 0.405 of a bow of 9 mm.
#[test]
fn a_bowed_strip_hands_on_the_share_of_its_stiffness() {
    let run = run("23-plates");
    let at = |row: usize| run.all("sweep.max_mm")[row];
    let [straight, near, far, one_edge, both_edges] = [0, 1, 2, 3, 4].map(at);
    println!(
        "straight {straight:.2}, near {near:.2}, far {far:.2}, near edge hot {one_edge:.2}, both {both_edges:.2} mm"
    );
    // the middle of the largest sweep is a little beside that of the member
    within("sweep by 1 mm/m toward the near side over 9 mm", (near - straight) / 9.0, 0.38, 0.43);
    within("the same to the other side", (straight - far) / (near - straight), 0.95, 1.05);
    // 27 mm of the strip by a recalled rule, hollow on the near edge: the member goes to the far side
    within("sweep by one hot edge", one_edge - straight, -14.0, -9.0);
    within("sweep by both edges over straight", both_edges / straight, 1.05, 1.2);
}

/// Standards allow slit strip more than flats, flats more than sheared plate; two torches at once shrink alike (common practice, no
/// source). What plates bring is no doubt in the model.
#[test]
fn strips_that_differ_more_make_pieces_that_differ_more_and_leave_the_doubt_alone() {
    let run = run("24-edges");
    let plates = run.all("sweep.max_2s_of.plates_mm");
    rises("± by plates", &plates);
    let shared = run.all("sweep.max_2s_of.shared_mm");
    within("doubt, not said over slit", shared[1] / shared[4], 0.999, 1.001);
    let whole = run.all("sweep.max_2s_mm");
    let welds = run.all("sweep.max_2s_of.welding_mm");
    for i in 0..5 {
        let parts = shared[i].hypot(welds[i]).hypot(plates[i]);
        within("parts over the whole, by their squares", parts / whole[i], 0.999, 1.001);
    }
}
