//! A list of marks.
