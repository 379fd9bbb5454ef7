//! A place in a job, as a study names it: words with dots between them.
//!
//! * A word is a key: `member.length`; `member.` may be left out: `inner_flange.thickness`.
//! * In a list, a word that is no key of its items picks items: by number (`web.2.thickness`), or by any of their own
//!   words (`pass.outer.near.leg`, `pass.twin-6.leg`). Without such a word every item is meant.
//! * Under names of the user's own (`procedure`), a word is a name; without it all are meant.
//! * The depth profile takes `depth.start`, `depth.end` or the number of a point, and means its depth.
//! * `member.length` stretches the member: depth points, plate pieces and passes move in proportion.
//! * `job` is the whole job.
//! * `level`, `section.at`, `section.mesh` …: a setting of the study itself.

use super::settings::Setting;
use crate::input::near::{listed, meant, nearest};
use crate::input::{Hint, Node, PathStep, Schema, old_word, text_of};
use serde_json::Value;

/// What a place means.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Target {
    /// These values of the job.
    Nodes(Vec<Vec<PathStep>>),
    /// The length with everything along it.
    Length,
    /// The whole job.
    Job,
    /// A setting of the study.
    Setting(Setting),
}

/// A place that is not in the job: the word that leads nowhere, and what could stand there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoPlace {
    /// "no `legg` in `pass`".
    pub found: String,
    /// "did you mean `leg`? There: …".
    pub wanted: String,
    /// What helps.
    pub hint: Hint,
}

/// Finds a place in a job (its values, and the schema of a job file).
///
/// # Errors
/// [`NoPlace`] if a word leads nowhere.
pub(crate) fn find(place: &str, job: &Value, schema: &Schema) -> Result<Target, NoPlace> {
    match place {
        "job" => return Ok(Target::Job),
        "length" | "member.length" => return Ok(Target::Length),
        _ => {}
    }
    if let Some(setting) = Setting::named(place) {
        return Ok(Target::Setting(setting));
    }
    let words: Vec<&str> = place.split('.').map(str::trim).collect();
    let finder = Finder { job, schema };
    let nodes = finder
        .walk(&words, Vec::new())
        .map_err(|no| finder.further_in(place, &words, &no).unwrap_or_else(|| both_flanges(place, no)))?;
    if nodes.is_empty() {
        let found = format!("`{place}`, of which the job has none");
        let wanted = "a place that exists in the job".to_owned();
        return Err(NoPlace { found, wanted, hint: Hint::Nothing });
    }
    Ok(Target::Nodes(nodes))
}

struct Finder<'a> {
    job: &'a Value,
    schema: &'a Schema,
}

/// Every value that words lead to.
type Led = Result<Vec<Vec<PathStep>>, NoPlace>;

impl<'a> Finder<'a> {
    /// Keys of a table; none where there is no table.
    fn keys(&self, here: &[PathStep]) -> Vec<&'a str> {
        match self.schema.node(here) {
            Some(Node::Table(keys)) => keys,
            _ => Vec::new(),
        }
    }

    /// From each of these places on.
    fn each(&self, words: &[&str], places: impl Iterator<Item = Vec<PathStep>>) -> Led {
        let all: Result<Vec<_>, NoPlace> = places.map(|here| self.walk(words, here)).collect();
        Ok(all?.concat())
    }

    /// A place that lacks its first word: `leg` for `pass.leg`.
    fn further_in(&self, place: &str, words: &[&str], no: &NoPlace) -> Option<NoPlace> {
        let (tables, member) = (self.keys(&[]), self.keys(&[PathStep::Key("member".to_owned())]));
        let known = |word: &&str| tables.contains(word) || member.contains(word);
        if words.first().is_none_or(known) {
            return None;
        }
        let leads = |lead: &&str| {
            let whole: Vec<&str> = [&[*lead], words].concat();
            self.walk(&whole, Vec::new()).is_ok_and(|nodes| !nodes.is_empty())
        };
        let found: Vec<String> =
            tables.iter().chain(&member).filter(|t| leads(t)).map(|t| format!("{t}.{place}")).collect();
        let first = found.first()?;
        let wanted = match found.as_slice() {
            [only] => format!("did you mean `{only}`?"),
            several => format!("which of them? {}", listed(several.iter().map(String::as_str))),
        };
        Some(NoPlace { found: no.found.clone(), wanted, hint: Hint::Value(format!("{first:?}")) })
    }

    fn walk(&self, words: &[&str], here: Vec<PathStep>) -> Led {
        let Some((word, rest)) = words.split_first() else { return Ok(vec![here]) };
        match self.schema.node(&here) {
            Some(Node::Table(keys)) => self.key(word, rest, here, &keys),
            Some(Node::Named) => self.named(word, words, rest, &here),
            Some(Node::List) => self.items(word, words, rest, &here),
            Some(Node::Leaf) | None => Err(NoPlace {
                found: format!("`{word}` in `{}`, which is a single value", text_of(&here)),
                wanted: format!("nothing after `{}`", text_of(&here)),
                hint: Hint::Nothing,
            }),
        }
    }

    fn key(&self, word: &str, rest: &[&str], here: Vec<PathStep>, keys: &[&str]) -> Led {
        let member = [PathStep::Key("member".to_owned())];
        let of_member = if here.is_empty() { self.keys(&member) } else { Vec::new() };
        let mut next = here.clone();
        let word = known_as(word, keys);
        if !keys.contains(&word) && of_member.contains(&word) {
            next.extend(member);
        } else if !keys.contains(&word) {
            return Err(nowhere(word, &here, keys.iter().chain(&of_member).copied()));
        }
        next.push(PathStep::Key(word.to_owned()));
        self.walk(rest, next)
    }

    fn named(&self, word: &str, words: &[&str], rest: &[&str], here: &[PathStep]) -> Led {
        let named = at(self.job, here).and_then(Value::as_object);
        let names: Vec<&str> = named.into_iter().flat_map(|named| named.keys()).map(String::as_str).collect();
        let then = |name: &str| with(here, PathStep::Key(name.to_owned()));
        if names.contains(&word) {
            return self.walk(rest, then(word));
        }
        // every entry has the same keys, so the first tells whether the word is one of them
        let keys = self.keys(&then("any"));
        if !keys.contains(&word) {
            return Err(nowhere(word, here, names.into_iter().chain(keys)));
        }
        self.each(words, names.into_iter().map(then))
    }

    fn items(&self, word: &str, words: &[&str], rest: &[&str], here: &[PathStep]) -> Led {
        let items = at(self.job, here).and_then(Value::as_array).map_or(&[][..], Vec::as_slice);
        if self.schema.node(&with(here, PathStep::Item(0))) == Some(Node::List) {
            return Self::point(word, rest, here, items.len());
        }
        let keys = self.keys(&with(here, PathStep::Item(0)));
        if keys.contains(&known_as(word, &keys)) {
            return self.each(words, (0..items.len()).map(|i| with(here, PathStep::Item(i))));
        }
        let number = word.parse().ok().and_then(|n: usize| n.checked_sub(1)).filter(|n| *n < items.len());
        let picked: Vec<usize> = match number {
            Some(n) => vec![n],
            None => (0..items.len()).filter(|i| says(&items[*i], word)).collect(),
        };
        if picked.is_empty() {
            let own = items.iter().filter_map(Value::as_object).flat_map(|fields| fields.values());
            let mut own: Vec<&str> = own.filter_map(Value::as_str).filter(|w| !w.contains(' ')).collect();
            own.sort_unstable();
            own.dedup();
            return Err(nowhere(word, here, keys.into_iter().chain(own)));
        }
        self.picked(picked, rest, here, items, &keys)
    }

    /// More words may pick further before a key follows: `pass.outer.near.leg`.
    fn picked(
        &self,
        picks: Vec<usize>,
        rest: &[&str],
        here: &[PathStep],
        items: &[Value],
        keys: &[&str],
    ) -> Led {
        let further = rest.split_first().filter(|(word, _)| !keys.contains(&known_as(word, keys)));
        let Some((word, after)) = further else {
            return self.each(rest, picks.into_iter().map(|i| with(here, PathStep::Item(i))));
        };
        let narrowed: Vec<usize> = picks.into_iter().filter(|i| says(&items[*i], word)).collect();
        if narrowed.is_empty() {
            return Err(nowhere(word, here, keys.iter().copied()));
        }
        self.picked(narrowed, after, here, items, keys)
    }

    /// The depth of a point of the profile.
    fn point(word: &str, rest: &[&str], here: &[PathStep], count: usize) -> Led {
        let index = match word {
            "start" => Some(0),
            "end" => count.checked_sub(1),
            number => number.parse().ok().and_then(|n: usize| n.checked_sub(1)).filter(|n| *n < count),
        };
        let Some(index) = index.filter(|_| rest.is_empty()) else {
            let found = format!("`{word}` in `{}`", text_of(here));
            let wanted = format!("`start`, `end`, or the number of one of its {count} points");
            return Err(NoPlace { found, wanted, hint: Hint::Nothing });
        };
        Ok(vec![[here, &[PathStep::Item(index), PathStep::Item(1)]].concat()])
    }
}

/// The word of today for a word of older files.
fn known_as<'w>(word: &'w str, keys: &[&'w str]) -> &'w str {
    let new = || keys.iter().find(|key| old_word(key) == Some(word)).copied();
    if keys.contains(&word) { word } else { new().unwrap_or(word) }
}

/// Whether one of an item's own values is that word.
fn says(item: &Value, word: &str) -> bool {
    item.as_object().is_some_and(|fields| fields.values().any(|value| value.as_str() == Some(word)))
}

fn with(here: &[PathStep], step: PathStep) -> Vec<PathStep> {
    [here, &[step]].concat()
}

fn nowhere<'n>(word: &str, here: &[PathStep], names: impl Iterator<Item = &'n str>) -> NoPlace {
    let names: Vec<&str> = names.collect();
    let place = if here.is_empty() { "the job".to_owned() } else { format!("`{}`", text_of(here)) };
    let all = listed(names.iter().copied());
    let wanted = match nearest(word, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`? There: {all}"),
        None => format!("one of {all}"),
    };
    let hint = meant(word, &names).map_or(Hint::Nothing, |name| Hint::Value(name.to_owned()));
    NoPlace { found: format!("`{word}`, which is not in {place}"), wanted, hint }
}

/// The whole place with the word put right; "flange" alone is two axes that go together.
fn both_flanges(place: &str, no: NoPlace) -> NoPlace {
    let rest = ["flange.", "flanges.", "member.flange.", "member.flanges."]
        .iter()
        .find_map(|lead| place.strip_prefix(lead));
    if let Some(rest) = rest {
        let line = |seam: &str| format!("set = \"{seam}_flange.{rest}\"\ntogether = \"flanges\"");
        let lines = format!("[[vary]]\n{}\n[[vary]]\n{}", line("outer"), line("inner"));
        let wanted = "`outer_flange` or `inner_flange`; both are two [[vary]] with the same word in `together`, each with the values";
        return NoPlace { wanted: wanted.to_owned(), hint: Hint::Right(lines), ..no };
    }
    let wrong = no.found.split('`').nth(1).unwrap_or_default();
    let hint = match &no.hint {
        Hint::Value(name) => {
            let words = place.split('.').map(|word| if word.trim() == wrong { name.as_str() } else { word });
            Hint::Value(format!("{:?}", words.collect::<Vec<_>>().join(".")))
        }
        other => other.clone(),
    };
    NoPlace { hint, ..no }
}

/// The value at a path, if there is one.
pub(crate) fn at<'v>(value: &'v Value, steps: &[PathStep]) -> Option<&'v Value> {
    steps.iter().try_fold(value, |here, step| match step {
        PathStep::Key(key) => here.get(key.as_str()),
        PathStep::Item(index) => here.get(*index),
    })
}

/// The place of a value at a path, with tables made on the way where there are none.
pub(crate) fn make<'v>(value: &'v mut Value, steps: &[PathStep]) -> Option<&'v mut Value> {
    steps.iter().try_fold(value, |here, step| match step {
        PathStep::Key(key) => {
            if here.is_null() {
                *here = Value::Object(serde_json::Map::new());
            }
            Some(here.as_object_mut()?.entry(key.as_str()).or_insert(Value::Null))
        }
        PathStep::Item(index) => here.get_mut(*index),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Form;
    use crate::job::file::JobFile;
    use crate::job::{STARTER, file_of_text};

    fn places(place: &str) -> Vec<String> {
        let job = serde_json::to_value(file_of_text("starter.toml", STARTER).unwrap()).unwrap();
        match find(place, &job, JobFile::schema()) {
            Ok(Target::Nodes(nodes)) => nodes.iter().map(|n| text_of(n)).collect(),
            Ok(other) => vec![format!("{other:?}")],
            Err(no) => vec![format!("found {}; wanted {}", no.found, no.wanted)],
        }
    }

    #[test]
    fn words_lead_to_every_match() {
        assert_eq!(places("pass.leg"), ["pass[0].leg", "pass[1].leg"]);
        assert_eq!(places("pass.inner.leg"), ["pass[1].leg"]);
        assert_eq!(places("pass.outer.near.leg"), ["pass[0].leg"]);
        assert_eq!(places("pass.2.leg"), ["pass[1].leg"]);
        assert_eq!(places("web.thickness"), ["member.web[0].thickness"]);
        assert_eq!(places("member.depth.end"), ["member.depth[2][1]"]);
        assert_eq!(places("factors.force"), ["factors.force"]);
        assert_eq!(places("length"), ["Length"]);
        assert_eq!(places("pass.step"), ["pass[0].step", "pass[1].step"]);
        assert_eq!(places("pass.outer.order"), ["pass[0].step"], "as older studies name it");
        let all = places("procedure.travel_speed");
        assert!(all.iter().all(|p| p.starts_with("procedure.") && p.ends_with(".travel_speed")), "{all:?}");
    }

    #[test]
    fn a_word_that_leads_nowhere_is_named_with_the_one_probably_meant() {
        for (place, say) in [
            ("pass.legg", "did you mean `leg`"),
            ("leg", "did you mean `pass.leg`"),
            ("thickness", "`outer_flange.thickness`"),
            ("inner_flang.thickness", "did you mean `inner_flange`"),
            ("pass.left.leg", "`left`, which is not in `pass`"),
            ("depth.middle", "`start`, `end`"),
            ("member.length.x", "nothing after `member.length`"),
            ("", "which is not in the job"),
        ] {
            let said = places(place).join("");
            assert!(said.contains(say), "{place}: {said}");
        }
    }
}
