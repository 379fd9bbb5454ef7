//! Lessons.
/// A lesson.
#[derive(Debug)]
pub struct Lesson;
/// All.
pub fn lessons() -> Vec<Lesson> { Vec::new() }
