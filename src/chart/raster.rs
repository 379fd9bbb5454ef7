//! A picture as PNG: the same SVG, rendered with the same font, twice as large for sharp screens.

use super::ChartError;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};
use std::sync::{Arc, OnceLock};

/// PNG pixels per px of the picture.
const SCALE: f32 = 2.0;

/// The PNG of an SVG drawn here.
///
/// # Errors
/// [`ChartError::Raster`] if the text is no SVG or the image cannot be made.
pub fn png(svg: &str) -> Result<Vec<u8>, ChartError> {
    let options = Options { fontdb: fonts(), ..Options::default() };
    let tree = Tree::from_str(svg, &options).map_err(|e| ChartError::Raster(e.to_string()))?;
    let size = tree.size();
    let pixels = |length: f32| (length * SCALE).round() as u32;
    let mut image = Pixmap::new(pixels(size.width()), pixels(size.height()))
        .ok_or_else(|| ChartError::Raster("the picture has no size".to_owned()))?;
    resvg::render(&tree, Transform::from_scale(SCALE, SCALE), &mut image.as_mut());
    image.encode_png().map_err(|e| ChartError::Raster(e.to_string()))
}

fn fonts() -> Arc<Database> {
    static FONTS: OnceLock<Arc<Database>> = OnceLock::new();
    FONTS
        .get_or_init(|| {
            let mut fonts = Database::new();
            fonts.load_font_data(dejavu::sans::regular().to_vec());
            fonts.load_font_data(dejavu::sans::bold().to_vec());
            Arc::new(fonts)
        })
        .clone()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_svg_gives_an_error_not_a_panic() {
        assert!(matches!(png("welded"), Err(ChartError::Raster(_))));
    }
}
