//! A formula can be skimmed: every public function of the physics that gives a number shows one that a hand calculator confirms, and the
//! documentation tests run it.

use super::{Source, sources};
use syn::visit::{Visit, visit_item_mod};
use syn::{Attribute, Expr, ExprLit, Item, ItemFn, ItemMod, Lit, Meta, ReturnType, Type, Visibility};

/// Rooms whose functions are formulas.
const PHYSICS: [&str; 7] = ["angular", "bow", "member", "shrinkage", "steel", "strength", "welding"];

#[test]
fn every_formula_shows_an_example() {
    let mut bare = Vec::new();
    let physics =
        |s: &&Source| s.krate == "engine" && PHYSICS.contains(&s.room.as_str()) && !s.for_tests_alone();
    for source in sources().iter().filter(physics) {
        bare.extend(
            without_example(&source.text).into_iter().map(|f| format!("{}: {f}", source.path.display())),
        );
    }
    assert!(bare.is_empty(), "formulas without an example to check by hand:\n{}", bare.join("\n"));
}

#[test]
fn a_planted_formula_without_example_is_found_and_others_are_not() {
    let bare =
        "/// Stress, MPa.\npub fn stress_mpa(n: f64) -> f64 { n }\npub fn strain<N: Number>(n: N) -> N { n }";
    assert_eq!(without_example(bare), ["stress_mpa", "strain"]);
    let shown = "/// Stress.\n/// ```\n/// assert!(true);\n/// ```\npub fn stress_mpa(n: f64) -> f64 { n }";
    let private = "fn stress_mpa(n: f64) -> f64 { n }\npub(super) fn strain(n: f64) -> f64 { n }";
    let for_tests = "#[cfg(test)]\nmod tests { pub fn stress_mpa(n: f64) -> f64 { n } }";
    for text in [shown, private, for_tests] {
        assert!(without_example(text).is_empty(), "{text}");
    }
}

/// Names of public free functions that give a number and show none.
fn without_example(text: &str) -> Vec<String> {
    let mut found = Found::default();
    found.visit_file(&syn::parse_file(text).unwrap());
    found.0
}

#[derive(Default)]
struct Found(Vec<String>);

impl<'a> Visit<'a> for Found {
    fn visit_item_mod(&mut self, module: &'a ItemMod) {
        if !module.attrs.iter().any(|a| a.path().is_ident("cfg")) {
            visit_item_mod(self, module);
        }
    }

    fn visit_item(&mut self, item: &'a Item) {
        match item {
            Item::Fn(function) if is_formula(function) && !shows(&function.attrs) => {
                self.0.push(function.sig.ident.to_string());
            }
            Item::Mod(module) => self.visit_item_mod(module),
            _ => {}
        }
    }
}

fn is_formula(function: &ItemFn) -> bool {
    let gives_number = match &function.sig.output {
        ReturnType::Type(_, of) => {
            matches!(&**of, Type::Path(path) if path.path.is_ident("f64") || path.path.is_ident("N"))
        }
        ReturnType::Default => false,
    };
    matches!(function.vis, Visibility::Public(_)) && gives_number
}

/// Whether its documentation has a fenced example.
fn shows(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|a| match &a.meta {
        Meta::NameValue(doc) if doc.path.is_ident("doc") => {
            matches!(&doc.value, Expr::Lit(ExprLit { lit: Lit::Str(line), .. }) if line.value().trim_start().starts_with("```"))
        }
        _ => false,
    })
}
