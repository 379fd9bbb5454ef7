//! What all tables of a job file have in common.

/// Tables of a file: nothing unknown may stand in them, and what is an `Option` may be left out, as it is where a table is written
/// without it.
macro_rules! tables {
    ($($(#$about:tt)* pub struct $name:ident { $($fields:tt)* })+) => {
        $(tables! { @ [$(#$about)* pub struct $name] [] $($fields)* })+
    };
    (@ [$($head:tt)*] [$($fields:tt)*]) => {
        #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
        #[serde(deny_unknown_fields)]
        $($head)* { $($fields)* }
    };
    (@ $head:tt [$($done:tt)*] $(#$about:tt)* pub $key:ident: Option<$type:ty>, $($rest:tt)*) => {
        tables! {
            @ $head
            [
                $($done)*
                $(#$about)*
                #[serde(default, skip_serializing_if = "Option::is_none")]
                pub $key: Option<$type>,
            ]
            $($rest)*
        }
    };
    (@ $head:tt [$($done:tt)*] $(#$about:tt)* pub $key:ident: $type:ty, $($rest:tt)*) => {
        tables! { @ $head [$($done)* $(#$about)* pub $key: $type,] $($rest)* }
    };
}

pub(super) use tables;

/// Whether nothing is said.
pub(super) fn is_default<T: Default + PartialEq>(said: &T) -> bool {
    *said == T::default()
}
