//! Sheets as they were received, as they are written. Like the rack the file outlives the job's units, so every length
//! carries its own.

use serde::{Deserialize, Serialize};

/// The file without its sheets.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReceivedFile {
    /// Version of the file: 1.
    #[expect(dead_code, reason = "the version is looked at before anything else is read")]
    pub(crate) plateloft_received: u64,
    /// The sheets, each read by itself so that a wrong one can be named.
    pub(crate) sheets: Vec<serde_json::Value>,
}

/// One sheet.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReceivedSheetFile {
    /// What is chalked on it.
    pub(crate) mark: String,
    /// The job's name for its metal.
    pub(crate) metal: String,
    /// The size that was ordered.
    pub(crate) ordered: [String; 2],
    /// The size that it has.
    pub(crate) size: [String; 2],
    /// Its thickness by caliper; of tread plate that of the flat base.
    pub(crate) thickness: String,
    /// Both diagonals, where they were measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) diagonals: Option<[String; 2]>,
    /// When it was measured.
    pub(crate) date: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) note: Option<String>,
}
