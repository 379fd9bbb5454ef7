//! A page of paper.

use maud::{Markup, html};

/// A page of paper and those that follow it, each with that head.
pub(crate) fn framed(class: &str, head: &Markup, body: &Markup) -> Markup {
    html! {
        table class=(format!("page {class}")) {
            thead { tr { td { div.run { (head) } } } }
            tbody { tr { td { (body) } } }
        }
    }
}
