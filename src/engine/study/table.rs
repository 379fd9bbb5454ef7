//! What a study brings back: columns of equal length, one row a case.

/// What stands in a column.
#[derive(Debug, Clone, PartialEq)]
pub enum Values {
    /// Numbers in `unit`; a case that failed has NaN here, and only here.
    Numbers(Vec<f64>),
    /// Words, such as the name of a procedure.
    Words(Vec<String>),
}

/// One column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its name in the study file: "pass.leg", "camber.max_mm".
    pub name: String,
    /// What it is, for an axis: "leg", "camber, + toward the inner flange".
    pub words: String,
    /// Unit of the numbers as shown, "mm", "kJ/mm"; empty for pure numbers and words.
    pub unit: String,
    /// What stands in it.
    pub values: Values,
}

/// Columns of equal length.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Columns in the order of the study file: what varies, then what is collected.
    pub columns: Vec<Column>,
}

impl Table {
    /// Column by its name.
    pub fn column(&self, name: &str) -> Option<&Column> {
        self.columns.iter().find(|column| column.name == name)
    }

    /// Rows in every column.
    pub fn rows(&self) -> usize {
        self.columns.first().map_or(0, |column| match &column.values {
            Values::Numbers(numbers) => numbers.len(),
            Values::Words(words) => words.len(),
        })
    }
}

impl Column {
    /// Numbers, if it holds numbers.
    pub fn numbers(&self) -> Option<&[f64]> {
        match &self.values {
            Values::Numbers(numbers) => Some(numbers),
            Values::Words(_) => None,
        }
    }
}
