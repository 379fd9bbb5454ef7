//! The member before it is welded: plates, web depth along x, section properties.
//!
//! x runs from the start end (0) to the finish end (L); y from the outer web edge (0) toward the inner
//! flange; z out of the web plane, positive on the near side. Lengths in mm.
//!
//! `plate` is what the shop cuts, `delivered` how plates come, `profile` how deep the web is, `properties` what the beam sees,
//! `spans` the stretches of member in which nothing jumps.

mod delivered;
mod plate;
mod profile;
mod properties;
mod spans;

pub use delivered::{Delivered, Edges};
pub use plate::{FlangePiece, Made, Member, Plates, Preparation, Seam, Splice, WebPiece};
pub use profile::Profile;
pub(crate) use properties::inclined;
pub use properties::{Parts, Section, properties};
pub(crate) use spans::ends_mm;
pub use spans::{Span, spans};
