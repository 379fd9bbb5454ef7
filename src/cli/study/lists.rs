//! What can be collected and what can be varied, each with its unit and meaning.

use crate::cli::show::Report;
use crate::input::{Form, Node, PathStep, as_toml};
use crate::job::file::JobFile;
use crate::study::{collected, names};

/// Every result: name, unit, what it is.
pub(super) fn results(out: &mut Report) {
    let rows = names().into_iter().map(|name| {
        let (unit, words) = match collected(&name).unwrap_or_default().as_slice() {
            [] => ("", String::new()),
            [one] => (one.unit, one.words.clone()),
            [first, ..] => (first.unit, "by each of the other methods".to_owned()),
        };
        let unit = if unit.is_empty() { "–" } else { unit };
        [name, unit.to_owned(), words]
    });
    columns(&rows.collect::<Vec<_>>(), out)
}

/// Every place of a job that an axis can set: name, a value it takes, what it is.
pub(crate) fn places(out: &mut Report) {
    let mut rows = Vec::new();
    walk(&[], "", &mut rows);
    columns(&rows, out);
    out.line(
        "\n`member.` may be left out. Of several passes or plates all are set; a word between picks some: `pass.outer.near.leg`,\n\
         `pass.2.leg`, `web.1.thickness`, `procedure.twin-6.travel_speed`. `length` stretches everything along it. `times = true` in a\n\
         study multiplies what the job holds."
    )
}

/// Text in columns, names never broken: other programs may read them.
fn columns(rows: &[[String; 3]], out: &mut Report) {
    let wide = |at: usize| rows.iter().map(|row| row[at].chars().count()).max().unwrap_or(0);
    let (first, second) = (wide(0), wide(1));
    rows.iter().for_each(|[name, value, words]| {
        out.line(format!("{name:<first$}  {value:<second$}  {words}").trim_end())
    })
}

/// Tables of a job that hold no number of the model.
const NO_AXES: [&str; 3] = ["title", "units", "scatter"];

/// The single values below a place; items of a list go by the name of the list.
fn walk(here: &[PathStep], name: &str, rows: &mut Vec<[String; 3]>) {
    let schema = JobFile::schema();
    let below = |step: PathStep| [here, &[step]].concat();
    let mut single = |name: String| {
        let value = schema.example(here).map_or_else(String::new, |value| as_toml(&value));
        let meaning = schema.meaning(here).unwrap_or_default().split_whitespace().collect::<Vec<_>>();
        rows.push([name, value, meaning.join(" ")]);
    };
    match schema.node(here) {
        Some(Node::Table(keys)) => {
            for key in keys.into_iter().filter(|key| !here.is_empty() || !NO_AXES.contains(key)) {
                let name = if name.is_empty() || name == "member" {
                    key.to_owned()
                } else {
                    format!("{name}.{key}")
                };
                walk(&below(PathStep::Key(key.to_owned())), &name, rows);
            }
        }
        Some(Node::Named) => walk(&below(PathStep::Key("any".to_owned())), name, rows),
        Some(Node::List) => match schema.node(&below(PathStep::Item(0))) {
            Some(Node::Table(_)) => walk(&below(PathStep::Item(0)), name, rows),
            Some(Node::List) => ["start", "end"].into_iter().for_each(|end| single(format!("{name}.{end}"))),
            _ => single(name.to_owned()),
        },
        Some(Node::Leaf) => single(name.to_owned()),
        None => {}
    }
}
