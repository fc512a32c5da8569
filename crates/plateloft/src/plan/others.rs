//! What is bought beside metal.

use job::Job;

use super::coverings::{self, LaidCovering};
use super::liners::{self, CutLiner};
use crate::speech::Refusal;

/// What is bought beside metal.
#[derive(Debug, Clone)]
pub(crate) struct Others {
    /// Roll goods.
    pub(crate) coverings: Vec<LaidCovering>,
    /// Wear liner.
    pub(crate) liners: Vec<CutLiner>,
}

impl Others {
    /// All of a job. `file` is its name in messages.
    ///
    /// # Errors
    /// What cannot be laid or divided.
    pub(crate) fn of(file: &str, job: &Job) -> Result<Self, Refusal> {
        Ok(Self { coverings: coverings::lay_all(file, job)?, liners: liners::cut_all(file, job)? })
    }
}
