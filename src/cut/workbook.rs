//! Tables as a workbook (.xlsx). The only file that knows rust_xlsxwriter.

use crate::CAUTIONS;
use crate::lists::Table;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, XlsxError};

/// Narrowest and widest column, characters (a choice).
const WIDTH: (usize, usize) = (8, 48);

/// A sheet a table, and one with what must be said. The same tables give the same bytes: the date inside is fixed.
///
/// # Errors
/// If a table has more rows than a workbook holds.
pub fn workbook(tables: &[Table]) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    let fixed = ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(&DocProperties::new().set_author("weldbow").set_creation_datetime(&fixed));
    for table in tables {
        put(&mut book, table)?;
    }
    let sheet = book.add_worksheet().set_name("read first")?;
    sheet.set_column_width(0, 120.0)?;
    let wrapped = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    for (row, words) in (0_u32..).zip(CAUTIONS) {
        sheet.write_string_with_format(row, 0, words, &wrapped)?;
    }
    book.save_to_buffer()
}

fn put(book: &mut Workbook, table: &Table) -> Result<(), XlsxError> {
    let sheet = book.add_worksheet().set_name(table.name)?;
    let bold = Format::new().set_bold();
    for (column, head) in (0_u16..).zip(&table.heads) {
        sheet.write_string_with_format(0, column, head, &bold)?;
    }
    for (row, cells) in (1_u32..).zip(&table.rows) {
        for (column, cell) in (0_u16..).zip(cells) {
            match table.figure(cell) {
                Some((value, decimals)) => {
                    let zeros = "0".repeat(decimals);
                    let shape = if decimals == 0 { "0".to_owned() } else { format!("0.{zeros}") };
                    let format = Format::new().set_num_format(shape);
                    sheet.write_number_with_format(row, column, value, &format)?;
                }
                None => {
                    sheet.write_string(row, column, table.words(cell))?;
                }
            }
        }
    }
    for (column, head) in (0_u16..).zip(&table.heads) {
        let cells = table.rows.iter().filter_map(|row| row.get(usize::from(column)));
        let widest =
            cells.map(|cell| table.words(cell).chars().count()).fold(head.chars().count(), usize::max);
        sheet.set_column_width(column, widest.clamp(WIDTH.0, WIDTH.1) as f64 + 2.0)?;
    }
    sheet.set_freeze_panes(1, 0)?;
    Ok(())
}
