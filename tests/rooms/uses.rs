//! What a source file uses, read by parsing it: every path and every macro outside of tests.

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{Attribute, File, ImplItem, Item, ItemUse, Macro, Path, UseTree, Visibility};

/// A path that a file uses, as its names in order, and the line where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Used {
    pub line: usize,
    pub names: Vec<String>,
    /// The name under which the file hands it on (`pub use`); `*` for all names of a module.
    pub handed_on: Option<String>,
}

impl Used {
    /// Whether the path begins with these names.
    pub(crate) fn begins_with(&self, names: &[&str]) -> bool {
        self.names.len() >= names.len() && self.names.iter().zip(names).all(|(a, b)| a == b)
    }
}

/// Every path and macro name that the code of a file uses; what stands under `#[cfg(test)]` is left out.
///
/// # Errors
/// If the text is not Rust.
pub(crate) fn uses(text: &str) -> syn::Result<Vec<Used>> {
    let file: File = syn::parse_file(text)?;
    let mut finder = Finder { found: Vec::new(), hands_on: false };
    finder.visit_file(&file);
    Ok(finder.found)
}

struct Finder {
    found: Vec<Used>,
    /// Whether the `use` that is read hands its names on.
    hands_on: bool,
}

impl Finder {
    fn add(&mut self, line: usize, names: Vec<String>) {
        self.found.push(Used { line, names, handed_on: None });
    }

    fn import(&mut self, at: &syn::Ident, names: Vec<String>, known_as: &str) {
        let handed_on = self.hands_on.then(|| known_as.to_owned());
        self.found.push(Used { line: at.span().start().line, names, handed_on });
    }

    fn tree(&mut self, before: &[String], tree: &UseTree) {
        let with = |name: &syn::Ident| before.iter().cloned().chain([name.to_string()]).collect::<Vec<_>>();
        match tree {
            UseTree::Path(path) => self.tree(&with(&path.ident), &path.tree),
            UseTree::Name(name) => self.import(&name.ident, with(&name.ident), &name.ident.to_string()),
            UseTree::Rename(name) => self.import(&name.ident, with(&name.ident), &name.rename.to_string()),
            UseTree::Glob(glob) => {
                let line = glob.star_token.spans[0].start().line;
                let handed_on = self.hands_on.then(|| "*".to_owned());
                self.found.push(Used { line, names: before.to_vec(), handed_on });
            }
            UseTree::Group(group) => group.items.iter().for_each(|tree| self.tree(before, tree)),
        }
    }

    /// Paths inside the arguments of a macro, which are tokens and no syntax yet.
    fn tokens(&mut self, tokens: TokenStream) {
        let (mut names, mut line, mut colons) = (Vec::new(), 0, 0);
        for token in tokens {
            match token {
                TokenTree::Ident(ident) if names.is_empty() || colons == 2 => {
                    line = if names.is_empty() { ident.span().start().line } else { line };
                    names.push(ident.to_string());
                    colons = 0;
                }
                TokenTree::Punct(punct) if punct.as_char() == ':' && !names.is_empty() => colons += 1,
                other => {
                    self.end(&mut names, line);
                    colons = 0;
                    match other {
                        TokenTree::Ident(ident) => {
                            line = ident.span().start().line;
                            names.push(ident.to_string());
                        }
                        TokenTree::Group(group) => self.tokens(group.stream()),
                        TokenTree::Punct(_) | TokenTree::Literal(_) => {}
                    }
                }
            }
        }
        self.end(&mut names, line);
    }

    fn end(&mut self, names: &mut Vec<String>, line: usize) {
        if names.len() > 1 {
            self.add(line, std::mem::take(names));
        }
        names.clear();
    }
}

impl<'ast> Visit<'ast> for Finder {
    fn visit_item(&mut self, item: &'ast Item) {
        if !attributes(item).is_some_and(|a| for_tests(a)) {
            visit::visit_item(self, item);
        }
    }

    fn visit_impl_item(&mut self, item: &'ast ImplItem) {
        let attributes = match item {
            ImplItem::Fn(f) => Some(&f.attrs),
            ImplItem::Const(c) => Some(&c.attrs),
            _ => None,
        };
        if !attributes.is_some_and(|a| for_tests(a)) {
            visit::visit_impl_item(self, item);
        }
    }

    fn visit_item_use(&mut self, item: &'ast ItemUse) {
        self.hands_on = !matches!(item.vis, Visibility::Inherited);
        self.tree(&[], &item.tree);
        self.hands_on = false;
    }

    fn visit_path(&mut self, path: &'ast Path) {
        if let Some(first) = path.segments.first() {
            let names = path.segments.iter().map(|s| s.ident.to_string()).collect();
            self.add(first.ident.span().start().line, names);
        }
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, used: &'ast Macro) {
        visit::visit_macro(self, used);
        self.tokens(used.tokens.clone());
    }

    /// Who may see a thing is no use of it.
    fn visit_visibility(&mut self, _: &'ast Visibility) {}

    /// Doc comments and attributes use nothing.
    fn visit_attribute(&mut self, _: &'ast Attribute) {}
}

fn attributes(item: &Item) -> Option<&Vec<Attribute>> {
    match item {
        Item::Const(i) => Some(&i.attrs),
        Item::Enum(i) => Some(&i.attrs),
        Item::Fn(i) => Some(&i.attrs),
        Item::Impl(i) => Some(&i.attrs),
        Item::Macro(i) => Some(&i.attrs),
        Item::Mod(i) => Some(&i.attrs),
        Item::Static(i) => Some(&i.attrs),
        Item::Struct(i) => Some(&i.attrs),
        Item::Trait(i) => Some(&i.attrs),
        Item::Type(i) => Some(&i.attrs),
        Item::Use(i) => Some(&i.attrs),
        _ => None,
    }
}

/// Whether one of them is `#[cfg(test)]` or `#[test]`.
fn for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|a| {
        a.path().is_ident("test")
            || (a.path().is_ident("cfg") && a.parse_args::<Path>().is_ok_and(|p| p.is_ident("test")))
    })
}
