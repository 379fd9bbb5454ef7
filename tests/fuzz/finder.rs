//! A serializer that writes nothing and finds every number that is none, or that no member, piece or shop can have. (JSON cannot tell:
//! a number that is not finite becomes the same null as a result that is not there.)

use serde::Serialize;
use serde::ser::{
    Error as _, SerializeMap, SerializeSeq, SerializeStruct, SerializeStructVariant, SerializeTuple,
    SerializeTupleStruct, SerializeTupleVariant, Serializer,
};
use serde_json::Error;

/// Largest size of a number by how its name ends (choices, far beyond what can be: a kilometre, a full turn, a gigapascal …).
const LARGEST: [(&str, f64); 6] =
    [("_mm", 1e6), ("_rad", 7.0), ("_mpa", 1e6), ("_k", 1e5), ("_c", 1e5), ("_n", 1e12)];
/// Largest of any other.
const LARGEST_OF_ALL: f64 = 1e15;

/// Numbers of a value that are not finite or absurd, with their path; what stands below one of `but` is not looked at.
pub(crate) fn absurd<T: Serialize>(value: &T, but: &[&str]) -> Vec<String> {
    let mut finder =
        Finder { path: Vec::new(), found: Vec::new(), but: but.iter().map(|s| (*s).to_owned()).collect() };
    if let Err(error) = value.serialize(&mut finder) {
        finder.found.push(format!("cannot be serialized: {error}"));
    }
    finder.found
}

struct Finder {
    path: Vec<String>,
    found: Vec<String>,
    but: Vec<String>,
}

impl Finder {
    fn number(&mut self, value: f64) {
        let name = self.path.iter().rev().find(|step| step.parse::<usize>().is_err());
        let name = name.map_or("", String::as_str);
        let of_name = LARGEST.iter().find(|(ending, _)| name.ends_with(ending));
        let most = of_name.map_or(LARGEST_OF_ALL, |(_, most)| *most);
        let skipped = self.path.first().is_some_and(|first| self.but.contains(first));
        if !skipped && (!value.is_finite() || value.abs() > most) {
            self.found.push(format!("{} is {value}", self.path.join(".")));
        }
    }

    fn under<T: Serialize + ?Sized>(&mut self, step: String, value: &T) -> Result<(), Error> {
        self.path.push(step);
        let done = value.serialize(&mut *self);
        self.path.pop();
        done
    }
}

/// Items one after the other, or fields.
struct Items<'a> {
    finder: &'a mut Finder,
    next: usize,
    key: String,
}

impl Items<'_> {
    fn item<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Error> {
        self.next += 1;
        self.finder.under((self.next - 1).to_string(), value)
    }
}

macro_rules! nothing {
    ($($name:ident: $of:ty),*) => {$(fn $name(self, _: $of) -> Result<(), Error> { Ok(()) })*};
}

impl<'a> Serializer for &'a mut Finder {
    type Ok = ();
    type Error = Error;
    type SerializeSeq = Items<'a>;
    type SerializeTuple = Items<'a>;
    type SerializeTupleStruct = Items<'a>;
    type SerializeTupleVariant = Items<'a>;
    type SerializeMap = Items<'a>;
    type SerializeStruct = Items<'a>;
    type SerializeStructVariant = Items<'a>;

    nothing!(serialize_bool: bool, serialize_i8: i8, serialize_i16: i16, serialize_i32: i32, serialize_i64: i64, serialize_u8: u8,
        serialize_u16: u16, serialize_u32: u32, serialize_u64: u64, serialize_char: char, serialize_str: &str, serialize_bytes: &[u8],
        serialize_unit_struct: &'static str);

    fn serialize_f32(self, value: f32) -> Result<(), Error> {
        self.serialize_f64(f64::from(value))
    }
    fn serialize_f64(self, value: f64) -> Result<(), Error> {
        self.number(value);
        Ok(())
    }
    fn serialize_none(self) -> Result<(), Error> {
        Ok(())
    }
    fn serialize_unit(self) -> Result<(), Error> {
        Ok(())
    }
    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<(), Error> {
        value.serialize(self)
    }
    fn serialize_unit_variant(self, _: &'static str, _: u32, _: &'static str) -> Result<(), Error> {
        Ok(())
    }
    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        value: &T,
    ) -> Result<(), Error> {
        value.serialize(self)
    }
    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<(), Error> {
        self.under(variant.to_owned(), value)
    }
    fn serialize_seq(self, _: Option<usize>) -> Result<Items<'a>, Error> {
        Ok(Items { finder: self, next: 0, key: String::new() })
    }
    fn serialize_tuple(self, _: usize) -> Result<Items<'a>, Error> {
        self.serialize_seq(None)
    }
    fn serialize_tuple_struct(self, _: &'static str, _: usize) -> Result<Items<'a>, Error> {
        self.serialize_seq(None)
    }
    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Items<'a>, Error> {
        self.serialize_seq(None)
    }
    fn serialize_map(self, _: Option<usize>) -> Result<Items<'a>, Error> {
        self.serialize_seq(None)
    }
    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Items<'a>, Error> {
        self.serialize_seq(None)
    }
    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Items<'a>, Error> {
        self.serialize_seq(None)
    }
}

macro_rules! items {
    ($($kind:ident $add:ident),*) => {$(impl $kind for Items<'_> {
        type Ok = ();
        type Error = Error;
        fn $add<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Error> { self.item(value) }
        fn end(self) -> Result<(), Error> { Ok(()) }
    })*};
}
items!(SerializeSeq serialize_element, SerializeTuple serialize_element, SerializeTupleStruct serialize_field,
    SerializeTupleVariant serialize_field);

macro_rules! fields {
    ($($kind:ident),*) => {$(impl $kind for Items<'_> {
        type Ok = ();
        type Error = Error;
        fn serialize_field<T: Serialize + ?Sized>(&mut self, key: &'static str, value: &T) -> Result<(), Error> {
            self.finder.under(key.to_owned(), value)
        }
        fn end(self) -> Result<(), Error> { Ok(()) }
    })*};
}
fields!(SerializeStruct, SerializeStructVariant);

impl SerializeMap for Items<'_> {
    type Ok = ();
    type Error = Error;
    fn serialize_key<T: Serialize + ?Sized>(&mut self, key: &T) -> Result<(), Error> {
        let key = serde_json::to_value(key).map_err(Error::custom)?;
        self.key = key.as_str().map_or_else(|| key.to_string(), str::to_owned);
        Ok(())
    }
    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Error> {
        self.finder.under(self.key.clone(), value)
    }
    fn end(self) -> Result<(), Error> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::absurd;
    use serde::Serialize;
    use std::collections::BTreeMap;

    #[derive(Serialize)]
    struct Sample {
        bow_mm: f64,
        shown: Option<f64>,
        rows: Vec<[f64; 2]>,
        named: BTreeMap<&'static str, f64>,
        way: Way,
    }

    #[derive(Serialize)]
    enum Way {
        Push { force_n: f64 },
        Heat(f64),
    }

    /// It must be able to find, or it proves nothing.
    #[test]
    fn every_kind_of_place_is_looked_at() {
        let sound = |way| Sample {
            bow_mm: 3.0,
            shown: None,
            rows: vec![[0.0, 1.0]],
            named: BTreeMap::from([("tilt_rad", 0.1)]),
            way,
        };
        assert_eq!(absurd(&sound(Way::Heat(1.0)), &[]), Vec::<String>::new());
        let mut bad = sound(Way::Push { force_n: f64::NAN });
        bad.bow_mm = 2e6;
        bad.shown = Some(f64::INFINITY);
        bad.rows.push([f64::NAN, 1e16]);
        bad.named.insert("tilt_rad", -9.0);
        let found = absurd(&bad, &[]);
        assert_eq!(
            found,
            [
                "bow_mm is 2000000",
                "shown is inf",
                "rows.1.0 is NaN",
                "rows.1.1 is 10000000000000000",
                "named.tilt_rad is -9",
                "way.force_n is NaN"
            ],
            "{found:?}"
        );
        assert_eq!(absurd(&bad, &["rows", "named", "way", "shown"]), ["bow_mm is 2000000"]);
        assert_eq!(absurd(&Way::Heat(f64::NEG_INFINITY), &[]), ["Heat is -inf"]);
    }
}
