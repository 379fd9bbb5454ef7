//! Copies into the room of a value that is there.

/// `Clone` of a type field by field, which puts one of many in the room of the last and allocates nothing; a field that it forgets does not
/// compile.
macro_rules! clone_in_place {
    ($name:ident: $($field:ident),+) => {
        impl Clone for $name {
            fn clone(&self) -> Self {
                Self { $($field: self.$field.clone()),+ }
            }

            #[allow(clippy::assigning_clones)]
            fn clone_from(&mut self, source: &Self) {
                let Self { $($field),+ } = source;
                $(self.$field.clone_from($field);)+
            }
        }
    };
}

pub(crate) use clone_in_place;

/// Puts other values into a list, in the room that it has.
pub(crate) fn refill<T>(list: &mut Vec<T>, values: impl Iterator<Item = T>) {
    list.clear();
    list.extend(values);
}
