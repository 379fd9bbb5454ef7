//! The shape of a table that a person fills in.

/// Tables of a form: a key that one does not have is refused. A line is `pub key: Kind as "an example",`. One that may be left out, an
/// `Option` or what is `= usual` where nothing is said, is not written where it was. A choice of words is an enum of the form, with the
/// word that is taken where nothing is said as its default.
macro_rules! shape {
    (@lines [$($head:tt)*] [$($done:tt)*]) => {
        $($head)* { $($done)* }
    };
    (@lines $head:tt [$($done:tt)*]
     $(#[$($of:tt)*])* pub $key:ident: Option<$kind:ty> $(as $example:tt)?, $($rest:tt)*) => {
        $crate::input::shape! {
            @lines $head [
                $($done)*
                $(#[$($of)*])*
                $(#[schemars(example = serde_json::json!($example))])?
                #[serde(default, skip_serializing_if = "Option::is_none")]
                pub $key: Option<$kind>,
            ] $($rest)*
        }
    };
    (@lines $head:tt [$($done:tt)*]
     $(#[$($of:tt)*])* pub $key:ident: $kind:ty = usual $(as $example:tt)?, $($rest:tt)*) => {
        $crate::input::shape! {
            @lines $head [
                $($done)*
                $(#[$($of)*])*
                $(#[schemars(example = serde_json::json!($example))])?
                #[serde(default, skip_serializing_if = "crate::input::is_usual")]
                pub $key: $kind,
            ] $($rest)*
        }
    };
    (@lines $head:tt [$($done:tt)*]
     $(#[$($of:tt)*])* pub $key:ident: $kind:ty $(as $example:tt)?, $($rest:tt)*) => {
        $crate::input::shape! {
            @lines $head [
                $($done)*
                $(#[$($of)*])*
                $(#[schemars(example = serde_json::json!($example))])?
                pub $key: $kind,
            ] $($rest)*
        }
    };
    (@of struct [$($about:tt)*] $name:ident { $($lines:tt)* }) => {
        $crate::input::shape! {
            @lines [
                $($about)*
                #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
                #[serde(deny_unknown_fields)]
                pub struct $name
            ] [] $($lines)*
        }
    };
    (@of enum [$($about:tt)*] $name:ident { $($words:tt)* }) => {
        $($about)*
        #[derive(Debug, Clone, Copy, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
        #[serde(rename_all = "kebab-case")]
        pub enum $name { $($words)* }
    };
    ($($(#[$($of:tt)*])* pub $what:tt $name:ident { $($lines:tt)* })+) => {
        $($crate::input::shape! { @of $what [$(#[$($of)*])*] $name { $($lines)* } })+
    };
}
pub(crate) use shape;

/// Whether it is what is taken where nothing is said.
pub(crate) fn is_usual<T: Default + PartialEq>(said: &T) -> bool {
    *said == T::default()
}
