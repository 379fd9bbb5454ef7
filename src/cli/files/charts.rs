//! Pictures, each as SVG and PNG.

use super::names::unique;
use super::{Kind, Target};
use crate::chart::{Picture, png};
use rayon::prelude::*;
use std::io::{Error, Result};
use std::path::{Path, PathBuf};

/// Writes pictures into a folder under their names, a number behind a name that comes twice, and returns how many. Nothing is
/// written unless all may be.
///
/// # Errors
/// If a picture cannot be written, or would be written over a file of another.
pub(crate) fn charts(folder: &Path, force: bool, pictures: Vec<Picture>) -> Result<usize> {
    Ok(charts_written(folder, force, pictures)?.len() / 2)
}

/// The same; returns the files, two a picture.
///
/// # Errors
/// As [`charts`].
pub(crate) fn charts_written(folder: &Path, force: bool, pictures: Vec<Picture>) -> Result<Vec<PathBuf>> {
    super::folder(folder)?;
    let names: Vec<String> = pictures.iter().map(|p| p.name.clone()).collect();
    let path = |name: &str, ending: &str| folder.join(format!("{name}.{ending}"));
    let files: Vec<[PathBuf; 2]> =
        unique(&names).iter().map(|name| [path(name, "svg"), path(name, "png")]).collect();
    let place = |[svg, pixels]: &[PathBuf; 2]| {
        Ok([Target::new(svg, Kind::Svg, force)?, Target::new(pixels, Kind::Png, force)?])
    };
    let places: Vec<[Target; 2]> = files.iter().map(place).collect::<Result<_>>()?;
    pictures
        .par_iter()
        .zip(&places)
        .map(|(picture, [svg, pixels])| {
            svg.write(picture.svg.as_bytes())?;
            pixels.write(&png(&picture.svg).map_err(Error::other)?)
        })
        .collect::<Result<()>>()?;
    Ok(files.into_iter().flatten().collect())
}

/// Pictures of one job or case, with its name before theirs.
pub(crate) fn of(stem: &str, pictures: Vec<Picture>) -> Vec<Picture> {
    pictures.into_iter().map(|p| Picture { name: format!("{stem}-{}", p.name), ..p }).collect()
}
