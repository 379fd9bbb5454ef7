//! Published values against the crate: one module a source, the numbers in `reference-cases/`.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

mod aws_d1_1;
mod cases;
mod cross_code;
mod en_1090_2;
mod en_1993_1_2;
mod iso_13920;
mod limits;
mod metal_building;
mod okerblom;
mod sections;
mod tapered_beams;
