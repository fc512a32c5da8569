//! One line of the shop's log of test strips, as it is written.
//!
//! Unlike a job, a log serves jobs of both units for years, so every length in it carries its unit.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::PatternFile;

/// A test strip in the shop's log: cut it, bend it once across, measure both legs outside.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "plateloft strip log, one line")]
pub(crate) struct StripLine {
    /// Version of the log's lines: 1.
    pub(crate) plateloft: u64,
    /// When it was bent: "2026-03-04".
    pub(crate) date: String,
    /// Alloy and temper as ordered: "5052-H32", "mild steel".
    pub(crate) metal: String,
    /// The face of the sheet. Plain when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) pattern: Option<PatternFile>,
    /// True for an alloy that the tables lack.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(crate) unlisted: bool,
    /// Thickness by caliper, with its unit: ".126 in"; of tread plate that of the flat base.
    pub(crate) thickness: String,
    /// Inside radius that the bend came out with, with its unit.
    pub(crate) inside_radius: String,
    /// Opening of the V die, with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) v_opening: Option<String>,
    /// Turn from flat on the bench, degrees.
    pub(crate) turn: f64,
    /// Turn in the die before it sprang back, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) turn_in_die: Option<f64>,
    /// Length of the strip before bending, with its unit.
    pub(crate) length: String,
    /// Both legs after bending, outside, with their unit.
    pub(crate) legs: [String; 2],
    /// Anything else worth keeping.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) note: Option<String>,
}
