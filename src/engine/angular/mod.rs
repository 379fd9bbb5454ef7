//! What fillets do to a flange: fold it at the weld, tilt it about the joint, and so move its toes.
//!
//! `fold` is one fillet; `flange` puts both sides together into cup, tilt and toe offsets; `published` is what
//! other authors would say. Angles in rad, + toward the web.

pub mod flange;
pub mod fold;
pub mod published;
