//! What tells one issue of a job's paper from another: its date and its revision.

use job::Job;

/// What stands where the job says nothing, so that the place is seen to be empty.
const NOT_GIVEN: &str = "—";

/// Date and revision by name.
pub(super) fn head(job: &Job) -> Vec<(String, String)> {
    let given = |value: &Option<String>| value.clone().unwrap_or_else(|| NOT_GIVEN.to_owned());
    vec![("date".to_owned(), given(&job.date)), ("revision".to_owned(), given(&job.revision))]
}

/// Date and revision in words.
pub(crate) fn edition(job: &Job) -> String {
    head(job).iter().map(|(name, value)| format!("{name} {value}")).collect::<Vec<_>>().join(", ")
}

/// The first lines of every label: the job, and which issue of it, so that an old label is told from a new one.
pub(crate) fn label_head(job: &Job) -> Vec<String> {
    vec![job.name.clone(), edition(job)]
}
