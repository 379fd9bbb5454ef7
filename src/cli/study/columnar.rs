//! The rows as Parquet, the columnar format that data tools read: made from the proven table once all rows are there, so that nothing
//! of how rows survive a kill depends on it.
//!
//! Columns have the names of the table. `case` is a whole number; inputs and results are doubles, null where there is none; words
//! and `reason` are strings. File metadata hold the study's title, its fingerprint and the build.

use super::label::{Label, Names, Proof, or_removed, to_write, unfinished};
use super::read_back;
use crate::cli::files::{fault_at, unwritten};
use crate::input::text;
use crate::study::{CASE, REASON, Study, Values};
use csv::StringRecord;
use parquet::basic::{Encoding, LogicalType, Repetition, Type as Physical};
use parquet::data_type::{ByteArray, ByteArrayType, DataType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::metadata::KeyValue;
use parquet::file::properties::{WriterProperties, WriterPropertiesPtr};
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use parquet::schema::types::{ColumnPath, Type};
use std::fs::{File, rename};
use std::io::{BufWriter, Error, ErrorKind, Result, Write};
use std::path::Path;
use std::sync::Arc;

/// Rows of a group (a choice: some megabytes, all that is held at once).
const GROUP_ROWS: usize = 65_536;

/// Writes the rows of a finished run as Parquet beside them, unless they stand there already.
///
/// # Errors
/// If rows are missing, or the file cannot be written or is another's.
pub(crate) fn keep(study: &Study, names: &Names, force: bool, out: &mut dyn Write) -> Result<()> {
    let path = names.parquet();
    let Some(label) = Label::read(&names.label())? else { return Ok(()) };
    let shown = text::path(&path);
    if path.exists() {
        let now = Proof::of(&path, String::new())?;
        match &label.parquet {
            Some(proof) if proof.sha256 == now.sha256 => {
                return writeln!(out, "The same as Parquet is there already, in {shown}");
            }
            None if !force => {
                let text = " stands there already and was not written by this study: give another folder, or --force to write over it";
                return Err(fault_at(ErrorKind::AlreadyExists, &path, text));
            }
            _ => {}
        }
    }
    let beside = unfinished(&path);
    let written =
        whole(study, names, &label, &beside).and_then(|()| rename(&beside, &path).map_err(unwritten(&path)));
    or_removed(written, [&beside])?;
    Label { parquet: Some(Proof::beside(&path)?), ..label }.keep(names)?;
    writeln!(out, "The same as Parquet in {shown}")
}

/// Writes the whole file under another name.
fn whole(study: &Study, names: &Names, label: &Label, to: &Path) -> Result<()> {
    let file = to_write(to)?;
    file.set_len(0).map_err(unwritten(to))?;
    let failed = |e: ParquetError| unwritten(to)(Error::other(e));
    let mut columns = columns(study);
    let schema = schema(study, &columns).map_err(failed)?;
    let mut writer =
        SerializedFileWriter::new(BufWriter::new(file), schema, properties(label)).map_err(failed)?;
    let (csv, mut held) = (names.csv(), 0);
    read_back::each(study, &csv, |record| {
        take(&mut columns, &csv, record)?;
        held += 1;
        if held == GROUP_ROWS {
            held = 0;
            group(&mut columns, &mut writer).map_err(failed)?;
        }
        Ok(())
    })?;
    if held > 0 {
        group(&mut columns, &mut writer).map_err(failed)?;
    }
    let mut inner = writer.into_inner().map_err(failed)?;
    inner.flush().map_err(unwritten(to))
}

/// One column of the rows at hand.
#[derive(Debug)]
enum Column {
    Case(Vec<i64>),
    /// The numbers that are there, and for every row whether it has one.
    Numbers(Vec<f64>, Vec<i16>),
    Words(Vec<ByteArray>),
    /// As numbers.
    Reason(Vec<ByteArray>, Vec<i16>),
}

fn columns(study: &Study) -> Vec<Column> {
    let of = |values| match values {
        Values::Numbers(_) => Column::Numbers(Vec::new(), Vec::new()),
        Values::Words(_) => Column::Words(Vec::new()),
    };
    let own = study.columns().into_iter().map(|column| of(column.values));
    [Column::Case(Vec::new())]
        .into_iter()
        .chain(own)
        .chain([Column::Reason(Vec::new(), Vec::new())])
        .collect()
}

fn schema(study: &Study, columns: &[Column]) -> std::result::Result<Arc<Type>, ParquetError> {
    let field = |(name, column): (&String, &Column)| {
        let (physical, repetition) = match column {
            Column::Case(_) => (Physical::INT64, Repetition::REQUIRED),
            Column::Numbers(..) => (Physical::DOUBLE, Repetition::OPTIONAL),
            Column::Words(_) => (Physical::BYTE_ARRAY, Repetition::REQUIRED),
            Column::Reason(..) => (Physical::BYTE_ARRAY, Repetition::OPTIONAL),
        };
        let words = matches!(column, Column::Words(_) | Column::Reason(..));
        let of = Type::primitive_type_builder(name, physical).with_repetition(repetition);
        of.with_logical_type(words.then_some(LogicalType::String)).build().map(Arc::new)
    };
    let heads = study.heads();
    let fields = heads.iter().zip(columns).map(field).collect::<std::result::Result<_, _>>()?;
    Type::group_type_builder("rows").with_fields(fields).build().map(Arc::new)
}

/// The same bytes from every run: nothing of the clock or of the library's version gets in.
fn properties(label: &Label) -> WriterPropertiesPtr {
    let said = [("study", &label.study), ("fingerprint", &label.fingerprint), ("build", &label.build)];
    let said = said.map(|(key, value)| KeyValue::new(key.to_owned(), value.clone())).to_vec();
    let case = || ColumnPath::from(CASE);
    let properties = WriterProperties::builder()
        .set_created_by("weldbow".to_owned())
        .set_key_value_metadata(Some(said))
        .set_column_dictionary_enabled(case(), false)
        .set_column_encoding(case(), Encoding::DELTA_BINARY_PACKED);
    Arc::new(properties.build())
}

/// Puts a row into the columns.
fn take(columns: &mut [Column], path: &Path, record: &StringRecord) -> Result<()> {
    let word = |cell: &str| ByteArray::from(text::of_cell(cell));
    for (column, cell) in columns.iter_mut().zip(record) {
        match column {
            Column::Case(cases) => {
                let what = || format!(": a row without its {CASE}");
                cases.push(cell.parse().map_err(|_| fault_at(ErrorKind::InvalidData, path, what()))?);
            }
            Column::Numbers(numbers, there) => {
                let number = Some(read_back::number(path, record, cell)?).filter(|number| number.is_finite());
                there.push(i16::from(number.is_some()));
                numbers.extend(number);
            }
            Column::Words(words) => words.push(word(cell)),
            Column::Reason(reasons, there) => {
                there.push(i16::from(!cell.is_empty()));
                reasons.extend((!cell.is_empty()).then(|| word(cell)));
            }
        }
    }
    Ok(())
}

type Writer = SerializedFileWriter<BufWriter<File>>;

/// Writes the rows at hand as one group and empties the columns.
fn group(columns: &mut [Column], writer: &mut Writer) -> std::result::Result<(), ParquetError> {
    let mut group = writer.next_row_group()?;
    for column in columns {
        match column {
            Column::Case(cases) => put::<Int64Type>(&mut group, cases, None)?,
            Column::Numbers(numbers, there) => put::<DoubleType>(&mut group, numbers, Some(there))?,
            Column::Words(words) => put::<ByteArrayType>(&mut group, words, None)?,
            Column::Reason(reasons, there) => put::<ByteArrayType>(&mut group, reasons, Some(there))?,
        }
    }
    group.close().map(drop)
}

fn put<T: DataType>(
    group: &mut SerializedRowGroupWriter<'_, BufWriter<File>>,
    values: &mut Vec<T::T>,
    there: Option<&mut Vec<i16>>,
) -> std::result::Result<(), ParquetError> {
    let none = || ParquetError::General(format!("a column too few for the rows up to {REASON}"));
    let mut column = group.next_column()?.ok_or_else(none)?;
    column.typed::<T>().write_batch(values, there.as_deref().map(Vec::as_slice), None)?;
    column.close()?;
    values.clear();
    there.into_iter().for_each(|there| there.clear());
    Ok(())
}
