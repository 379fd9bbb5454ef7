//! A list of plates or stations on the screen: the table that files hold, too.

use super::report::Report;
use super::table::head_table;
use crate::cut::Table;

/// Its columns without those named and without empty ones, figures with a real minus sign.
pub(crate) fn listed(title: &str, remark: &str, list: &Table, without: &[&str], out: &mut Report) {
    out.heading(title, remark);
    let shown = list.shown(without);
    let heads: Vec<String> = shown.iter().map(|i| list.head_in_words(*i)).collect();
    let right = (0..shown.len()).filter(|k| list.is_of_figures(shown[*k]));
    let mut rows = head_table(&heads, right);
    for row in &list.rows {
        rows.add_row(shown.iter().map(|i| list.said(&row[*i])));
    }
    rows.put(out)
}
