//! The job file that a new job starts from.

/// A small job of our own, with notes that explain it. It reads, and can be planned as it stands.
#[must_use]
pub fn starter() -> &'static str {
    include_str!("starter.json")
}
