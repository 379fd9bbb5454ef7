//! Pictures of a study: what its table says, drawn as the study file asks.
//!
//! `pictures` draws all of a study, or one of them from what is in `view`; `check` and `fits` tell a spec that cannot be drawn before anything is computed. One file a
//! kind: `lines` (with `columns` over words, `values`, `names` and, for places along the member, `places`) and `scatter` (both over `small_plots`), `map` (with `contour`, `map_labels`), `histogram`
//! (with `bins`), `tornado` and `shares` (with `bars`). Under them: `cells` gathers rows to points, `axis`
//! and `foot` make axes of columns, `ends` labels lines, `limits`, `sheet` (title, source, member), `marks`,
//! `worded` (values in words).

mod axis;
mod bars;
mod bins;
mod cells;
mod check;
mod columns;
mod contour;
mod ends;
mod fits;
mod foot;
mod groups;
mod histogram;
mod limits;
mod lines;
mod look;
mod map;
mod map_labels;
mod marks;
mod member;
mod names;
mod pictures;
mod places;
mod scatter;
mod shares;
mod sheet;
mod small_plots;
#[cfg(test)]
mod tests;
mod tornado;
mod values;
mod view;
mod worded;

pub use check::{ChartSpecFault, check};
pub use fits::fits;
pub use pictures::study_pictures;
pub use view::StudyView;
