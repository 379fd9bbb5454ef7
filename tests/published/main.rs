//! The program against published numbers, one module a source. The data is in `reference-cases`.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

mod aws_d1_1;
mod cases;
mod cross_code;
mod en_1090_2;
mod iso_13920;
mod limits;
mod metal_building;
