//! The shape of a table that a person fills in.

/// Tables of a form: a key that one does not have is refused, and a line that may be left out, an `Option`, is not written where it
/// was.
macro_rules! shape {
    (@lines [$($head:tt)*] [$($done:tt)*]) => {
        $($head)* { $($done)* }
    };
    (@lines $head:tt [$($done:tt)*] $(#[$($of:tt)*])* pub $key:ident: Option<$kind:ty>, $($rest:tt)*) => {
        $crate::input::shape! {
            @lines $head [
                $($done)*
                $(#[$($of)*])*
                #[serde(default, skip_serializing_if = "Option::is_none")]
                pub $key: Option<$kind>,
            ] $($rest)*
        }
    };
    (@lines $head:tt [$($done:tt)*] $(#[$($of:tt)*])* pub $key:ident: $kind:ty, $($rest:tt)*) => {
        $crate::input::shape! { @lines $head [$($done)* $(#[$($of)*])* pub $key: $kind,] $($rest)* }
    };
    ($($(#[$($of:tt)*])* pub struct $name:ident { $($lines:tt)* })+) => {
        $($crate::input::shape! {
            @lines [
                $(#[$($of)*])*
                #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
                #[serde(deny_unknown_fields)]
                pub struct $name
            ] [] $($lines)*
        })+
    };
}
pub(crate) use shape;

/// Whether it is what is taken where nothing is said.
pub(crate) fn is_usual<T: Default + PartialEq>(said: &T) -> bool {
    *said == T::default()
}
