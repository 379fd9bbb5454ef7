//! Which kind of file a command is about.

/// The switches that name one; a job without any.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
#[group(multiple = false)]
pub struct KindArgs {
    /// A study file instead of a job
    #[arg(long)]
    study: bool,
    /// A shop file instead of a job
    #[arg(long)]
    shop: bool,
}

/// A kind of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A job.
    Job,
    /// A study of jobs.
    Study,
    /// A shop.
    Shop,
}

impl KindArgs {
    /// The kind asked for.
    pub const fn kind(self) -> Kind {
        match (self.study, self.shop) {
            (true, _) => Kind::Study,
            (_, true) => Kind::Shop,
            _ => Kind::Job,
        }
    }
}

#[cfg(test)]
impl From<Kind> for KindArgs {
    fn from(kind: Kind) -> Self {
        Self { study: kind == Kind::Study, shop: kind == Kind::Shop }
    }
}
