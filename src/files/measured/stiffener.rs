//! Notes on the steel of the piece that a push depends on: stiffeners, and the yield strength of the certificate.

use weldbow_engine::straighten::press::Stiffener;
use weldbow_engine::units::{Kind, read as number};

/// Yield strengths taken, MPa.
const YIELD_MPA: (f64, f64) = (150.0, 1100.0);
/// Plates taken, mm.
const PLATE_MM: (f64, f64) = (3.0, 1000.0);

/// "3 m, 6 m; 80 mm x 8 mm".
pub(super) fn read(text: &str) -> Result<Vec<Stiffener>, String> {
    let wanted = || "places and the plate on each side, as \"3 m, 6 m; 80 mm x 8 mm\"".to_owned();
    let (places, plate) = text.split_once(';').ok_or_else(wanted)?;
    let (width, thickness) = plate.split_once(['x', '×']).ok_or_else(wanted)?;
    let length = |t: &str| number(Kind::Length, t.trim()).map_err(|e| e.to_string());
    let (width_mm, thickness_mm) = (length(width)?, length(thickness)?);
    let (low, high) = PLATE_MM;
    if !(low..=high).contains(&width_mm) || !(low..=high).contains(&thickness_mm) || thickness_mm > width_mm {
        return Err(format!("a plate wider than thick, of {low} mm to {high} mm"));
    }
    places.split(',').map(|x| Ok(Stiffener { x_mm: length(x)?, width_mm, thickness_mm })).collect()
}

/// "402 MPa".
pub(super) fn yield_mpa(text: &str) -> Result<f64, String> {
    let found = number(Kind::Stress, text).map_err(|e| e.to_string())?;
    let (low, high) = YIELD_MPA;
    if (low..=high).contains(&found) { Ok(found) } else { Err(format!("{low} MPa to {high} MPa")) }
}
