//! The shop's rack of offcuts, as it is written.
//!
//! Like the log of strips it serves jobs of both units for years, so every length in it carries its unit.

use serde::{Deserialize, Serialize};

use super::{FilmFile, PatternFile};

/// The rack without its offcuts.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RackFile {
    /// Version of the rack: 1.
    #[expect(dead_code, reason = "the version is looked at before anything else is read")]
    pub(crate) plateloft_rack: u64,
    /// Least width and length of an offcut worth keeping.
    pub(crate) least: Option<[String; 2]>,
    /// The offcuts, each read by itself so that a wrong one can be named.
    pub(crate) offcuts: Vec<serde_json::Value>,
}

/// The rack with its offcuts, where nothing is wrong with it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SoundRackFile {
    /// Version of the rack.
    pub(crate) plateloft_rack: u64,
    /// Least width and length of an offcut worth keeping.
    pub(crate) least: Option<[String; 2]>,
    /// The offcuts.
    pub(crate) offcuts: Vec<OffcutFile>,
}

/// One offcut.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct OffcutFile {
    /// The shop's mark, chalked on the piece.
    pub(crate) mark: String,
    /// Alloy and temper as ordered: "5052-H32".
    pub(crate) metal: String,
    /// The face of the sheet. Plain when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) pattern: Option<PatternFile>,
    /// True for an alloy that the tables lack.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(crate) unlisted: bool,
    /// Thickness, with its unit; of tread plate that of the flat base.
    pub(crate) thickness: String,
    /// True when that thickness is as ordered, not by caliper.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(crate) not_measured: bool,
    /// Corners in order, seen from the marked face, each with its unit.
    pub(crate) outline: Vec<[String; 2]>,
    /// Holes in it, each by its corners like the outline.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(crate) holes: Vec<Vec<[String; 2]>>,
    /// Zones of it that may not be used.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(crate) torn: Vec<TornFile>,
    /// Protective film.
    pub(crate) film: FilmFile,
    /// State of the face that will show.
    pub(crate) face: FaceStateFile,
    /// Which way lugs or grain run across the outline.
    pub(crate) lay: OffcutLayFile,
    /// Where it stands.
    pub(crate) place: String,
    /// The job it is left from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) from_job: Option<String>,
    /// The mark of the piece of this rack that it was cut from, when that job was cut from the rack.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) cut_from: Option<String>,
    /// When it came to the rack.
    pub(crate) date: String,
    /// The job it is kept for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) reserved_for: Option<String>,
    /// The job it was taken for; it then no longer stands in the rack.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) taken_for: Option<String>,
    /// Anything else worth knowing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) note: Option<String>,
}

/// A zone of an offcut that may not be used.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TornFile {
    /// Its corners, like those of the offcut's outline.
    pub(crate) outline: Vec<[String; 2]>,
    /// Why it may not be used.
    pub(crate) why: String,
}

/// State of the face that will show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum FaceStateFile {
    /// Fit to show.
    Good,
    /// Scratched or stained.
    Scratched,
    /// Nobody has looked.
    Unknown,
}

/// Which way lugs or grain run across the outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum OffcutLayFile {
    /// Along x.
    #[serde(rename = "along x")]
    AlongX,
    /// Along y.
    #[serde(rename = "along y")]
    AlongY,
    /// There is none.
    #[serde(rename = "none")]
    None,
    /// There may be one, but nobody can tell.
    #[serde(rename = "unknown")]
    Unknown,
}
